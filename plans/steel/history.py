"""A temperature history of the work, as logged or as planned, and the integral of a rate along it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from math import ceil, isfinite
from typing import NamedTuple

from plans.reading import Reading
from plans.record import record

History = Iterable[Reading | tuple[float, float | None]]
"""A temperature history: readings, or pairs of time [s] and temperature [K], in the order of their times.

Between two of them the temperature runs straight. A reading without a temperature, or with a fault, is not believed.
"""

BRIDGED = 10.0
"""Longest time without a believed reading that does not make a gap in a history [s]."""

_FINE = 5.0
"""A rate that grows by 2 % a kelvin is taken at the middle of no more than this, to 0.1 % [K]."""


class Stretch(NamedTuple):
    """A stretch of a temperature history, from one believed reading to the next."""

    start: float
    """Time of its beginning [s]."""
    end: float
    """Time of its end [s]."""
    first: float
    """Temperature at its beginning [K]."""
    last: float
    """Temperature at its end [K]."""
    is_gap: bool
    """Whether readings are missing for so long that nothing is known of the temperature between its ends."""

    def pieces(self) -> Sequence[tuple[float, float]]:
        """The stretch cut so finely that the temperature changes little in each piece.

        Returns:
            Length [s] and middle temperature [K] of each piece, in order.
        """
        seconds, change = self.end - self.start, self.last - self.first
        if abs(change) <= _FINE:
            return ((seconds, self.first + change / 2),)
        count = ceil(abs(change) / _FINE)
        return [(seconds / count, self.first + (i + 0.5) * change / count) for i in range(count)]

    def cut(self, times: Iterable[float]) -> Iterator[Stretch]:
        """The stretch cut in two at each time that lies within it.

        Args:
            times: where to cut, in order [s]; those outside of the stretch are passed over
        """
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
    """The stretches of a history, each from one believed reading to the next.

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
    """The history of a hold: one temperature for a time, from 0 s on.

    Args:
        kelvin: the temperature [K]
        seconds: the time [s]
    """
    return (0.0, kelvin), (seconds, kelvin)


@record
class Along:
    """The integral of a rate along a temperature history, and how much of the history was known."""

    value: float
    """Integral of the rate over the time for which the temperature is known, in the unit of the rate times seconds."""
    missing: float
    """Time in gaps, which the integral leaves out [s]."""
    hottest: float
    """Highest temperature that is known [K]; 0 where none is."""


def integral(rate: Callable[[float], float], history: History) -> Along:
    """Integral of a rate that depends on the temperature, along a history; gaps are left out, and told.

    Args:
        rate: from a temperature [K] to the rate, in any unit [1/s]
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
    """The words that a figure's validity ends with where readings were missing; empty where none were.

    Args:
        missing: time in gaps [s]
    """
    return f"; {missing:.0f} s without a temperature are not counted" if missing else ""
