"""A temperature history, as logged or as planned, and the integral of a rate along it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import ceil, isfinite
from typing import NamedTuple

from plans.reading import Reading

History = Iterable[Reading | tuple[float, float | None]]
"""Readings, or pairs of seconds and kelvin, in the order of their times; between two of them the temperature runs
straight. A reading without a temperature, or with a fault, is not believed."""

BRIDGED = 10.0
"""Readings missed for no longer than this do not make a gap [s]."""

_FINE = 5.0
"""A rate that grows by 2 % a kelvin is taken at the middle of no more than this, to 0.1 % [K]."""


class Stretch(NamedTuple):
    """From one believed reading to the next."""

    start: float
    """[s]"""
    end: float
    """[s]"""
    first: float
    """Temperature at its start [K]."""
    last: float
    """Temperature at its end [K]."""
    is_gap: bool
    """Nothing is known of what was between."""

    def pieces(self) -> Sequence[tuple[float, float]]:
        """The stretch cut so that the temperature changes little in each: seconds, and kelvin in the middle."""
        seconds, change = self.end - self.start, self.last - self.first
        if abs(change) <= _FINE:
            return ((seconds, self.first + change / 2),)
        count = ceil(abs(change) / _FINE)
        return [(seconds / count, self.first + (i + 0.5) * change / count) for i in range(count)]

    def cut(self, times: Iterable[float]) -> Iterator[Stretch]:
        """The stretch cut at those of the times, which come in order, that lie within it [s]."""
        rest = self
        for at in times:
            if at >= self.end:
                break
            if at > rest.start:
                middle = self.first + (self.last - self.first) * (at - self.start) / (self.end - self.start)
                yield Stretch(rest.start, at, rest.first, middle, self.is_gap)
                rest = Stretch(at, self.end, middle, self.last, self.is_gap)
        yield rest


def stretches(history: History) -> Iterator[Stretch]:
    """The history from one believed reading to the next.

    Two readings of one time are a jump; one that goes back in time is left out.

    Args:
        history: the readings
    """
    before: tuple[float, float] | None = None
    missed = False
    for entry in history:
        at, kelvin = (entry.at, None if entry.fault else entry.kelvin) if isinstance(entry, Reading) else entry
        if kelvin is None or not isfinite(kelvin):
            missed = True
            continue
        if before is not None and at < before[0]:
            continue
        if before is not None and at > before[0]:
            is_gap = missed and at - before[0] > BRIDGED
            yield Stretch(before[0], at, before[1], kelvin, is_gap)
        before, missed = (at, kelvin), False


def hold(kelvin: float, seconds: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """The history of a time at one temperature."""
    return (0.0, kelvin), (seconds, kelvin)


@dataclass(frozen=True, slots=True)
class Along:
    """What a rate came to along a history."""

    value: float
    """Its integral over the time that is known."""
    missing: float
    """Time in gaps, which counts for nothing [s]."""
    hottest: float
    """[K]; 0 where nothing is known."""


def integral(rate: Callable[[float], float], history: History) -> Along:
    """Integral of a rate that depends on temperature, along a history; gaps are left out, and told.

    Args:
        rate: by temperature [K]
        history: the readings
    """
    value = missing = hottest = 0.0
    for stretch in stretches(history):
        if stretch.is_gap:
            missing += stretch.end - stretch.start
            continue
        hottest = max(hottest, stretch.first, stretch.last)
        for piece, kelvin in stretch.pieces():
            value += rate(kelvin) * piece
    return Along(value, missing, hottest)


def gap_note(missing: float) -> str:
    """What to add to a validity where some time is not known; empty where all is."""
    return f"; {missing:.0f} s without a temperature are not counted" if missing else ""
