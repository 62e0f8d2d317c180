"""The outline of a section: straight sides and arcs, and what follows from them."""

from __future__ import annotations

from collections.abc import Iterator
from math import acos, asin, ceil, cos, hypot, sin, sqrt
from typing import NamedTuple

from plans.record import record


class Point(NamedTuple):
    """A point of a section, seen along the bar."""

    x: float
    """How far it lies along the width, from the edge or from one side [m]."""
    y: float
    """How far it lies above the middle of the thickness [m]; below it is negative."""


@record
class Side:
    """One side of an outline, straight or an arc of at most half a circle; the steel lies on its left."""

    begin: Point
    """Where it begins."""
    end: Point
    """Where it ends."""
    radius: float | None = None
    """Radius of an arc [m]: above 0 it bulges out of the steel, below 0 into it; None where it is straight."""

    @property
    def chord(self) -> float:
        """Distance between its ends [m]."""
        return hypot(self.end.x - self.begin.x, self.end.y - self.begin.y)

    @property
    def length(self) -> float:
        """Its own length [m]."""
        return self.chord if self.radius is None else abs(self.radius) * self._angle(self.radius)

    @property
    def moments(self) -> tuple[float, float, float]:
        """Area between it and the origin [m2], and that area times the x and the y of its centroid [m3].

        The sums over a closed outline are those of the section, by Green's theorem; that of an arc is the triangle on
        its chord and a segment of a circle.
        """
        (ax, ay), (bx, by) = self.begin, self.end
        triangle = (ax * by - bx * ay) / 2
        area, of_x, of_y = triangle, triangle * (ax + bx) / 3, triangle * (ay + by) / 3
        if self.radius is not None:
            angle, centre = self._angle(self.radius), self._centre(self.radius)
            sign = 1.0 if self.radius > 0 else -1.0
            over = _angle_over_sine(angle)
            segment = sign * self.radius**2 * over / 2
            out = 4 * abs(self.radius) * sin(angle / 2) ** 3 / (3 * over)
            area += segment
            of_x += segment * (centre.x + sign * out * (by - ay) / self.chord)
            of_y += segment * (centre.y - sign * out * (bx - ax) / self.chord)
        return area, of_x, of_y

    def height(self, x: float) -> float:
        """The y of the side at an x between its ends [m]; of an upright side that of its end."""
        (ax, ay), (bx, by) = self.begin, self.end
        if self.radius is None:
            return by if ax == bx else ay + (x - ax) / (bx - ax) * (by - ay)
        centre = self._centre(self.radius)
        # What runs to the left lies above the steel; a bulge lies beyond its centre, a hollow before it.
        beyond = (1.0 if bx < ax else -1.0) * (1.0 if self.radius > 0 else -1.0)
        return centre.y + beyond * sqrt(max(self.radius**2 - (x - centre.x) ** 2, 0.0))

    def points(self, within: float) -> Iterator[Point]:
        """Its beginning, and of an arc points between, so close that no chord is farther from it than `within` [m]."""
        yield self.begin
        if self.radius is None:
            return
        angle, centre, size = self._angle(self.radius), self._centre(self.radius), abs(self.radius)
        widest = 2 * acos(max(1 - within / size, 0.0))
        count = max(1, ceil(angle / widest))
        turn = angle / count * (1.0 if self.radius > 0 else -1.0)
        x, y = self.begin.x - centre.x, self.begin.y - centre.y
        for k in range(1, count):
            c, s = cos(k * turn), sin(k * turn)
            yield Point(centre.x + x * c - y * s, centre.y + x * s + y * c)

    def _angle(self, radius: float) -> float:
        return 2 * asin(min(self.chord / 2 / abs(radius), 1.0))

    def _centre(self, radius: float) -> Point:
        (ax, ay), (bx, by) = self.begin, self.end
        back = sqrt(max(radius**2 - (self.chord / 2) ** 2, 0.0)) / self.chord * (1.0 if radius > 0 else -1.0)
        return Point((ax + bx) / 2 - back * (by - ay), (ay + by) / 2 + back * (bx - ax))


def _angle_over_sine(angle: float) -> float:
    """By how much an angle is larger than its sine, without losing what is left of a small one."""
    if angle > 0.1:
        return angle - sin(angle)
    return angle**3 / 6 * (1 - angle**2 / 20 * (1 - angle**2 / 42))


@record
class Outline:
    """A closed outline, which goes round the steel with the steel on its left; an upright line crosses it twice.

    Raises:
        ValueError: it is not closed.
    """

    sides: tuple[Side, ...]
    """Its sides, one after the other."""

    def __post_init__(self) -> None:
        if any(one.end != self.sides[k - len(self.sides) + 1].begin for k, one in enumerate(self.sides)):
            raise ValueError("sides: each side of an outline begins where the one before it ends")

    @property
    def area(self) -> float:
        """Area that it goes round [m2]."""
        return sum(side.moments[0] for side in self.sides)

    @property
    def around(self) -> float:
        """Its length [m]."""
        return sum(side.length for side in self.sides)

    @property
    def centroid(self) -> Point:
        """Centre of the area."""
        area, of_x, of_y = (sum(parts) for parts in zip(*(side.moments for side in self.sides), strict=True))
        return Point(of_x / area, of_y / area)

    def across(self, x: float) -> tuple[float, float]:
        """The lower and the upper y of the steel at an x [m].

        Raises:
            ValueError: the outline does not reach so far.
        """
        # Only what runs along counts: an upright side ends where its neighbours begin.
        along = [side for side in self.sides if side.begin.x != side.end.x]
        there = [
            side.height(x) for side in along if min(side.begin.x, side.end.x) <= x <= max(side.begin.x, side.end.x)
        ]
        if not there:
            raise ValueError("x: the outline does not reach so far")
        return min(there), max(there)

    def points(self, within: float = 1e-5) -> tuple[Point, ...]:
        """Its corners, and on arcs points between; the last is not the first again.

        Args:
            within: how far a straight line between two of them may lie from an arc [m]
        """
        return tuple(point for side in self.sides for point in side.points(within))
