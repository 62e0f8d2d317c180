"""The reckoning of a profile drawn round and turned over: what to grind off which side."""

from __future__ import annotations

from plans.bench import even_profile, profile_drawn
from plans.reckoned import Reckoned
from plans.reckoner.bevels import PLANE, caution
from plans.reckoner.errors import ReckonError
from plans.reckoner.figures import Fact, Figure, Given, given
from plans.reckoner.kinds import THIN, TYPED_LENGTH, WIDTH
from plans.reckoner.reckoning import Reckoning

_SAID = (
    "off the edge that stands out beyond the line; with point and tang laid in line on the same middle, one half lies "
    "on the other, and all that stands out is ground; laid against the line with one edge, grind half of what shows on "
    "the other"
)
_EDGE = "flat bevels from the edge to a ridge in the middle"


def reckon_profile(
    difference: float,
    width: float | None = None,
    edge: float | None = None,
    ridge: float | None = None,
) -> Reckoning:
    """What to grind off an edge that stands out beyond the outline, drawn round the blade and turned over.

    Args:
        difference: how far it stands out [m]
        width: of the blade there [m]; None where it is not known
        edge: thickness of that edge [m]; None where it is not known
        ridge: thickness at the ridge [m]; None where it is not known

    Raises:
        ReckonError: a length is none that can be, or an edge or a ridge is given without what belongs to it.
    """
    if not 0 < difference <= 0.1:
        raise ReckonError("difference", "give how far the edge stands out, above zero and up to 100 mm")
    if width is not None and not 2 * difference < width <= 1:
        raise ReckonError("width", "give more than twice the difference, up to 1 m")
    if (edge is None) != (ridge is None) or (edge is not None and width is None):
        raise ReckonError("edge", "what the edge becomes takes width, edge and ridge, all three")
    if edge is not None and ridge is not None and not 0 < edge < ridge:
        raise ReckonError("ridge", "it must be thicker than the edge, and the edge above zero")
    found = even_profile(difference, width, edge, ridge)
    figures: list[Figure | Fact] = [
        Figure(
            "take_off_mm", "take off where it stands out", Reckoned(found.take_off, "arithmetic", _SAID, PLANE), THIN
        )
    ]
    for key, label, value, kind in (
        ("width_then_mm", "width then", found.width, WIDTH),
        ("edge_then_mm", "edge then", found.edge, THIN),
        ("bevel_narrower_mm", "its bevels narrower by", found.bevel_narrower, THIN),
    ):
        if value is not None:
            figures.append(Figure(key, label, Reckoned(value, "arithmetic", _EDGE, PLANE), kind))
    figures.append(caution())
    # Without a width, one that shows what stands out.
    drawn = profile_drawn(difference, 12 * difference if width is None else width)
    return Reckoning("profile", tuple(_asked(difference, width, edge, ridge)), tuple(figures), drawing=drawn)


def _asked(difference: float, width: float | None, edge: float | None, ridge: float | None) -> list[Given]:
    asked = [given("difference_mm", "stands out", difference, TYPED_LENGTH)]
    for key, label, value in (("width_mm", "width", width), ("edge_mm", "edge", edge), ("ridge_mm", "ridge", ridge)):
        if value is not None:
            asked.append(given(key, label, value, TYPED_LENGTH))
    return asked
