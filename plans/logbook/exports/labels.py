"""Where the labels of a picture may stand: none over another, over a mark or over a curve, where there is room."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from math import ceil

from plans.logbook.thinning import Points
from plans.record import record


@record
class Box:
    """Part of a picture that something takes, in units of the picture; up is less."""

    left: float
    """Its left side."""
    top: float
    """Its upper side."""
    right: float
    """Its right side."""
    bottom: float
    """Its lower side."""

    def meets(self, other: Box) -> bool:
        """Whether two of them have more than a side in common."""
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )


LINE = 12.0
"""Height of a line of text."""
_CURVE, _LABEL = 1, 100
"""How bad it is to stand over part of a line, and over a mark or another label, which neither can be read through."""


class Room:
    """What is taken of a picture so far."""

    def __init__(self) -> None:
        self._taken: list[tuple[Box, int]] = []

    def take(self, box: Box, is_line: bool = False) -> None:
        """Let no label stand there any more; or only where there is no room else, if it is part of a line."""
        self._taken.append((box, _CURVE if is_line else _LABEL))

    def place(self, wanted: Iterable[Box]) -> Box:
        """Take the first that is free of those where a label might stand, or the one with least in its way.

        Raises:
            ValueError: none is wanted.
        """
        best, least = None, 0
        for box in wanted:
            bad = sum(weight for taken, weight in self._taken if box.meets(taken))
            if best is None or bad < least:
                best, least = box, bad
            if not bad:
                break
        if best is None:
            raise ValueError("there is no place for a label to choose from")
        self.take(best)
        return best


def around(x: float, y: float, far: float) -> Box:
    """The square whose sides lie so far from a place."""
    return Box(x - far, y - far, x + far, y + far)


def dense(places: Points) -> Iterator[tuple[float, float]]:
    """Places along a curve, so close to one another that no line of text slips through."""
    for (x, y), (to_x, to_y) in pairwise(places):
        count = max(1, ceil(max(abs(to_x - x), abs(to_y - y)) / LINE))
        for number in range(count):
            yield x + (to_x - x) * number / count, y + (to_y - y) * number / count
