"""The cross-section of a bar or a blade."""

from __future__ import annotations

from enum import StrEnum
from functools import lru_cache
from math import isclose, sqrt

from plans.record import record
from plans.shapes.outline import Outline, Point, Side


class Form(StrEnum):
    """The forms that a cross-section can have; its value is how it is written."""

    FLAT = "flat"
    """A rectangle; a square where both sides are alike."""
    ROUND = "round"
    """A circle."""
    OCTAGON = "octagon"
    """Eight equal sides, lying on one of them."""
    HEXAGON = "hexagon"
    """Six equal sides, lying on one of them: as thick as it is across flats, as wide as it is across corners."""
    WEDGE = "wedge"
    """One edge: from a blunt spine of full thickness to the edge, alike on both faces."""
    DIAMOND = "diamond"
    """Two edges: from a ridge in the middle, or from a flat there, to an edge on either side."""
    LENS = "lens"
    """Two edges: bounded by two arcs from one to the other."""


EDGED = frozenset({Form.WEDGE, Form.DIAMOND, Form.LENS})
"""The forms that have an edge."""
BEVELLED = frozenset({Form.WEDGE, Form.DIAMOND})
"""The forms whose bevels may be narrower than they could be, and hollow or convex."""
REGULAR = frozenset({Form.ROUND, Form.OCTAGON, Form.HEXAGON})
"""The forms that one measure tells: the diameter, or what they are across flats."""
_WIDE_FOR_THICK = {Form.ROUND: 1.0, Form.OCTAGON: 1.0, Form.HEXAGON: 2 / sqrt(3)}


@record
class Section:
    """A cross-section; the thickness is never the larger side.

    Raises:
        ValueError: it can't be; the text begins with the name of the attribute that is at fault. A side is not above
            0, the thickness is larger than the width, a form of one measure has two, an edge is not above 0 or is as
            thick as the whole, a form has an edge, a bevel or a radius that it can't have, or misses its edge, a bevel
            is wider than there is room for, or a radius is too small for its bevel.
    """

    width: float
    """Larger side of the section, the diameter of a round bar, or what a hexagon is across corners [m]."""
    thickness: float
    """Smaller side of the section at its thickest, the diameter of a round bar, or across flats [m]."""
    form: Form = Form.FLAT
    """What form it has."""
    edge: float | None = None
    """Thickness of the edge of a wedge, a diamond or a lens [m]; None for forms without one."""
    bevel: float | None = None
    """Width of each bevel of a wedge or a diamond, from its edge in; what is left of the width is flat [m]. None where
    it is as wide as it can be, and for the other forms."""
    radius: float | None = None
    """Radius of each bevel of a wedge or a diamond, above 0 where it is convex, below 0 where it is hollow [m]; None
    where it is flat, and for the other forms."""

    def __post_init__(self) -> None:
        if not 0 < self.thickness <= self.width:
            raise ValueError("thickness: a section needs one above zero and no larger than its width")
        if self.form in REGULAR and not isclose(self.width, self.thickness * _WIDE_FOR_THICK[self.form]):
            raise ValueError(f"width: a {self.form} section has one diameter, or one measure across flats")
        if (self.form in EDGED) != (self.edge is not None):
            raise ValueError("edge: a wedge, a diamond and a lens have one, and no other section has")
        if self.edge is not None and not 0 < self.edge < self.thickness:
            raise ValueError("edge: it is thicker than zero and thinner than the section at its thickest")
        if self.form not in BEVELLED and (self.bevel is not None or self.radius is not None):
            name = "bevel" if self.bevel is not None else "radius"
            raise ValueError(f"{name}: only a wedge and a diamond have bevels")
        if self.bevel is not None and not 0 < self.bevel <= self.room_for_bevel:
            raise ValueError("bevel: it is wider than zero and no wider than the section, or its half in a diamond")
        if self.radius is not None and not abs(self.radius) >= self.least_radius * (1 - 1e-9):
            raise ValueError("radius: a hollow or convex bevel needs a larger one, or to be narrower")

    @classmethod
    def flat(cls, one: float, other: float) -> Section:
        """A rectangle of two sides, whichever of them is the larger [m].

        Raises:
            ValueError: a side is not above zero.
        """
        return cls(max(one, other), min(one, other))

    @classmethod
    def round(cls, diameter: float) -> Section:
        """A circle of a diameter [m].

        Raises:
            ValueError: the diameter is not above zero.
        """
        return cls.regular(Form.ROUND, diameter)

    @classmethod
    def regular(cls, form: Form, measure: float) -> Section:
        """A round, an octagon or a hexagon by its one measure: the diameter, or what it is across flats [m].

        Raises:
            ValueError: the measure is not above zero.
            KeyError: the form has two measures.
        """
        return cls(measure * _WIDE_FOR_THICK[form], measure, form)

    @property
    def is_round(self) -> bool:
        """Whether it is a circle; then both sides are its diameter."""
        return self.form is Form.ROUND

    @property
    def room_for_bevel(self) -> float:
        """How wide a bevel can be: the width of a wedge, half of that of a diamond [m]."""
        return self.width if self.form is Form.WEDGE else self.width / 2

    @property
    def least_radius(self) -> float:
        """Least radius that a hollow or convex bevel can have, so that it nowhere falls back: 0 without an edge [m]."""
        if self.edge is None:
            return 0.0
        rise, over = (self.thickness - self.edge) / 2, self.bevel or self.room_for_bevel
        return (over**2 + rise**2) / (2 * rise)

    @property
    def outline(self) -> Outline:
        """Its outline: x from the edge, or from one side, to `width`, y from the middle of the thickness."""
        return _outline(self)

    @property
    def area(self) -> float:
        """Area of the cross-section [m2]."""
        return _area(self)

    @property
    def around(self) -> float:
        """Length of its outline [m]."""
        return _around(self)

    @property
    def centre(self) -> float:
        """Where its area balances across the width, from the edge or from one side [m]."""
        return self.outline.centroid.x

    def thickness_at(self, share: float) -> float:
        """Thickness at a share of the width, from an edge (0) to the spine or the other edge (1) [m].

        Raises:
            ValueError: the share is not from 0 to 1.
        """
        low, high = self.outline.across(share * self.width)
        return high - low

    def on_the_way_to(self, end: Section, share: float) -> Section:
        """The section at a share (0 to 1) of the way to `end`; equal shares change a side by equal factors.

        Between two of one form it has that form, its bevels flat and as wide as they can be until they are done. Where
        an edge is worked onto a section that has none, the edge begins at the full thickness; otherwise it is flat in
        between.
        """
        if share <= 0:
            return self
        if share >= 1:
            return end
        width = self.width * (end.width / self.width) ** share
        thickness = self.thickness * (end.thickness / self.thickness) ** share
        width, thickness = max(width, thickness), min(width, thickness)
        if end.edge is not None and self.form in (Form.FLAT, end.form):
            begins = self.thickness if self.edge is None else self.edge
            return Section(width, thickness, end.form, min(begins * (end.edge / begins) ** share, 0.999 * thickness))
        if self.form is end.form and self.form in REGULAR:
            return Section.regular(self.form, thickness)
        return Section(width, thickness)


