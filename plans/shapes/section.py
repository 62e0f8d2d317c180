"""The cross-section of a bar."""

from __future__ import annotations

from enum import StrEnum
from math import asin, hypot, pi, sin, sqrt

from plans.record import record


class Form(StrEnum):
    """The forms that a cross-section can have; its value is how it is written."""

    FLAT = "flat"
    """A rectangle."""
    ROUND = "round"
    """A circle."""
    WEDGE = "wedge"
    """From a spine of full thickness straight down to one edge, alike on both sides."""
    DIAMOND = "diamond"
    """From a ridge in the middle straight down to an edge on either side."""
    LENS = "lens"
    """Bounded by two arcs that meet an edge on either side."""


EDGED = frozenset({Form.WEDGE, Form.DIAMOND, Form.LENS})
"""The forms that have an edge."""


@record
class Section:
    """A cross-section; the thickness is never the larger side.

    Raises:
        ValueError: a side is not above 0, the thickness is larger than the width, a circle has two diameters, an edge
            is not above 0 or is as thick as the whole, or a form without an edge has one.
    """

    width: float
    """Larger side of the section, or the diameter of a round bar [m]."""
    thickness: float
    """Smaller side of the section at its thickest, or the diameter of a round bar [m]."""
    form: Form = Form.FLAT
    """What form it has."""
    edge: float | None = None
    """Thickness of the edge of a wedge, a diamond or a lens [m]; None for forms without one."""

    def __post_init__(self) -> None:
        if not 0 < self.thickness <= self.width:
            raise ValueError("a section needs a thickness above zero and no larger than its width")
        if self.is_round and self.thickness != self.width:
            raise ValueError("a round section has one diameter")
        if (self.form in EDGED) != (self.edge is not None):
            raise ValueError("a wedge, a diamond and a lens have an edge, and no other section has one")
        if self.edge is not None and not 0 < self.edge < self.thickness:
            raise ValueError("an edge is thicker than zero and thinner than the section at its thickest")

    @classmethod
    def round(cls, diameter: float) -> Section:
        """A circle of a diameter [m].

        Raises:
            ValueError: the diameter is not above zero.
        """
        return cls(diameter, diameter, Form.ROUND)

    @property
    def is_round(self) -> bool:
        """Whether it is a circle; then both sides are its diameter."""
        return self.form is Form.ROUND

    @property
    def area(self) -> float:
        """Area of the cross-section [m2]."""
        if self.is_round:
            return pi * self.width**2 / 4
        if self.edge is None:
            return self.width * self.thickness
        if self.form is Form.LENS:
            radius, angle = self._arc()
            return self.width * self.edge + radius**2 * (angle - sin(angle))
        return self.width * (self.thickness + self.edge) / 2

    @property
    def around(self) -> float:
        """Length of its outline [m]."""
        if self.is_round:
            return pi * self.width
        if self.edge is None:
            return 2 * (self.width + self.thickness)
        if self.form is Form.LENS:
            radius, angle = self._arc()
            return 2 * (radius * angle + self.edge)
        rise = (self.thickness - self.edge) / 2
        if self.form is Form.WEDGE:
            return self.thickness + self.edge + 2 * hypot(self.width, rise)
        return 2 * self.edge + 4 * hypot(self.width / 2, rise)

    def thickness_at(self, share: float) -> float:
        """Thickness at a share of the width, from an edge (0) to the spine or the other edge (1) [m].

        Raises:
            ValueError: the section is round.
        """
        if self.is_round:
            raise ValueError("a round section has no edge to measure from")
        if self.edge is None:
            return self.thickness
        if self.form is Form.WEDGE:
            return self.edge + share * (self.thickness - self.edge)
        aside = abs(2 * share - 1)
        if self.form is Form.DIAMOND:
            return self.thickness - aside * (self.thickness - self.edge)
        radius, _ = self._arc()
        drop = radius - sqrt(radius**2 - (aside * self.width / 2) ** 2)
        return self.thickness - 2 * drop

    def _arc(self) -> tuple[float, float]:
        """Radius of a lens's sides [m], and the angle that each of them spans [rad]."""
        assert self.edge is not None
        rise = (self.thickness - self.edge) / 2
        radius = (self.width**2 / 4 + rise**2) / (2 * rise)
        return radius, 2 * asin(self.width / 2 / radius)

    def on_the_way_to(self, end: Section, share: float) -> Section:
        """The section at a share (0 to 1) of the way to `end`; equal shares change a side by equal factors.

        Between two of one form it has that form. Where an edge is worked onto a section that has none, the edge begins
        at the full thickness; otherwise it is flat in between.
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
        return Section(width, thickness, Form.ROUND if self.is_round and end.is_round else Form.FLAT)


def coldest_place(section: Section) -> str:
    """What the place of a section is called that goes cold first: "edge", "corner", or of a round bar "underside"."""
    if section.edge is not None:
        return "edge"
    return "underside" if section.is_round else "corner"
