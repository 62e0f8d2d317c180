"""The section of a double edge with a ridge, from what a caliper measures on it: plane geometry, no source needed.

Across the blade x runs from the first edge to the second; heights are counted from the line through the middles of both
edges, to the front and to the back alike.
"""

from __future__ import annotations

from math import atan2, hypot
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
    higher: float | None = None
    """How much higher the front's ridge stands above the middle than the back's, below 0 where the back's is higher;
    None where that was not measured, as widths tell little of it [m]."""


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
        """What a caliper would say of it, with no error, and a flat plate of its ridges."""
        return Measured(self.widths, self.edges, self.ridge, self.front.height - self.back.height)
