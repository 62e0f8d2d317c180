"""Bars side by side: each one's share across the face, and where its border comes out on the bevels.

Bars of equal height that are welded side by side keep their shares of the width while the whole is drawn. Bevels that
are ground do not move a border. Bevels that are forged push steel towards the edge: then each bar keeps its share of
the area. A blade that is forged close and then ground lies in between.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate
from math import hypot, radians, sqrt, tan
from typing import Final

from plans.billets.errors import BilletError, above_zero
from plans.record import record

CONSTANT: Final = "constant volume"
"""Source of what follows from steel that goes nowhere, as it is cited."""
MOST_PARTS: Final = 40
"""Most bars side by side that can be asked about."""
_STEEPEST = 45.0
"""A border that leans further than this is no border of bars side by side [degrees]."""


@record
class Blade:
    """A blade's cross-section: plane bevels from a ridge in the middle to an edge on either side, or from a spine to
    one edge.

    Raises:
        BilletError: a length is none that steel can have, the edge is no thinner than the ridge, or the ridge is
            thicker than the blade is wide.
    """

    face: float
    """Width from edge to edge, or from edge to spine [m]."""
    ridge: float
    """Thickness at the ridge or the spine [m]."""
    edge: float
    """Thickness of the edge [m]."""
    is_double: bool = True
    """Whether it has two edges with a ridge midway."""

    def __post_init__(self) -> None:
        above_zero(face=self.face, ridge=self.ridge, edge=self.edge)
        if self.ridge > self.face:
            raise BilletError("ridge", "the blade can't be thicker there than it is wide")
        if self.edge >= self.ridge:
            raise BilletError("edge", "the edge is thinner than the ridge")

    @property
    def bevel(self) -> float:
        """Width of one bevel, on the middle plane [m]."""
        return self.face / 2 if self.is_double else self.face

    @property
    def rise(self) -> float:
        """By how much it is thicker, each metre further from the edge."""
        return (self.ridge - self.edge) / self.bevel

    @property
    def outline(self) -> tuple[tuple[float, float], ...]:
        """Its corners in order: across from the first edge, and up from the middle plane [m]."""
        half, thin = self.ridge / 2, self.edge / 2
        end = ((self.face, -thin), (self.face, thin)) if self.is_double else ()
        return ((0.0, thin), (0.0, -thin), (self.bevel, -half), *end, (self.bevel, half))

    def thickness_at(self, across: float) -> float:
        """Thickness at a distance from the first edge [m]."""
        return self.edge + self.rise * (min(across, self.face - across) if self.is_double else across)

    def up_the_bevel(self, across: float) -> float:
        """How far from the nearer edge a place of the middle plane lies on the steel itself, along the bevel [m]."""
        near = min(across, self.face - across) if self.is_double else across
        return near * hypot(1.0, self.rise / 2)

    def area_up_to(self, across: float) -> float:
        """Share of the area that lies between the first edge and a distance from it."""
        if self.is_double and across > self.bevel:
            return 1 - self.area_up_to(self.face - across)
        whole = self.bevel * (self.edge + self.ridge) / 2 * (2 if self.is_double else 1)
        return (self.edge * across + self.rise * across**2 / 2) / whole

    def across_at(self, share: float) -> float:
        """Distance from the first edge within which a share of the area lies [m]; the inverse of `area_up_to`."""
        if self.is_double and share > 0.5:
            return self.face - self.across_at(1 - share)
        area = share * self.bevel * (self.edge + self.ridge) / 2 * (2 if self.is_double else 1)
        return (sqrt(self.edge**2 + 2 * self.rise * area) - self.edge) / self.rise

    def out_at(self, across: float, lean: float) -> tuple[float, float]:
        """Where a border that leans comes out on the front and on the back, from the first edge [m].

        Args:
            across: where it crosses the middle plane, from the first edge [m]
            lean: by how much it leans towards the second edge, on its way to the front [degrees]

        Raises:
            BilletError: it leans by more than 45 degrees, or comes out at an edge rather than on a bevel.
        """
        if not abs(lean) <= _STEEPEST:
            raise BilletError("lean", f"{lean:g} degrees: give up to {_STEEPEST:g} either way")
        return self._out(across, tan(radians(lean)) / 2), self._out(across, -tan(radians(lean)) / 2)

    def _out(self, across: float, lean: float) -> float:
        """Where across + lean thickness(x) = x, on one bevel or on the other."""
        first = (across + lean * self.edge) / (1 - lean * self.rise)
        if 0 <= first <= self.bevel:
            return first
        if self.is_double:
            second = (across + lean * (self.edge + self.rise * self.face)) / (1 + lean * self.rise)
            if self.bevel <= second <= self.face:
                return second
        raise BilletError("lean", "a border that leans so far comes out at the edge, and not on a bevel")


def shares_of(parts: Sequence[float]) -> tuple[float, ...]:
    """Each bar's share of the whole, across the face.

    Args:
        parts: widths of the bars, from the first edge on [m]

    Raises:
        BilletError: there is no bar or there are too many, or a width is none that steel can have.
    """
    if not 1 <= len(parts) <= MOST_PARTS:
        raise BilletError("parts", f"give the widths of 1 to {MOST_PARTS} bars")
    for one in parts:
        above_zero(parts=one)
    return tuple(one / sum(parts) for one in parts)


def borders_of(parts: Sequence[float], face: float) -> tuple[float, ...]:
    """Where bars side by side meet, from the first edge of a face of a width [m]; one less than there are bars.

    Args:
        parts: widths of the bars [m]
        face: width that they are drawn to, all of them together [m]

    Raises:
        BilletError: a width is none that steel can have.
    """
    above_zero(face=face)
    return tuple(face * share for share in accumulate(shares_of(parts)))[:-1]


@record
class Start:
    """Which bars to start from: shares of the billet's width, from the first edge on."""

    ground: tuple[float, ...]
    """Where the bevels are ground out of the flat bar."""
    forged: tuple[float, ...]
    """Where they are forged down to the edge."""


def bars_for(blade: Blade, core: float, trim: float = 0.0) -> Start:
    """Which shares of a billet make a core that shows so wide, the rest of the face being jacket.

    With two edges the core lies in the middle, with jackets alike on both sides; with one edge it reaches to the spine.

    Args:
        blade: the finished section
        core: width of the core on the face [m]
        trim: what is ground off each edge of the face after forging [m]

    Raises:
        BilletError: the core leaves no room for a jacket, or the trim is below zero.
    """
    above_zero(core=core)
    if not 0 <= trim <= blade.face:
        raise BilletError("trim", "give what is ground off each edge, from 0 up to the width of the face")
    if core >= blade.face:
        raise BilletError("core", "it leaves nothing of the face for the jacket")
    jacket = (blade.face - core) / 2 if blade.is_double else blade.face - core
    whole = blade.face + trim * (2 if blade.is_double else 1)
    flat = (jacket + trim) / whole
    # What is ground off the edge is as thick as the edge.
    off = trim * blade.edge / (blade.bevel * (blade.edge + blade.ridge) / 2 * (2 if blade.is_double else 1))
    area = (blade.area_up_to(jacket) + off) / (1 + off * (2 if blade.is_double else 1))
    if blade.is_double:
        return Start((flat, 1 - 2 * flat, flat), (area, 1 - 2 * area, area))
    return Start((flat, 1 - flat), (area, 1 - area))
