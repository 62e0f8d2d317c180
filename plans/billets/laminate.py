"""Three layers with the core in the middle: where the line comes out above the edge, and what a core may wander."""

from __future__ import annotations

from typing import Final

from plans.billets.errors import BilletError, above_zero
from plans.reckoned import Reckoned
from plans.record import record
from plans.units import Units

LINE: Final = "plane geometry: x = H (core - edge) / (spine - edge)"
"""Source of the line's height, as it is cited."""
OFF: Final = 0.1e-3
"""How far off the middle a core is taken to lie for the range of its line [m]; a guess."""


@record
class Laminate:
    """A plane bevel through three layers, the core in the middle unless it has wandered.

    Raises:
        BilletError: a length is none that steel can have, or the core is no thinner than the spine or no thicker than
            the edge.
    """

    spine: float
    """Thickness where the bevel begins [m]."""
    edge: float
    """Thickness of the edge [m]; 0 for one ground to nothing."""
    core: float
    """Thickness of the core [m]."""
    bevel: float
    """Height of the bevel, along the middle plane [m]."""

    def __post_init__(self) -> None:
        above_zero(spine=self.spine, core=self.core, bevel=self.bevel)
        if not 0 <= self.edge < self.spine:
            raise BilletError("edge", "the edge is thinner than the spine, and no less than 0")
        if self.core >= self.spine:
            raise BilletError("core", "it is thinner than the spine, or there is no jacket")
        if self.core <= self.edge:
            raise BilletError("core", "it is no thicker than the edge: the jacket would reach down to it on both sides")

    def check_off(self, off: float) -> None:
        """Make sure that a core which lies so far off the middle is still within the spine [m].

        Raises:
            BilletError: it is not.
        """
        if not abs(off) <= (self.spine - self.core) / 2:
            raise BilletError("off", "so far off the middle the core would lie outside the spine")

    def line(self, off: float = 0.0) -> float:
        """Height of the line above the edge on one side [m]; below 0 the edge is jacket on that side.

        Args:
            off: how far the core lies off the middle, towards that side [m]
        """
        return self.bevel * (self.core + 2 * off - self.edge) / (self.spine - self.edge)

    @property
    def line_height(self) -> Reckoned:
        """Height of the line above the edge, on both sides [m]."""
        return self.line_on(0.0)

    def line_on(self, off: float) -> Reckoned:
        """Height of the line above the edge on one side, with its range [m]; below 0 the edge is jacket on that side.

        Args:
            off: how far the core lies off the middle, towards that side [m]
        """

        def said(units: Units) -> str:
            further = "further off" if off else "off the middle"
            both = "up on one side, down on the other"
            return f"a plane bevel; the range is for a core {units.depth(OFF)} {further}: {both}"

        least, most = (min(self.bevel, max(0.0, self.line(off + error))) for error in (-OFF, OFF))
        return Reckoned(self.line(off), "arithmetic", said, LINE, least, most)

    @property
    def may_wander(self) -> Reckoned:
        """How far the core may lie off the middle with the edge still all core [m]."""
        return Reckoned((self.core - self.edge) / 2, "arithmetic", "(core - edge) / 2, either way", "plane geometry")

    @property
    def is_lost(self) -> Reckoned:
        """How far off the middle the core misses the edge altogether [m]."""
        return Reckoned((self.core + self.edge) / 2, "arithmetic", "(core + edge) / 2, either way", "plane geometry")
