"""A profile drawn round, turned over and laid on its own outline: what to grind off which side; plane geometry."""

from __future__ import annotations

from math import atan2, cos, tan

from plans.record import record


@record
class Evened:
    """What evens a profile at one place, and what it does to that edge."""

    take_off: float
    """How far the edge that stands out is ground back [m]."""
    width: float | None
    """Width of the blade then [m]; None where it is not known before."""
    edge: float | None
    """Thickness of that edge then [m]; None where its bevels are not known."""
    bevel_narrower: float | None
    """By how much its bevels then are narrower [m]; None where they are not known."""


def even_profile(
    difference: float, width: float | None = None, edge: float | None = None, ridge: float | None = None
) -> Evened:
    """What to grind off the edge that stands out beyond the line, so that the profile lies on it either way.

    The outline was drawn round the blade, and the blade turned over with its point and tang in line on the same middle:
    one half is then laid on the other, and all that stands out is the difference of the two halves. Where the blade is
    laid against the line with one edge instead, so that all shows on the other, half of what is measured is meant.

    Args:
        difference: how far the edge stands out, from point and tang in line, from 0 up [m]
        width: of the blade there [m]; None where it is not known
        edge: thickness of that edge [m]; None where it is not known
        ridge: thickness at the ridge [m]; None where it is not known

    Raises:
        ValueError: the difference is below 0, or as much as half of the width and more; the ridge is no thicker than
            the edge.
    """
    if difference < 0 or (width is not None and difference >= width / 2):
        raise ValueError("the difference lies between 0 and half of the width")
    then = None if width is None else width - difference
    if width is None or edge is None or ridge is None:
        return Evened(difference, then, None, None)
    if ridge <= edge:
        raise ValueError("the ridge is thicker than the edge")
    # The half that stands out is wider than the other by the difference.
    slope = atan2((ridge - edge) / 2, (width + difference) / 2)
    return Evened(difference, then, edge + 2 * difference * tan(slope), difference / cos(slope))
