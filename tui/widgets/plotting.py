"""Curves on a grid of dots: braille, two by four to a cell, or half blocks, one by two."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Sequence
from typing import cast

from plans.record import record

Extent = tuple[float, float]
"""Lowest and highest value in one column."""


@record(eq=False)
class Curve:
    """Values over time; equal only to itself, so that long ones are never compared."""

    at: Sequence[float] = ()
    """Where each value stands on the axis along the foot, rising: times [s], or what else that axis has."""
    values: Sequence[float | None] = ()
    """A value for each, in the unit of the axis at the side: kelvin, HRC, % of carbon; None where there is a gap."""

    def near(self, at: float) -> float | None:
        """The value of the point nearest to a place along the foot; None in a gap, and beyond either end."""
        if not self.at or not self.at[0] <= at <= self.at[-1]:
            return None
        right = bisect_left(self.at, at)
        left = max(0, right - 1)
        return self.values[left if at - self.at[left] < self.at[right] - at else right]


def extents(curve: Curve, begin: float, end: float, columns: int) -> list[Extent | None]:
    """Lowest and highest value of the curve in each of `columns` equal stretches of time.

    A peak of one sample stays visible. Neighbouring points are joined by a straight line, but never across a gap.
    """
    found: list[Extent | None] = [None] * columns
    if end <= begin or columns <= 0:
        return found
    at, values = curve.at, curve.values
    step = (end - begin) / columns
    start = bisect_left(at, begin)
    pen: tuple[float, float] | None = None
    """Column and value of the last point, or None after a gap."""
    if start and (before := values[start - 1]) is not None:
        pen = ((at[start - 1] - begin) / step, before)
    for column in range(columns):
        stop = (
            bisect_right(at, end, start)
            if column == columns - 1
            else bisect_left(at, begin + (column + 1) * step, start)
        )
        if stop == start:
            continue
        part = values[start:stop]
        known = cast(Sequence[float], part)
        if None in part:
            known = [value for value in part if value is not None]
        first, last = part[0], part[-1]
        if known:
            _widen(found, column, min(known), max(known))
        # Where two columns overlap already, a line between them would change nothing.
        if pen is not None and first is not None and not _overlap(found[column - 1] if column else None, found[column]):
            _join(found, pen, ((at[start] - begin) / step, first))
        pen = None if last is None else ((at[stop - 1] - begin) / step, last)
        start = stop
    if pen is not None and start < len(at) and (after := values[start]) is not None:
        _join(found, pen, ((at[start] - begin) / step, after))
    return found


def _overlap(one: Extent | None, other: Extent | None) -> bool:
    return one is not None and other is not None and one[0] <= other[1] and other[0] <= one[1]


def _widen(found: list[Extent | None], column: int, low: float, high: float) -> None:
    have = found[column]
    found[column] = (low, high) if have is None else (min(low, have[0]), max(high, have[1]))


def _join(found: list[Extent | None], one: tuple[float, float], other: tuple[float, float]) -> None:
    """A straight line from one point to another, `(column, value)`, in every column that it crosses."""
    (left, from_value), (right, to_value) = one, other
    slope = (to_value - from_value) / (right - left) if right > left else 0.0
    for column in range(max(0, int(left)), min(len(found) - 1, int(right)) + 1):
        enter = from_value + slope * (max(left, column) - left)
        leave = from_value + slope * (min(right, column + 1) - left)
        _widen(found, column, min(enter, leave), max(enter, leave))


@record
class Dots:
    """How a cell is divided into dots."""

    across: int
    """Columns of dots in a cell."""
    down: int
    """Rows of dots in a cell."""
    bits: tuple[tuple[int, ...], ...]
    """For each column of dots in a cell, the bit of each dot from the top."""
    characters: str
    """A character for each sum of bits."""


BRAILLE = Dots(2, 4, ((0x01, 0x02, 0x04, 0x40), (0x08, 0x10, 0x20, 0x80)), "".join(map(chr, range(0x2800, 0x2900))))
"""Unicode, Braille Patterns: dots 1 2 3 7 and 4 5 6 8 are bits 0 1 2 6 and 3 4 5 7."""
HALF_BLOCKS = Dots(1, 2, ((1, 2),), " ▀▄█")


class Grid:
    """Bits of the dots that are set, by cell: `row * width + column`."""

    def __init__(self, width: int, height: int, dots: Dots) -> None:
        self.dots = dots
        self.width = width
        self.columns = width * dots.across
        self.rows = height * dots.down
        self.cells: defaultdict[int, int] = defaultdict(int)

    def upright(self, column: int, top: int, bottom: int) -> None:
        """Set the dots of one column from row `top` to row `bottom`."""
        cells, down, width = self.cells, self.dots.down, self.width
        place, side = divmod(column, self.dots.across)
        bits = self.dots.bits[side]
        for row in range(top // down, bottom // down + 1):
            base = row * down
            cells[row * width + place] |= sum(bits[max(0, top - base) : bottom - base + 1])

    def dash(self, row: int) -> None:
        """Set a row of dots in two of every three cells."""
        cell_row, dot = divmod(row, self.dots.down)
        bits = sum(side[dot] for side in self.dots.bits)
        for column in range(self.width):
            if column % 3 < 2:
                self.cells[cell_row * self.width + column] |= bits
