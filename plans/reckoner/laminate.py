"""The reckoning of a three-layer laminate."""

from __future__ import annotations

from plans.billets import LINE, Laminate, laminate_drawn
from plans.reckoner.errors import as_asked
from plans.reckoner.figures import Fact, Figure, given
from plans.reckoner.kinds import THIN, TYPED_LENGTH, WIDTH
from plans.reckoner.reckoning import Reckoning
from plans.units import Units


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
        Figure("line_mm", "line above the edge", laminate.line_height, WIDTH),
        Figure("may_wander_mm", "core may lie off by", laminate.may_wander, THIN),
        Figure("lost_mm", "core misses the edge from", laminate.is_lost, THIN),
    ]
    asked = [
        given("spine_mm", "spine", spine, TYPED_LENGTH),
        given("edge_mm", "edge", edge, TYPED_LENGTH),
        given("core_mm", "core", core, TYPED_LENGTH),
        given("bevel_mm", "bevel", bevel, TYPED_LENGTH),
    ]
    if off:
        found[0] = Figure("line_mm", "line, core in the middle", laminate.line_height, WIDTH)
        found += [_line_on("front", laminate, off), _line_on("back", laminate, -off)]
        asked.append(given("off_mm", "core off the middle", off, TYPED_LENGTH))
    return Reckoning("laminate", tuple(asked), tuple(found), drawing=laminate_drawn(laminate, off))


def _line_on(side: str, laminate: Laminate, off: float) -> Figure | Fact:
    """Where the line comes out on one side, towards which the core lies so far off the middle; or the jacket there."""
    key, label, line = f"{side}_line_mm", f"line on the {side}", laminate.line_on(off)
    if laminate.is_lost.value < off:
        said = "the core misses the edge, and shows on this side alone"

        def shown(units: Units) -> str:
            return f"jacket at the edge, then core up to {units.width(line.value)}"

        return Fact(key, label, WIDTH.record(line.value), shown, line.basis, said, LINE, "jacket")
    if line.value < 0:
        said = "the jacket comes down to the edge on this side; the record says how far below it the line would lie"
        return Fact(key, label, WIDTH.record(line.value), "jacket at the edge", line.basis, said, LINE, "jacket")
    return Figure(key, label, line, WIDTH)
