"""A temperature curve: lean in memory, and whole on disk as delta-coded integers."""

from __future__ import annotations

from array import array
from bisect import bisect_left
from collections.abc import Iterable, Iterator
from itertools import pairwise, repeat
from math import isfinite, isnan, nan

from plans.reading import Reading
from plans.record_values import HOTTEST
from plans.units import ZERO_CELSIUS

_MOST_CODES = 256
"""So many kinds of fault, with none, fit in a byte; a probe that tells more is given more room."""


def to_tenths(kelvin: float) -> int:
    """A temperature [K] as the log keeps it: in whole tenths of a degree Celsius."""
    return round((kelvin - ZERO_CELSIUS) * 10)


def from_tenths(tenths: int) -> float:
    """A temperature [K] from the tenths of a degree Celsius that the log keeps."""
    return tenths / 10 + ZERO_CELSIUS


def as_logged(reading: Reading) -> Reading:
    """A reading as it comes back from the log: to the millisecond and the tenth of a degree Celsius.

    A sitting that is fed with these replays to the same state to the last bit. Doing it twice changes nothing.
    A temperature that is no number or beyond `HOTTEST` becomes a fault.

    Raises:
        ValueError: the time is not finite.
    """
    if not isfinite(reading.at):
        raise ValueError("a reading needs a finite time")
    at, kelvin, fault = round(reading.at * 1000) / 1000, reading.kelvin, reading.fault
    if kelvin is not None:
        # Whatever comes down a wire must not make a number that can't be kept.
        if isfinite(kelvin) and abs(tenths := to_tenths(kelvin)) <= 10 * HOTTEST:
            kelvin = from_tenths(tenths)
        else:
            kelvin, fault = None, fault or "out of range"
    if at == reading.at and kelvin == reading.kelvin:
        return reading
    return Reading(at, kelvin, fault)


class Trace:
    """Readings in the order in which they came, about 17 bytes each; a missing one keeps its time and its fault."""

    __slots__ = ("_codes", "_fault", "_faults", "_in_order", "kelvins", "times")

    times: array[float]
    """When each reading was taken: seconds since the sitting began [s]; to be read, not changed."""
    kelvins: array[float]
    """Temperature of each reading [K], NaN where it has none; to be read, not changed."""

    def __init__(self, readings: Iterable[Reading] = ()) -> None:
        self.times = array("d")
        self.kelvins = array("d")
        self._fault = array("B")
        self._faults: list[str | None] = [None]
        self._codes: dict[str | None, int] = {None: 0}
        self._in_order = True
        for reading in readings:
            self.append(reading.at, reading.kelvin, reading.fault)

    def append(self, at: float, kelvin: float | None, fault: str | None = None) -> None:
        """Add one reading at the end.

        Args:
            at: when it was taken, since the sitting began [s]
            kelvin: its temperature [K]; None where there is none
            fault: why the temperature is missing or not to be believed; None where it is sound
        """
        code = self._code(fault)
        if self.times and at < self.times[-1]:
            self._in_order = False
        self.times.append(at)
        self.kelvins.append(nan if kelvin is None else kelvin)
        self._fault.append(code)

    def extend(self, times: array[float], kelvins: Iterable[float], fault: str | None) -> None:
        """Add readings of one kind at the end: all with a temperature or all without, all with the same fault.

        Args:
            times: when each was taken, since the sitting began [s]; one at least
            kelvins: the temperature of each [K]; NaN where there is none
            fault: why the temperatures are missing or not to be believed; None where they are sound
        """
        code = self._code(fault)
        back = any(later < earlier for earlier, later in pairwise(times))
        if back or (self.times and times[0] < self.times[-1]):
            self._in_order = False
        self.times += times
        self.kelvins.extend(kelvins)
        self._fault.extend(repeat(code, len(times)))

    def _code(self, fault: str | None) -> int:
        """The code of a fault; a new one may make `_fault` another array."""
        code = self._codes.get(fault)
        if code is None:
            code = self._codes[fault] = len(self._faults)
            self._faults.append(fault)
            if code == _MOST_CODES:
                self._fault = array("I", self._fault)
        return code

    @property
    def in_order(self) -> bool:
        """Whether no reading was taken before one that stands before it."""
        return self._in_order

    def __len__(self) -> int:
        return len(self.times)

    def __getitem__(self, index: int) -> Reading:
        kelvin = self.kelvins[index]
        return Reading(self.times[index], None if isnan(kelvin) else kelvin, self._faults[self._fault[index]])

    def __iter__(self) -> Iterator[Reading]:
        return map(self.__getitem__, range(len(self)))

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Trace):
            return NotImplemented
        return len(self) == len(other) and all(mine == theirs for mine, theirs in zip(self, other, strict=True))

    __hash__ = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        span = f", {self.times[0]:g} to {self.times[-1]:g} s" if self.times else ""
        return f"<Trace of {len(self)}{span}>"

    def between(self, start: float, end: float) -> Trace:
        """The readings from `start` up to but not including `end` [s], as a trace of their own."""
        if not self._in_order:
            return Trace(reading for reading in self if start <= reading.at < end)
        part = Trace()
        first, last = bisect_left(self.times, start), bisect_left(self.times, end)
        part.times, part.kelvins = self.times[first:last], self.kelvins[first:last]
        part._fault = self._fault[first:last]
        part._faults, part._codes = list(self._faults), dict(self._codes)
        return part

    def fault_at(self, index: int) -> str | None:
        """Why the reading at that index, from 0, is missing or not to be believed; None where it is sound.

        Costs less than the reading itself.
        """
        return self._faults[self._fault[index]]
