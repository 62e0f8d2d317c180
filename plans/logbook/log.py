"""The log of a sitting in memory: its events and its readings, in the order in which they came."""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Iterator
from itertools import pairwise
from math import isfinite

from plans.reading import Reading
from plans.sitting import Entry, Event, folded
from plans.trace import Trace, as_logged


class Log:
    """Readings lie in a `Trace`, as the files keep them; events in a list. Iterating gives both, in order."""

    __slots__ = ("_before", "events", "readings")

    events: list[Event]
    """To be read, not changed."""
    readings: Trace
    """To be read, not changed."""

    def __init__(self, entries: Iterable[Entry] = ()) -> None:
        self.events = []
        self.readings = Trace()
        self._before = array("L")
        for entry in entries:
            self.append(entry)

    def append(self, entry: Entry) -> None:
        """Take in one entry more: an event or a reading.

        Raises:
            ValueError: its time is not finite.
        """
        if not isfinite(entry.at):
            raise ValueError("an entry of the log needs a finite time")
        if isinstance(entry, Reading):
            logged = as_logged(entry)
            self.readings.append(logged.at, logged.kelvin, logged.fault)
        else:
            self._before.append(len(self.readings))
            self.events.append(entry)

    @classmethod
    def of(cls, events: Iterable[Event], readings: Trace, before: Iterable[int]) -> Log:
        """A log from its parts; `before` says for each event how many readings came before it.

        Raises:
            ValueError, OverflowError: the parts do not fit together.
        """
        log = cls()
        log.events, log.readings, log._before = list(events), readings, array("L", before)
        counts = [0, *log._before, len(readings)]
        if len(log._before) != len(log.events) or any(b < a for a, b in pairwise(counts)):
            raise ValueError("events and readings do not fit together")
        return log

    def readings_before(self, event: int) -> int:
        """How many readings came before event number `event` (from 0)."""
        return self._before[event]

    def __len__(self) -> int:
        return len(self.events) + len(self.readings)

    def __iter__(self) -> Iterator[Entry]:
        return self.after(0, 0)

    def after(self, events: int, readings: int) -> Iterator[Entry]:
        """The entries that follow the first `events` events and `readings` readings."""
        for index in range(events, len(self.events)):
            for reading in range(readings, self._before[index]):
                yield self.readings[reading]
            readings = self._before[index]
            yield self.events[index]
        for reading in range(readings, len(self.readings)):
            yield self.readings[reading]

    @property
    def last_at(self) -> float:
        """Time of the newest entry [s]; 0 where there is none."""
        event = self.events[-1].at if self.events else 0.0
        reading = self.readings.times[-1] if self.readings else 0.0
        return max(event, reading)

    @property
    def ended(self) -> bool:
        """Whether the sitting came to its end, and the smith did not take that back; every event is looked at."""
        return folded(self.events).finished
