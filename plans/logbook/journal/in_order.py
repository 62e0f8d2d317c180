"""Which entries of a journal can't have been when they say: one wrong digit of a time, or lines that stand there twice.

A sitting writes its entries as time goes on, so their times never run backward, but in one place: what fell due while
the program was away is told after its `WentOn`. The time of a `WentOn` stands in the header as well. Therefore:

- Entries are kept that are in order, as many as can be: one that lies beyond those after it, or before those in front
  of it, is damage.
- A `WentOn` that the header knows stays, once, and what stands in front of it and is later is damage. It takes no part
  in the order, however long the break was. Where more than one that is in order stands in front of it and is later, it
  is the `WentOn` that does not stand where it was written.
- The last entries have nothing after them. They are damage where they lie more than two hours beyond the entry in front
  of them and, by the wall clock, more than two hours beyond the time at which the file was written last. So a suspend
  of eight hours is none: when it was over, the file was written. Nor is a rehearsal that runs faster than time, which
  skips no two hours, or a clock that was wrong, by itself. Where the sitting began after its file was written, the
  clock has been set back since, and nothing is known of the last entries.
"""

from __future__ import annotations

from array import array
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from itertools import pairwise
from typing import Final

from plans.logbook.header import Header
from plans.logbook.journal.log_check import SAME
from plans.sitting import Entry, WentOn

FAR: Final = 7200.0
"""So far beyond the entry in front of it, and beyond the time of the file, an entry is damage [s]."""
_FEW: Final = 1
"""So many entries in front of a `WentOn` that the header knows are rather wrong than it [entries]."""


class Times:
    """The times of a journal's entries, as they are read.

    Args:
        header: of the journal, which knows when the sitting was gone on with
    """

    def __init__(self, header: Header) -> None:
        self._header = header
        self._times = array("d")
        self._place = array("d")
        """The time that orders each entry [s]."""
        self._gone_on: dict[float, list[int]] = {}
        """The entries that tell of each going on that the header knows, by its time: one, where all is well."""

    def append(self, entry: Entry) -> None:
        """Note the time of one entry more."""
        place = entry.at
        if isinstance(entry, WentOn):
            known = next((at for at, _ in self._header.went_on if abs(at - place) <= SAME), None)
            if known is not None:
                self._gone_on.setdefault(known, []).append(len(self._place))
                place = self._place[-1] if self._place else 0.0
        self._times.append(entry.at)
        self._place.append(place)

    def misplaced(self, written: datetime) -> set[int]:
        """The numbers, from 0, of the entries that can't have been when they say; see the rule above.

        Args:
            written: when the file was written last: wall time with its offset
        """
        kept = self._kept()
        ahead = len(kept)
        known = self._header.started <= written + timedelta(seconds=FAR)
        while known and ahead and self._ahead(kept[ahead - 1], written):
            ahead -= 1
        for number in range(ahead, len(kept)):
            if self._times[kept[number]] - (self._times[kept[number - 1]] if number else 0.0) > FAR:
                kept = kept[:number]
                break
        return set() if len(kept) == len(self._place) else set(range(len(self._place))).difference(kept)

    def _kept(self) -> Sequence[int]:
        """The numbers of the entries that are in order."""
        loose = {number for numbers in self._gone_on.values() for number in numbers}
        kept: Sequence[int] = range(len(self._place))
        if any(a > b for a, b in pairwise(self._place)):
            kept = self._in_order(number for number in kept if number not in loose)
        chosen, later = [], set[int]()
        for numbers in self._gone_on.values():
            in_front = {number: self._later_in_front(kept, number) - loose for number in numbers}
            best = min(numbers, key=lambda number: len(in_front[number]))
            if len(in_front[best]) <= _FEW:
                chosen.append(best)
                later |= in_front[best]
        if not later and len(chosen) == len(loose) and len(kept) == len(self._place):
            return kept
        # What gave way to an entry that has to give way now may have its place again.
        out = loose | later
        return sorted([*self._in_order(n for n in range(len(self._place)) if n not in out), *chosen])

    def _later_in_front(self, kept: Sequence[int], number: int) -> set[int]:
        """Those of the entries that are in order, in front of one, that are later than it."""
        last = bisect_left(kept, number)
        first = bisect_right(kept, self._times[number] + SAME, 0, last, key=self._place.__getitem__)
        return set(kept[first:last])

    def _in_order(self, numbers: Iterable[int]) -> list[int]:
        some = list(numbers)
        return [some[index] for index in _in_order([self._place[number] for number in some])]

    def _ahead(self, index: int, written: datetime) -> bool:
        """Whether an entry lies far beyond the time at which the file was written last."""
        at, since, wall = self._times[index], 0.0, self._header.started
        for seconds, moment in self._header.went_on:
            if seconds <= at:
                since, wall = seconds, moment
        return at - since > (written - wall).total_seconds() + FAR


def _in_order(times: Sequence[float]) -> list[int]:
    """Numbers of the times that never run backward, as many as there can be.

    Of several such, it is the one that ends first: a time far on is wrong rather than the one behind it. Of several of
    these, the one that lies in front: what stands there twice was written once.
    """
    lasts: list[float] = []
    """By how many are in order, less one: the smallest time that they can end with."""
    for at in times:
        place = bisect_right(lasts, at)
        lasts[place : place + 1] = [at]
    end = lasts[-1] if lasts else -1.0
    follow = array("q", bytes(8 * len(times)))
    """How many are in order from each on."""
    firsts: list[float] = []
    for index in reversed(range(len(times))):
        if times[index] <= end:
            place = bisect_right(firsts, -times[index])
            firsts[place : place + 1] = [-times[index]]
            follow[index] = place + 1
    kept: list[int] = []
    for index, at in enumerate(times):
        if follow[index] == len(lasts) - len(kept) > 0 and (not kept or at >= times[kept[-1]]):
            kept.append(index)
    return kept
