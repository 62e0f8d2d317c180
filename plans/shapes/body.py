"""Bodies of steel along a length: bars, tapers, points, tangs, rounded ends."""

from __future__ import annotations

from enum import StrEnum
from functools import lru_cache
from itertools import pairwise
from math import dist, pi, sqrt
from typing import NamedTuple

from plans.record import record
from plans.shapes.outline import Point
from plans.shapes.section import Section


class Runout(StrEnum):
    """How a body runs out to nothing."""

    TIP = "tip"
    """Width and thickness both, as of a point that is drawn out."""
    EDGE = "edge"
    """The thickness, and the width stays, as of a chisel."""
    POINT = "point"
    """The width, and the thickness stays, as of a bar whose end is cut or ground to a point or round."""


class Line(StrEnum):
    """The line along which the sides of a body run from its beginning to its end."""

    STRAIGHT = "straight"
    """In a straight line, as of a taper."""
    ROUNDED = "rounded"
    """In a quarter of an ellipse that leaves the beginning along the bar, as of a rounded end."""
    HOLLOW = "hollow"
    """In a quarter of an ellipse that comes to the end along the bar, as of a shoulder with a radius."""


class _Moments(NamedTuple):
    """Integrals over the length, from 0 to 1 of u, of the share of the way s(u) that a side has gone by then."""

    s: float
    ss: float
    us: float
    uss: float


_MOMENTS = {
    Line.STRAIGHT: _Moments(1 / 2, 1 / 3, 1 / 3, 1 / 4),
    Line.ROUNDED: _Moments(1 - pi / 4, 5 / 3 - pi / 2, 1 / 6, 1 / 12),
    Line.HOLLOW: _Moments(pi / 4, 2 / 3, pi / 4 - 1 / 3, 5 / 12),
}
_SLICES = 64


@record
class Body:
    """A piece of steel along a length, from one section to another or to nothing.

    Points that lie at the same share of the width of both sections are joined by the line, width and thickness each for
    itself. So the area is a polynomial of how far the line has come, and volume and centre are exact for every section.
    A bar has no `end`; a taper in width, in thickness or in both has another section; a tang is a taper, and its
    shoulder is the step where one body follows another, or a short body with a hollow line; a rounded end is a `POINT`
    with a rounded line.

    Raises:
        ValueError: the length is not above zero, or a body that stays as it is has another line than a straight one;
            the text begins with the name of the attribute that is at fault.
    """

    section: Section
    """Section where it begins."""
    length: float
    """Its length [m]."""
    end: Section | Runout | None = None
    """Section where it ends, or how it runs out; None where it stays as it begins."""
    line: Line = Line.STRAIGHT
    """The line along which it gets there."""
    name: str = ""
    """What it is called, such as "tang"; may be empty."""

    def __post_init__(self) -> None:
        if not self.length > 0:
            raise ValueError("length: a body needs one above zero")
        if self.end is None and self.line is not Line.STRAIGHT:
            raise ValueError("line: a body that stays as it begins runs straight; give it an end")

    @property
    def volume(self) -> float:
        """Its volume [m3]."""
        first, slope, bend = self._area()
        moments = _MOMENTS[self.line]
        return self.length * (first + slope * moments.s + bend * moments.ss)

    @property
    def centre(self) -> float:
        """How far along from its beginning it balances [m]."""
        first, slope, bend = self._area()
        moments = _MOMENTS[self.line]
        return self.length**2 * (first / 2 + slope * moments.us + bend * moments.uss) / self.volume

    @property
    def skin(self) -> float:
        """Area of its skin, without its ends [m2]; to within 0.1 % for tapers up to 1 in 20.

        Outlines are added up along the length, as if each lay straight along the bar; a wide slope has more skin.
        """
        return self.length / _SLICES * sum(self.around_at((k + 0.5) / _SLICES) for k in range(_SLICES))

    def width_at(self, along: float) -> float:
        """Its width at a share of its length, from its beginning (0) to its end (1) [m]."""
        begins = self.section.width
        return begins + self._share(along) * (self._end_width - begins)

    def area_at(self, along: float) -> float:
        """Area of its section at a share of its length [m2]."""
        first, slope, bend = self._area()
        share = self._share(along)
        return first + slope * share + bend * share**2

    def upper_at(self, along: float, within: float = 1e-5) -> tuple[Point, ...]:
        """The upper half of its section at a share of its length, for a picture; the lower half is its mirror image.

        Args:
            along: the share of its length, from 0 to 1
            within: how far a straight line between two points may lie from an arc [m]
        """
        wide, gone = self.width_at(along), self._share(along)
        return tuple(
            Point(x * wide, (first + gone * (last - first)) / 2)
            for x, first, last in _joined(self.section, self.end, within)
        )

    def thickness_at(self, along: float) -> float:
        """Thickness of its section at its thickest, at a share of its length [m]."""
        return 2 * max(point.y for point in self.upper_at(along))

    def around_at(self, along: float) -> float:
        """Length of the outline of its section at a share of its length [m]."""
        upper = self.upper_at(along)
        sides = sum(dist(one, other) for one, other in pairwise(upper))
        return 2 * (sides + upper[0].y + upper[-1].y)

    @property
    def _end_width(self) -> float:
        if isinstance(self.end, Section):
            return self.end.width
        return 0.0 if self.end in (Runout.TIP, Runout.POINT) else self.section.width

    def _area(self) -> tuple[float, float, float]:
        """Area of the section, by the share of the way: constant, factor of the share, factor of its square [m2]."""
        begins, ends = self.section.width, self._end_width
        mean = self.section.area / begins
        last = mean
        if isinstance(self.end, Section):
            last = self.end.area / self.end.width
        elif self.end in (Runout.TIP, Runout.EDGE):
            last = 0.0
        wider, thicker = ends - begins, last - mean
        return begins * mean, begins * thicker + mean * wider, wider * thicker

    def _share(self, along: float) -> float:
        """How much of the way a side has gone at a share of the length."""
        match self.line:
            case Line.ROUNDED:
                return 1 - sqrt(max(1 - along**2, 0.0))
            case Line.HOLLOW:
                return sqrt(max(1 - (1 - along) ** 2, 0.0))
        return along


@lru_cache(maxsize=64)
def _joined(section: Section, end: Section | Runout | None, within: float) -> tuple[tuple[float, float, float], ...]:
    """What is joined of two sections: a share of the width, the thickness there at the beginning and at the end."""
    ends = [one for one in (section, end) if isinstance(one, Section)]
    across = sorted({min(max(point.x / one.width, 0.0), 1.0) for one in ends for point in one.outline.points(within)})
    vanishes = end in (Runout.TIP, Runout.EDGE)
    last = end if isinstance(end, Section) else section
    return tuple((x, section.thickness_at(x), 0.0 if vanishes else last.thickness_at(x)) for x in across)
