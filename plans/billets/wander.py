"""A wandering core: from where it shows on both faces, how the section leaned while it was drawn.

A core that stood upright between front and back leans with the section that was hammered into a rhombus. Its middle on
the front, less its middle on the back, over the thickness, is the tangent of the lean. The two corners that the section
leans out to, the far ends of its long diagonal, are the ones to strike.
"""

from __future__ import annotations

from enum import StrEnum
from math import atan, degrees, hypot
from typing import Final

from plans.billets.errors import BilletError, above_zero
from plans.reckoned import Reckoned
from plans.record import record
from plans.units import Units

READING: Final = 0.5e-3
"""To within what a border is read off an etched bar with a rule [m]."""


class Corners(StrEnum):
    """Which corner of the front to strike, and the one across from it by turns; the bar seen from its end with the
    front above."""

    FRONT_RIGHT = "right"
    """The core leans to the right on its way to the front."""
    FRONT_LEFT = "left"
    """It leans to the left."""
    NONE = "neither"
    """It stands upright, as far as a rule tells."""


@record
class Wander:
    """How a core has wandered."""

    lean: Reckoned
    """How far the section leaned, to the right on its way to the front [degrees]; below 0 to the left."""
    across: Reckoned
    """The same over the thickness: how much further right the core lies on the front than on the back [m]."""
    off: Reckoned
    """How far the core lies right of the middle of the bar, halfway between front and back [m]; below 0, left."""
    diagonals: Reckoned
    """How much longer one diagonal of the section became than the other [m]."""
    corners: Corners
    """Which corners to strike at the next heat."""


def wandered(width: float, thickness: float, front: tuple[float, float], back: tuple[float, float]) -> Wander:
    """How a section leaned, from where its core shows on both faces.

    Args:
        width: of the bar [m]
        thickness: of the bar, from front to back [m]
        front: where the core begins and ends on the front, from the left side of the bar [m]
        back: the same on the back, from the same side of the bar, which lies right when the bar is turned over [m]

    Raises:
        BilletError: a core does not begin before it ends, or is not within the bar.
    """
    above_zero(width=width, thickness=thickness)
    for given, (begin, end) in (("front", front), ("back", back)):
        if not 0 <= begin < end <= width:
            raise BilletError(
                given, "give where the core begins and ends, from the same side of the bar, within its width"
            )
    middles = sum(front) / 2, sum(back) / 2
    across = middles[0] - middles[1]
    corners = Corners.FRONT_RIGHT if across > 0 else Corners.FRONT_LEFT
    if abs(across) <= READING:
        corners = Corners.NONE
    source = "plane geometry"

    def said(units: Units) -> str:
        return f"the range is for borders read to {units.depth(READING)}; a core that stood upright when it was welded"

    least, most = (degrees(atan((across + error) / thickness)) for error in (-READING, READING))
    uneven = "halfway through: one side was drawn or ground more than the other, which no blow on a corner mends"
    squared = (
        "of the section as it leaned. Still a rhombus: strike until both agree. Already square: they agree and the "
        "core still leans; strike the same corners until they differ by so much the other way, then square it on its "
        "faces, and go by the core"
    )
    off = sum(middles) / 2 - width / 2
    longer = hypot(width + abs(across), thickness) - hypot(width - abs(across), thickness)
    return Wander(
        Reckoned(degrees(atan(across / thickness)), "arithmetic", said, source, least, most),
        Reckoned(across, "arithmetic", said, source, across - READING, across + READING),
        Reckoned(off, "arithmetic", uneven, source, off - READING, off + READING),
        Reckoned(longer, "arithmetic", squared, source),
        corners,
    )
