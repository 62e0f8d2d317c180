"""The section of a double edge with a ridge, from what a caliper measures on it: plane geometry, no source needed.

Across the blade x runs from the first edge to the second; heights are counted from the line through the middles of both
edges, to the front and to the back alike.
"""

from __future__ import annotations

from math import atan2, hypot, sqrt
from typing import Final

from plans.errors import PlansError
from plans.record import record

BEVELS: Final = ("front, first edge", "front, second edge", "back, first edge", "back, second edge")
"""What the four bevels are called, in the order in which they are measured."""


class BenchError(PlansError):
    """Measured lengths make no section; says which, and what would be right.

    Args:
        given: name of what was measured, e.g. "widths"
        why: what is wrong with it, and what would be right
    """

    def __init__(self, given: str, why: str) -> None:
        super().__init__(why)
        self.given = given
        """Name of what was measured."""


@record
class Measured:
    """What a caliper says of a double edge."""

    widths: tuple[float, float, float, float]
    """Width of each bevel along its face, from the ridge to where the edge begins, in the order of `BEVELS` [m]."""
    edges: tuple[float, float]
    """Thickness of the first and of the second edge [m]."""
    ridge: float
    """Thickness at the ridge [m]."""


@record
class Face:
    """One side of a double edge, the front or the back: two bevels that meet at a ridge."""

    first: float
    """Height where the bevel of the first edge begins [m]."""
    second: float
    """Height where the bevel of the second edge ends [m]."""
    across: float
    """Where the ridge lies, from the first edge [m]."""
    height: float
    """Height of the ridge [m]."""

    def mirrored(self, width: float) -> Face:
        """A face with its edges changed over, first for second.

        Args:
            width: of the blade [m]
        """
        return Face(self.second, self.first, width - self.across, self.height)

    @property
    def bevel(self) -> float:
        """Width of the bevel of the first edge, along its face [m]."""
        return hypot(self.across, self.height - self.first)

    @property
    def slope(self) -> float:
        """Angle of the bevel of the first edge to the middle of the blade [rad]."""
        return atan2(self.height - self.first, self.across)


@record
class DoubleEdge:
    """A section with four bevels, two blunt edges and a ridge on either side."""

    width: float
    """From the flat of one edge to that of the other [m]."""
    front: Face
    """The face on which the first two bevels lie."""
    back: Face
    """The face on which the other two lie."""

    @property
    def widths(self) -> tuple[float, float, float, float]:
        """Width of each bevel along its face, in the order of `BEVELS` [m]."""
        front, back = self.front.mirrored(self.width), self.back.mirrored(self.width)
        return (self.front.bevel, front.bevel, self.back.bevel, back.bevel)

    @property
    def edges(self) -> tuple[float, float]:
        """Thickness of the first and of the second edge [m]."""
        return self.front.first + self.back.first, self.front.second + self.back.second

    @property
    def ridge(self) -> float:
        """Thickness from ridge to ridge [m]."""
        return self.front.height + self.back.height

    @property
    def offsets(self) -> tuple[float, float]:
        """How far the front's and the back's ridge lie beyond the middle, towards the second edge [m]."""
        return self.front.across - self.width / 2, self.back.across - self.width / 2

    @property
    def offset(self) -> float:
        """How far the ridge lies beyond the middle, towards the second edge, both faces together [m]."""
        return sum(self.offsets) / 2

    @property
    def measured(self) -> Measured:
        """What a caliper would say of it."""
        return Measured(self.widths, self.edges, self.ridge)


def section_of(measured: Measured) -> DoubleEdge:
    """The section that was measured, its edges square to its middle.

    Of all widths that the blade may have, the one at which both ridges are as far apart as the caliper says.

    Raises:
        BenchError: no section measures so.
    """
    _check(measured)
    one, two, three, four = measured.widths
    low = max(sqrt(abs(one**2 - two**2)), sqrt(abs(three**2 - four**2)), 1e-9)
    high = min(one + two, three + four)

    def at(width: float) -> DoubleEdge | None:
        front, back = (_face(pair, measured.edges, width) for pair in ((one, two), (three, four)))
        return None if front is None or back is None else DoubleEdge(width, front, back)

    for _ in range(100):
        width = (low + high) / 2
        found = at(width)
        low, high = (width, high) if found is not None and found.ridge > measured.ridge else (low, width)
    found = at(low)
    if found is None or abs(found.ridge - measured.ridge) > 1e-6:
        raise BenchError(
            "ridge", "the bevels' widths, the edges and the thickness at the ridge make no section: measure them again"
        )
    return found


def _check(measured: Measured) -> None:
    if not all(1e-4 <= width <= 1.0 for width in measured.widths):
        raise BenchError("widths", "give four, from 0.1 mm to 1 m each")
    if not all(0 < edge <= 0.1 for edge in measured.edges):
        raise BenchError("edges", "give two, above zero and up to 100 mm each")
    if not max(measured.edges) < measured.ridge:
        raise BenchError("ridge", "it must be thicker than both edges")
    if (measured.ridge - min(measured.edges)) / 2 >= min(measured.widths):
        raise BenchError(
            "ridge", "so thick a ridge on so narrow bevels would stand steeper than upright: measure again"
        )


def _face(widths: tuple[float, float], edges: tuple[float, float], width: float) -> Face | None:
    """The face whose bevels are so wide, where two circles round the ends of its edges meet; None where they don't."""
    first, second = (edge / 2 for edge in edges)
    apart = hypot(width, second - first)
    if apart >= sum(widths) or apart <= abs(widths[0] - widths[1]):
        return None
    along = (apart**2 + widths[0] ** 2 - widths[1] ** 2) / (2 * apart)
    aside = sqrt(max(widths[0] ** 2 - along**2, 0.0))
    to_x, to_y = width / apart, (second - first) / apart
    return Face(first, second, along * to_x - aside * to_y, first + along * to_y + aside * to_x)
