"""The reckoning of a three-layer laminate."""

from __future__ import annotations

from plans.billets import LINE, Laminate, laminate_drawn
from plans.reckoner.errors import as_asked
from plans.reckoner.figures import Fact, Figure, given, listed
from plans.reckoner.kinds import LENGTH, THIN
from plans.reckoner.reckoning import Reckoning


def reckon_laminate(spine: float, edge: float, core: float, bevel: float, off: float = 0.0) -> Reckoning:
    """How high above the edge the line of a three-layer laminate comes out, and how far its core may wander.

    Args:
        spine: thickness where the bevel begins [m]
        edge: thickness of the edge [m]; 0 for one ground to nothing
        core: thickness of the core [m]
        bevel: height of the bevel [m]
        off: how far the core lies off the middle, towards the front [m]

    Raises:
        ReckonError: the core is no thicker than the edge or no thinner than the spine, or a length is none that can be.
    """
    with as_asked():
        laminate = Laminate(spine, edge, core, bevel)
        laminate.check_off(off)
    found: list[Figure | Fact] = [
        Figure("line_mm", "line above the edge", laminate.line_height, LENGTH),
        Figure("may_wander_mm", "core may wander", laminate.may_wander, THIN),
        Figure("lost_mm", "core misses the edge", laminate.is_lost, THIN),
    ]
    asked = [
        given("spine_mm", "spine", spine, LENGTH),
        given("edge_mm", "edge", edge, LENGTH),
        given("core_mm", "core", core, LENGTH),
        given("bevel_mm", "bevel", bevel, LENGTH),
    ]
    if off:
        lines = (laminate.line(off), laminate.line(-off))
        said = "below 0 the edge is jacket on that side"
        found.append(listed("lines_mm", "line on front and back", lines, LENGTH, "arithmetic", said, LINE))
        asked.append(given("off_mm", "core off the middle", off, THIN))
    return Reckoning("laminate", tuple(asked), tuple(found), drawing=laminate_drawn(laminate, off))
