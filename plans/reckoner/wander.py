"""The reckoning of a core that has wandered."""

from __future__ import annotations

from collections.abc import Sequence

from plans.billets import Corners, wander_drawn, wandered
from plans.reckoner import checks
from plans.reckoner.bars import of_the_section
from plans.reckoner.errors import ReckonError, as_asked
from plans.reckoner.figures import Fact, Figure, given_list
from plans.reckoner.kinds import ANGLE, TYPED_LENGTH, WIDTH
from plans.reckoner.reckoning import Reckoning
from plans.shapes import Form, Section

_SAID = {
    Corners.FRONT_RIGHT: "and the back left by turns: the bar on its edge, across the longer diagonal; then square it",
    Corners.FRONT_LEFT: "and the back right by turns: the bar on its edge, across the longer diagonal; then square it",
    Corners.NONE: "no more than a rule tells: it stands upright",
}
_PRACTICE = "common practice, no source"


def reckon_wander(section: Section, front: Sequence[float], back: Sequence[float]) -> Reckoning:
    """How a section leaned while it was drawn, from where its core shows on both faces, and which corner to strike.

    Args:
        section: of the bar, a flat or a square
        front: where the core begins and ends on the front, from the left side of the bar [m]
        back: the same on the back, from the same side of the bar [m]

    Raises:
        ReckonError: the section is no flat, or a core does not lie within it.
    """
    if section.form is not Form.FLAT:
        raise ReckonError("section", 'give the bar before it has bevels, e.g. "30 x 12 mm"')
    for name, face in (("front", front), ("back", back)):
        if len(face) != 2:
            raise ReckonError(name, 'give where the core begins and where it ends, e.g. "10, 20 mm"')
    checks.bar(section, None)
    on_front, on_back = (front[0], front[1]), (back[0], back[1])
    with as_asked():
        found = wandered(section.width, section.thickness, on_front, on_back)
    corner = found.corners.value
    strike = Fact(
        "strike", "strike the front corner", corner, corner, "common practice", _SAID[found.corners], _PRACTICE
    )
    return Reckoning(
        "wander",
        (
            of_the_section(section),
            given_list("front_mm", "core on the front", front, TYPED_LENGTH),
            given_list("back_mm", "on the back", back, TYPED_LENGTH),
        ),
        (
            Figure("lean_degrees", "leans to the right", found.lean, ANGLE),
            Figure("lean_mm", "further right on the front", found.across, WIDTH),
            strike,
            Figure("off_mm", "core right of the middle", found.off, WIDTH),
            Figure("diagonals_mm", "diagonals differ by", found.diagonals, WIDTH),
        ),
        drawing=wander_drawn(section.width, section.thickness, on_front, on_back, found.corners),
    )
