"""Which points of the clock grid a sitting keeps of its warm model: of a month in which nothing came but a few."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator

from plans.sitting.running_piece import GRID

_EVERY_ONE = int(3600 / GRID)
"""So many points after an entry of the log each of them is kept: an hour of them."""
_SHARE = 60
"""Later the next one is further on by this share of the time since that entry, to a whole second."""


class KeptPoints:
    """The points that are kept, in order: each of them for an hour after an entry of the log, fewer and fewer later.

    A point is called by its number on the grid: number 1 lies half a second after the beginning. What is kept hangs on
    when the entries of the log came and on nothing else, so that a log which is replayed keeps the same ones.
    """

    __slots__ = ("_from", "_passed")

    def __init__(self) -> None:
        self._from: list[int] = []
        """Places, among those that are kept, before which points were passed over."""
        self._passed: list[int] = []
        """How many were passed over by then, in all."""

    def number(self, place: int) -> int:
        """Number on the grid of the point that is kept at a place, from 0."""
        return place + 1 + self._passed_by(place)

    def time(self, place: int) -> float:
        """When the point that is kept at a place was [s]."""
        return self.number(place) * GRID

    def place_after(self, at: float) -> int:
        """The place of the first point that is kept after a time [s], or that it would get."""
        number = int(at / GRID) + 1
        if not self._from or number <= self._from[0] + 1:
            return number - 1
        low = 0
        # Between two places at which points were passed over, numbers rise by one.
        high = len(self._from)
        while low < high:
            middle = (low + high) // 2
            if self.number(self._from[middle]) <= number:
                low = middle + 1
            else:
                high = middle
        if not low:
            return min(number - 1, self._from[0])
        place = number - 1 - self._passed[low - 1]
        return place if low == len(self._from) else min(place, self._from[low])

    def add(self, place: int, number: int) -> None:
        """Say which point of the grid is kept at the next place."""
        passed = number - place - 1
        if passed > (self._passed[-1] if self._passed else 0):
            self._from.append(place)
            self._passed.append(passed)

    def cut(self, place: int) -> None:
        """Forget what is kept from a place on."""
        first = bisect_right(self._from, place - 1)
        del self._from[first:], self._passed[first:]

    def _passed_by(self, place: int) -> int:
        if not self._from or place < self._from[0]:
            return 0
        return self._passed[bisect_right(self._from, place) - 1]


def next_kept(number: int, entry: int) -> int:
    """The point that is kept next after one, by their numbers on the grid.

    Args:
        number: of the point that is kept
        entry: of the last one before the newest entry of the log
    """
    since = number - entry
    return number + 1 if since < _EVERY_ONE else (number + since // _SHARE) // 2 * 2


def kept_until(number: int, entry: int, last: int) -> Iterator[int]:
    """The points that are kept after one up to `last`, by their numbers on the grid."""
    while (number := next_kept(number, entry)) <= last:
        yield number
