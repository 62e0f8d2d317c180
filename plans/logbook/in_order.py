"""Which entries of a journal can't have been when they say: one wrong digit of a time, or lines that stand there twice.

A sitting writes its entries as time goes on, so their times never run backward, but in one place: what fell due while
the program was away is told after its `WentOn`. The time of a `WentOn` stands in the header as well. Therefore:

- Entries are kept that are in order, as many as can be: one that lies beyond those after it, or before those in front
  of it, is damage. A `WentOn` that the header knows takes no part in this, however long the break was.
- The last entries have nothing after them. They are damage where they lie more than two hours beyond the entry in front
  of them and, by the wall clock, more than two hours beyond the time at which the file was written last. So a suspend
  of eight hours is none: when it was over, the file was written. Nor is a rehearsal that runs faster than time, which
  skips no two hours, or a clock that was wrong, by itself. Where the sitting began after its file was written, the
  clock has been set back since, and nothing is known of the last entries.
- A time before the beginning is damage, and one thirty years after it, and an entry about what was still to come.
"""

from __future__ import annotations

from array import array
from bisect import bisect_right
from collections.abc import Sequence
from datetime import datetime, timedelta
from itertools import pairwise
from typing import Final

from plans.logbook.header import Header
from plans.record_values import LATEST
from plans.sitting import Entry, WentOn

FAR: Final = 7200.0
"""So far beyond the entry in front of it, and beyond the time of the file, an entry is damage [s]."""
_SAME: Final = 0.01
"""Times that are no further apart are the same one, rounded [s]."""


class Times:
    """The times of a journal's entries, as they are read.

    Args:
        header: of the journal, which knows when the sitting was gone on with
    """

    def __init__(self, header: Header) -> None:
        self._header = header
        self._times = array("d")
        self._place = array("d")
        """The time that orders each entry [s]; below 0 where it can't be anywhere."""

    def append(self, entry: Entry) -> None:
        """Note the time of one entry more."""
        place = entry.at
        if isinstance(entry, WentOn) and any(abs(at - entry.at) <= _SAME for at, _ in self._header.went_on):
            place = self._place[-1] if self._place else 0.0
        if entry.at > LATEST or not all(0 <= at <= entry.at + _SAME for at in _looks_back_to(entry)):
            place = -1.0
        self._times.append(entry.at)
        self._place.append(place)

    def misplaced(self, written: datetime) -> set[int]:
        """The numbers, from 0, of the entries that can't have been when they say; see the rule above.

        Args:
            written: when the file was written last: wall time with its offset
        """
        place = self._place
        in_order = all(a <= b for a, b in pairwise(place)) and not (place and place[0] < 0)
        kept = range(len(place)) if in_order else _in_order(place)
        ahead = len(kept)
        known = self._header.started <= written + timedelta(seconds=FAR)
        while known and ahead and self._ahead(kept[ahead - 1], written):
            ahead -= 1
        for number in range(ahead, len(kept)):
            if self._times[kept[number]] - (self._times[kept[number - 1]] if number else 0.0) > FAR:
                kept = kept[:number]
                break
        return set() if len(kept) == len(place) else set(range(len(place))).difference(kept)

    def _ahead(self, index: int, written: datetime) -> bool:
        """Whether an entry lies far beyond the time at which the file was written last."""
        at, since, wall = self._times[index], 0.0, self._header.started
        for seconds, moment in self._header.went_on:
            if seconds <= at:
                since, wall = seconds, moment
        return at - since > (written - wall).total_seconds() + FAR


def _looks_back_to(entry: Entry) -> list[float]:
    """When what it is about was [s]."""
    if isinstance(entry, WentOn):
        since = entry.paused_since, entry.away_since
    else:
        since = getattr(entry, "happened", None), None
    return [at for at in since if at is not None]


def _in_order(times: Sequence[float]) -> list[int]:
    """Numbers of the times, none below 0, that never run backward, as many as there can be.

    Of several such, it is the one that ends first: a time far on is wrong rather than the one behind it. Of several of
    these, the one that lies in front: what stands there twice was written once.
    """
    lasts: list[float] = []
    """By how many are in order, less one: the smallest time that they can end with."""
    for at in times:
        if at >= 0:
            place = bisect_right(lasts, at)
            lasts[place : place + 1] = [at]
    end = lasts[-1] if lasts else -1.0
    follow = array("q", bytes(8 * len(times)))
    """How many are in order from each on."""
    firsts: list[float] = []
    for index in reversed(range(len(times))):
        if 0 <= times[index] <= end:
            place = bisect_right(firsts, -times[index])
            firsts[place : place + 1] = [-times[index]]
            follow[index] = place + 1
    kept: list[int] = []
    for index, at in enumerate(times):
        if follow[index] == len(lasts) - len(kept) > 0 and (not kept or at >= times[kept[-1]]):
            kept.append(index)
    return kept
