"""Which reading is believed: the probe's temperature as everything takes it that reckons, draws or learns from it."""

from __future__ import annotations

from array import array
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator
from math import isnan, nan

from plans.reading import ProbeOn, Reading
from plans.sitting.events import Entry, WentOn
from plans.sitting.senses import COLDEST, FASTEST, HOTTEST, LONGEST_PATIENCE, SILENCE, Probe, slope_of
from plans.trace import Trace

_LOST = "lost"
"""How the fault of a reading begins that says that the probe is gone."""


def why_no_temperature(reading: Reading) -> str | None:
    """Why a reading by itself can't be the temperature of work or fire; None where it can."""
    if reading.kelvin is None or reading.fault is not None:
        return reading.fault or "missing"
    if not COLDEST <= reading.kelvin <= HOTTEST:
        return "beyond any temperature of work or fire"
    return None


def tells_loss(reading: Reading) -> bool:
    """Whether a reading says that the probe is gone."""
    return (reading.fault or "").startswith(_LOST)


class Believed:
    """The readings of a sitting, and beside each the temperature that is believed from then on.

    A reading is believed as the median of the last second, or of the last few, once enough agree since the beginning or
    the last silence; one that is further off than the work can have come is not, unless it stands (`Probe`). What a
    reading says stands until the next one that is believed, or until the probe counts as lost: because it said so, or
    because nothing that can be believed came for longer than the patience of its own interval. One row for each
    reading, 25 bytes.

    Args:
        probe_on: where the probe sits; None without one, and then nothing is believed
        fastest: the fastest that the work can change, as `fastest_change` has it of the plan [K/s]; None if unknown
    """

    def __init__(self, probe_on: ProbeOn | None, fastest: float | None = None) -> None:
        self.measured = Trace()
        """Every reading, as it came."""
        self.kelvins: array[float] = array("d")
        """For each reading the temperature that is believed from then on [K]; NaN where it is not believed."""
        self._ended: dict[int, float] = {}
        """When what a reading said stood no longer before the next one that is believed, by its number [s]."""
        self.probe = Probe()
        """The filter that the readings go through, as the newest of them left it."""
        self._fastest = FASTEST if fastest is None else fastest
        self._standing: int | None = None
        """The newest reading that is believed, while nothing has ended it."""
        self._stands_until = 0.0
        """When that will stand no longer, unless it is borne out before [s]."""
        self._places: list[tuple[int, ProbeOn | None]] = [(0, probe_on)]
        """Where the probe sat, from which reading on."""
        self._sits(probe_on)

    @classmethod
    def of(cls, entries: Iterable[Entry], probe_on: ProbeOn | None, fastest: float | None = None) -> Believed:
        """What is believed of a whole log; the same as what the sitting believed that wrote it.

        Args:
            entries: events and readings in the order in which they came
            probe_on: where the probe sat at the beginning
            fastest: the fastest that the work can change, as `fastest_change` has it of the plan [K/s]; None if unknown
        """
        believed = cls(probe_on, fastest)
        for entry in entries:
            if isinstance(entry, Reading):
                believed.hear(entry)
            elif isinstance(entry, WentOn):
                believed.go_on(entry.at, entry.probe_on)
        return believed

    def hear(self, reading: Reading) -> bool:
        """Take the next reading in; times must not go back. Whether it is believed."""
        at, kelvin, believed = reading.at, reading.kelvin, nan
        probe = self.probe
        if self._places[-1][1] is not None:
            if kelvin is not None and why_no_temperature(reading) is None:
                if probe.hear(at, kelvin) and probe.kelvin is not None:
                    believed = probe.kelvin
                    if self._stands_until < at:
                        self._end(at)
                    self._standing, self._stands_until = len(self.kelvins), probe.stands_until
            elif tells_loss(reading):
                self.lose(at)
        self.measured.append(at, kelvin, reading.fault)
        self.kelvins.append(believed)
        return believed == believed

    def fall_silent(self, at: float) -> None:
        """Nothing that can be believed has come for too long: what the probe said stands no longer [s]."""
        self._end(at)
        self._standing = None
        self.probe.fall_silent()

    def lose(self, at: float) -> None:
        """The probe is lost: what it said stands no longer [s], and bears nothing out of what it will say."""
        self._end(at)
        self._standing = None
        self.probe.lose()

    def go_on(self, at: float, probe_on: ProbeOn | None) -> None:
        """The program was started again, with a probe that perhaps sits elsewhere; its silence counts from now [s]."""
        self.lose(at)
        self.probe.expect(at)
        self._places.append((len(self.kelvins), probe_on))
        self._sits(probe_on)

    def standing(self, began: float, ended: float, on: ProbeOn) -> Iterator[tuple[float, float, float]]:
        """What a probe in one place said between two times [s], gaps left out: from, to [s], temperature [K]."""
        times, kelvins, ends = self.measured.times, self.kelvins, self._ended
        last: int | None = None
        for index in range(self._standing_at(began), bisect_left(times, ended)):
            if kelvins[index] != kelvins[index]:
                continue
            if last is not None:
                start, end = max(began, times[last]), min(ends.get(last, ended), times[index])
                if start < end and self._place(last) is on:
                    yield start, end, kelvins[last]
            last = index
        if last is not None:
            until = self._stands_until if last == self._standing else ended
            start, end = max(began, times[last]), min(ended, ends.get(last, until))
            if start < end and self._place(last) is on:
                yield start, end, kelvins[last]

    def unbroken(self, began: float, ended: float) -> Iterator[int]:
        """The numbers of the readings believed from `began` on, up to `ended` [s] or until the probe is lost."""
        times = self.measured.times
        before: int | None = None
        for index in range(bisect_left(times, began), bisect_right(times, ended)):
            if isnan(self.kelvins[index]):
                continue
            if times[index] - began > SILENCE if before is None else before in self._ended:
                return
            yield index
            before = index

    def pieces(self, begin: float, end: float) -> list[list[tuple[float, float]]]:
        """Time [s] and temperature [K] of each reading believed from `begin` up to `end` [s], parted by every loss."""
        times = self.measured.times
        found: list[list[tuple[float, float]]] = []
        before: int | None = None
        for index in range(bisect_left(times, begin), bisect_left(times, end)):
            if isnan(self.kelvins[index]):
                continue
            if before is None or before in self._ended:
                found.append([])
            found[-1].append((times[index], self.kelvins[index]))
            before = index
        return found

    def slope(self, at: float) -> float:
        """How fast what is believed has changed lately: over four seconds, or three readings of a slow probe [K/s]."""
        pieces = self.pieces(at - max(4.0, 3 * self.probe.interval), at + 1e-6)
        return slope_of(pieces[-1]) if pieces else 0.0

    def _sits(self, probe_on: ProbeOn | None) -> None:
        """A bare probe in the fire can change faster than steel."""
        self.probe.fastest = self._fastest if probe_on is ProbeOn.WORK else FASTEST

    def _end(self, at: float) -> None:
        if self._standing is not None:
            self._ended[self._standing] = min(self._stands_until, at)

    def _standing_at(self, at: float) -> int:
        """The reading that stands at a time [s], or the next one."""
        times = self.measured.times
        first = index = bisect_left(times, at)
        while index and at - times[index - 1] <= LONGEST_PATIENCE:
            index -= 1
            if not isnan(self.kelvins[index]):
                return index
        return first

    def _place(self, index: int) -> ProbeOn | None:
        """Where the probe sat at a reading."""
        first, place = self._places[-1]
        if index >= first:
            return place
        return next(place for first, place in reversed(self._places) if first <= index)
