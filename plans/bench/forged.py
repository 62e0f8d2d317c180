"""How much wider and longer a bar gets when a bevel is forged in: volume held, the spread shared by common practice."""

from __future__ import annotations

from typing import Final

from plans.record import record

LEAST_WIDENING, WIDENING, MOST_WIDENING = 0.5, 0.7, 0.9
"""Share of what a bevel displaces that goes into width, the rest into length: the least, the usual, the most. The part
of the bar that stays thick holds the length back; common practice, no source."""
_WHOLE: Final = 1e-9


@record
class Forged:
    """A bar into which one bevel was forged, or one on either edge."""

    width: float
    """Width then [m]."""
    elongation: float
    """How many times as long the bar is then."""
    area: float
    """Area of the section then [m2]."""


def forge_bevel(
    width: float, thickness: float, bevel: float | None, edge: float, *, edges: int = 1, widening: float = WIDENING
) -> Forged:
    """A bar with a flat section after bevels were forged in from both faces alike.

    What the bevel displaces, half its width times what the edge is thinner, goes `widening` into width at full
    thickness and else into length, so that the volume is held.

    Args:
        width: of the bar before [m]
        thickness: of the bar, which the spine or the middle keeps [m]
        bevel: width of each bevel when it is done, across the bar [m]; None where bevels take the whole width
        edge: thickness of the edge when it is done, above 0 and below `thickness` [m]
        edges: 1 or 2 of them
        widening: share of what is displaced that goes into width, from 0 to 1

    Raises:
        ValueError: a figure lies outside what is said here, or the bevels are wider than the bar then is.
    """
    if not (0 < edge < thickness <= width and edges in (1, 2) and 0 <= widening <= 1):
        raise ValueError("a bar no thicker than wide, with an edge thinner than it, on one side or both")
    falls = (thickness - edge) / (2 * thickness)
    if bevel is None:
        # Bevels over the whole width displace as large a share of it, however wide it gets.
        then = width / (1 - widening * falls)
        displaced = then * falls
    else:
        displaced = edges * bevel * falls
        then = width + widening * displaced
        if bevel <= 0 or edges * bevel > then * (1 + _WHOLE):
            raise ValueError("the bevels are wider than the bar then is")
    area = (then - displaced) * thickness
    return Forged(then, width * thickness / area, area)