def coldest_place(section: Section) -> str:
    """What the place of a section is called that goes cold first: "edge", "corner", or of a round bar "underside"."""
    if section.edge is not None:
        return "edge"
    return "underside" if section.is_round else "corner"


def _upper(section: Section) -> list[tuple[Point, float | None]]:
    """The upper half of the outline, from x = 0 on: points, and the radius of the side that leads to each."""
    w, half = section.width, section.thickness / 2
    match section.form:
        case Form.ROUND:
            return [(Point(0.0, 0.0), None), (Point(w, 0.0), half)]
        case Form.OCTAGON:
            cut = w / (2 + sqrt(2))  # what is off each corner of a square, along its sides
            corners = [(0.0, half - cut), (cut, half), (w - cut, half), (w, half - cut)]
        case Form.HEXAGON:
            corners = [(0.0, 0.0), (w / 4, half), (w * 3 / 4, half), (w, 0.0)]
        case Form.FLAT:
            corners = [(0.0, half), (w, half)]
        case _:
            return _bevelled(section, section.edge or 0.0)
    return [(Point(x, y), None) for x, y in corners]


def _bevelled(section: Section, edge: float) -> list[tuple[Point, float | None]]:
    w, half, low = section.width, section.thickness / 2, edge / 2
    if section.form is Form.LENS:
        rise = half - low
        return [(Point(0.0, low), None), (Point(w, low), (w**2 / 4 + rise**2) / (2 * rise))]
    over = section.bevel or section.room_for_bevel
    begins = [(Point(0.0, low), None), (Point(over, half), section.radius)]
    if section.form is Form.WEDGE:
        return begins if over == w else [*begins, (Point(w, half), None)]
    flat = [] if over == w / 2 else [(Point(w - over, half), None)]
    return [*begins, *flat, (Point(w, low), section.radius)]


@lru_cache(maxsize=256)
def _outline(section: Section) -> Outline:
    right, *rest = reversed(_upper(section))
    upper, last = [], right
    for one in rest:
        upper.append(Side(last[0], one[0], last[1]))
        last = one
    lower = [Side(_below(side.end), _below(side.begin), side.radius) for side in reversed(upper)]
    spine, edge = Side(_below(right[0]), right[0]), Side(last[0], _below(last[0]))
    return Outline((*lower, *([spine] if spine.chord else []), *upper, *([edge] if edge.chord else [])))


def _below(point: Point) -> Point:
    return Point(point.x, -point.y)


@lru_cache(maxsize=256)
def _area(section: Section) -> float:
    return _outline(section).area


@lru_cache(maxsize=256)
def _around(section: Section) -> float:
    return _outline(section).around
