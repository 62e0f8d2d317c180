"""The reckoning of heats: how many it takes from one section to another, by what a heat takes off in this shop."""

from __future__ import annotations

from plans.blows import StruckBy
from plans.press import heats_drawn, heats_needed, usual_reduction
from plans.reckoned import Reckoned
from plans.reckoner import checks
from plans.reckoner.bars import of_the_section
from plans.reckoner.errors import ReckonError
from plans.reckoner.figures import Figure, Given
from plans.reckoner.kinds import NUMBER, SHARE
from plans.reckoner.reckoning import Reckoning
from plans.shapes import Section
from plans.units import Units


def reckon_heats(section: Section, reach: Section, reduction: Reckoned | None = None) -> Reckoning:
    """How many heats it takes to draw a bar from one section down to another.

    Args:
        section: when it begins
        reach: when it is done, smaller in area
        reduction: share of the area that a heat takes off, with its range; None for what a hand hammer usually does

    Raises:
        ReckonError: a section is none that can be, or is no smaller; or the share is not between 0 and 1.
    """
    checks.bar(section, None)
    checks.bar(reach, None, "to")
    if not reach.area < section.area * (1 - 1e-9):
        raise ReckonError("to", "give a section with less area than the bar has")
    known = usual_reduction(StruckBy.HAND) if reduction is None else reduction
    if not 0.01 <= known.value <= 0.9:
        raise ReckonError("reduction", f"{known.value * 100:g} %: give what a heat takes off, from 1 to 90 %")
    count = heats_needed(section, reach, known)
    off = 1 - reach.area / section.area
    to = Given("to", Units.METRIC.section(reach), lambda units: f"to {units.section(reach)}")
    return Reckoning(
        "heats",
        (of_the_section(section), to),
        (
            Figure("heats", "heats", count, NUMBER),
            Figure("reduction_fraction", "off a heat", known, SHARE),
            Figure("area_off_fraction", "off in all", Reckoned(off, "arithmetic", "of the area", "arithmetic"), SHARE),
        ),
        drawing=heats_drawn(section, reach),
    )
