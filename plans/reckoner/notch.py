"""The reckoning of a notch that is closed at the point."""

from __future__ import annotations

from plans.billets import USUAL_ANGLE, USUAL_LOSS, notch_drawn, notch_for
from plans.reckoner import checks
from plans.reckoner.bars import of_the_section
from plans.reckoner.errors import ReckonError, as_asked
from plans.reckoner.figures import Figure, given
from plans.reckoner.kinds import ANGLE, COUNT, THIN, TYPED_LENGTH, WIDTH
from plans.reckoner.reckoning import Reckoning
from plans.shapes import Form, Section

RADIUS, GRIND = 0.5e-3, 1e-3
"""Radius of a flank's edges, and what is ground off a face, where neither is given [m]."""


def reckon_notch(
    section: Section,
    core: float,
    *,
    jacket: float = USUAL_LOSS,
    angle: float = USUAL_ANGLE,
    radius: float = RADIUS,
    drawn_to: float | None = None,
    grind: float = GRIND,
) -> Reckoning:
    """What to cut out of the end of a bar with a core, so that closing it brings the jacket round the point.

    Args:
        section: of the bar, a flat or a square with the core in the middle of its width
        core: width of the core [m]
        jacket: jacket in front of the core that is to be left at the point [m]
        angle: of the notch, from flank to flank [degrees]
        radius: to which the edges of the flanks are rounded [m]
        drawn_to: thickness that the blade is drawn to after the weld [m]; None for that of the bar
        grind: what is ground off each face in the end [m]

    Raises:
        ReckonError: the section is no flat, the notch is wider than the bar, or a length or the angle can't be.
    """
    if section.form is not Form.FLAT:
        raise ReckonError("section", 'give the bar before it has bevels, e.g. "38 x 12 mm"')
    checks.bar(section, None)
    with as_asked():
        found = notch_for(
            section.width,
            section.thickness,
            core,
            jacket=jacket,
            angle=angle,
            radius=radius,
            drawn_to=drawn_to,
            grind=grind,
        )
    asked = [
        of_the_section(section),
        given("core_mm", "core", core, TYPED_LENGTH),
        given("jacket_mm", "jacket at the point", jacket, TYPED_LENGTH),
        given("angle_degrees", "angle", angle, ANGLE),
        given("radius_mm", "flanks rounded to", radius, TYPED_LENGTH),
        given("grind_mm", "ground off a face", grind, TYPED_LENGTH),
    ]
    if drawn_to is not None:
        asked.append(given("drawn_to_mm", "drawn to", drawn_to, TYPED_LENGTH))
    return Reckoning(
        "notch",
        tuple(asked),
        (
            Figure("depth_mm", "cut so deep", found.depth, WIDTH),
            Figure("mouth_mm", "so wide at the end", found.mouth, WIDTH),
            Figure("heats", "heats to plan", found.heats, COUNT),
            Figure("grind_back_mm", "grind back at the tip", found.grind_back, WIDTH),
            Figure("jacket_left_mm", "jacket left at the point", found.jacket_left, WIDTH),
            Figure("weld_line_mm", "weld, up to the tip", found.weld_line, WIDTH),
            Figure("aside_mm", "cut beside the middle", found.aside, WIDTH),
            Figure("prong_mm", "each prong, at the end", found.prong, WIDTH),
            Figure("groove_mm", "groove along the weld", found.groove, THIN),
            Figure("groove_left_mm", "groove after grinding", found.groove_left, THIN),
            Figure("widest_radius_mm", "widest radius", found.widest_radius, THIN),
        ),
        drawing=notch_drawn(section.width, core, found.depth.value, angle, jacket),
    )
