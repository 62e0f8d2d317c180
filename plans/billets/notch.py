"""Closing a notch at the point, so that the jacket runs round it.

A V is cut out of the end of bars side by side, through the core, and its two flanks are forged together. Each prong
bends by half of the V's angle about the bottom of the V, so the flanks meet on the middle line over their whole length,
and the bar comes to a point of about that angle. A flank is jacket where it lies outside the core: what of it is to be
jacket in front of the core, times the sine of half the angle, is what the V must be wider than the core on each side.
"""

from __future__ import annotations

from math import cos, degrees, radians, sin, tan
from typing import Final

from plans.billets.errors import BilletError, above_zero
from plans.reckoned import Reckoned
from plans.record import record
from plans.units import INCH, both

PRACTICE: Final = "common practice, no source"
"""How what smiths work by is cited."""
USUAL_ANGLE: Final = 60.0
"""Angle of a V that is usually cut [degrees]: common practice, no source."""
USUAL_LOSS: Final = INCH / 4
"""What a notch that was closed at the point usually costs at the tip [m]: common practice, no source."""
TOO_THIN: Final = 3 / 16 * INCH
"""Stock that is too thin to close well [m]: common practice, no source."""
EASY: Final = INCH / 2
"""Stock in which it is easy [m]: common practice, no source."""
_HEATS_EASY, _HEATS_THIN = 3, 6
"""Welding heats to plan in easy stock, and in the thinnest: several by common practice, how many is a guess."""


@record
class Notch:
    """A notch to be cut and closed."""

    depth: Reckoned
    """From the end of the bar to the bottom of the V [m]."""
    mouth: Reckoned
    """Width of the V at the end of the bar [m]."""
    weld_line: Reckoned
    """Length of the weld, from the bottom of the V to the tip [m]."""
    prong: Reckoned
    """Width of what is left of the bar on either side of the mouth [m]."""
    grind_back: Reckoned
    """What to grind off the tip after welding [m]."""
    jacket_left: Reckoned
    """Jacket in front of the core once that is ground off, along the middle line [m]."""
    heats: Reckoned
    """Welding heats to plan."""
    groove: Reckoned
    """Depth of the groove that rounded flanks leave along the weld, on each face of the drawn blade [m]."""
    groove_left: Reckoned
    """What of it stays after grinding [m]."""
    widest_radius: Reckoned
    """Largest radius on the flanks that grinding takes out [m]."""
    aside: Reckoned
    """How far beside the middle line to cut the V, so that the weld runs out behind the tip and not at it [m]."""


def notch_for(
    width: float,
    thickness: float,
    core: float,
    *,
    jacket: float = USUAL_LOSS,
    angle: float = USUAL_ANGLE,
    radius: float = 0.5e-3,
    drawn_to: float | None = None,
    grind: float = 1e-3,
    behind: float = USUAL_LOSS,
) -> Notch:
    """What to cut out of the end of a bar, and what comes of closing it.

    Args:
        width: of the bar, across its parts [m]
        thickness: of the bar [m]
        core: width of the core, in the middle of the bar [m]
        jacket: what of jacket is to be left in front of the core after the tip is ground back [m]
        angle: of the V, from flank to flank [degrees]
        radius: to which the edges of the flanks are rounded [m]; 0 for sharp ones
        drawn_to: thickness that the blade is drawn to after the weld [m]; None for that of the bar
        grind: what is ground off each face in the end [m]
        behind: how far behind the tip the weld is to run out on one side [m]

    Raises:
        BilletError: the V is wider than the bar, or a length or the angle is none that can be.
    """
    above_zero(width=width, thickness=thickness, core=core, jacket=jacket, behind=behind)
    thin = thickness if drawn_to is None else drawn_to
    above_zero(drawn_to=thin, grind=grind)
    if not 20 <= angle <= 120:
        raise BilletError("angle", f"{angle:g} degrees: give one from 20 to 120, {USUAL_ANGLE:g} is usual")
    if not 0 <= radius <= thickness / 2:
        raise BilletError("radius", "give one from 0 up to half of the bar's thickness")
    if thin > thickness:
        raise BilletError("drawn-to", "a bar that is drawn gets thinner")
    half = radians(angle / 2)
    mouth = core + 2 * (jacket + USUAL_LOSS) * sin(half)
    if mouth >= width:
        raise BilletError(
            "core",
            f"the V would be {both(lambda units: units.length(mouth))} wide at the end, and the bar is no wider; "
            "give wider jackets, a narrower angle, or less jacket at the point",
        )
    depth = mouth / 2 / tan(half)
    drawn = thin / thickness
    cut = f"so that {degrees(half):.3g} degrees are cut off each side; the prongs bend about the bottom of the V"
    eased = "a radius is drawn thinner with the bar; a wide one leaves a line"
    return Notch(
        Reckoned(depth, "arithmetic", cut, "plane geometry"),
        Reckoned(mouth, "arithmetic", "as wide as the core, and jacket on both sides of it", "plane geometry"),
        Reckoned(depth / cos(half), "arithmetic", "from the bottom of the V to the very tip", "plane geometry"),
        Reckoned((width - mouth) / 2, "arithmetic", "too narrow a prong is cold before it is struck", "plane geometry"),
        Reckoned(
            USUAL_LOSS,
            "common practice",
            "what did not take at the very end, usually so much; the range is a guess",
            PRACTICE,
            USUAL_LOSS / 2,
            USUAL_LOSS * 1.5,
        ),
        Reckoned(
            jacket,
            "arithmetic",
            "the range is for what is ground back",
            "plane geometry",
            max(0.0, jacket - USUAL_LOSS / 2),
            jacket + USUAL_LOSS / 2,
        ),
        heats_for(thickness),
        Reckoned(radius * drawn, "arithmetic", eased, "plane geometry"),
        Reckoned(max(0.0, radius * drawn - grind), "arithmetic", "what stays is a line", "plane geometry"),
        Reckoned(min(grind / drawn, thickness / 2), "arithmetic", f"{eased}; before drawing", "plane geometry"),
        Reckoned(
            behind * tan(half),
            "arithmetic",
            "a tip of the V's angle; the weld then ends on one side, where an edge is ground, and not at the tip",
            "plane geometry",
        ),
    )


def heats_for(thickness: float) -> Reckoned:
    """Welding heats to plan for closing a notch in stock of a thickness [m].

    Raises:
        BilletError: the thickness is none that steel can have.
    """
    above_zero(thickness=thickness)
    share = min(1.0, max(0.0, (EASY - thickness) / (EASY - TOO_THIN)))
    count = round(_HEATS_EASY + share * (_HEATS_THIN - _HEATS_EASY))
    if thickness <= TOO_THIN:
        said = "too thin to close well: it is cold before the second blow; notch it before it is drawn so thin"
    elif thickness >= EASY:
        said = "thick enough to close easily: blows square to the flank, never straight down on the tip"
    else:
        said = "the thinner, the shorter each heat; struck first, and out of the fire last"
    said += "; several heats, how many is a guess by the thickness"
    return Reckoned(count, "common practice", said, PRACTICE, count - 1, count + 2, thickness <= TOO_THIN)
