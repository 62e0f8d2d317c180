"""How many heats each part of the forging is planned to take, and why."""

from __future__ import annotations

from typing import Final

from plans.maker.settled import Settled
from plans.maker.why import Chosen, Why, practice
from plans.making import Part
from plans.press import usual_heats
from plans.shapes import Section
from plans.units import Units

_FIXED: Final = {
    Part.SET_WELD: (1, "One heat with light blows sets the weld; the next ones close it."),
    Part.WELD: (2, "Two heats over the whole length: the first closes the seams, the second proves them."),
    Part.JOIN_SET: (1, "One heat with light blows on the narrow sides sets the weld."),
    Part.JOIN: (3, "Three heats: the narrow sides from end to end, then the flats, then both again."),
    Part.PROOF: (1, "One heat of hard drawing shows whether the weld holds, while little is lost with it."),
    Part.FOLD_CLOSE: (1, "One heat at the hinge alone."),
    Part.FOLD_WELD: (2, "One heat to set the fold, one over the whole length."),
    Part.TWIST: (2, "Two heats, so that the whole length is twisted evenly and hot."),
    Part.FLATTEN: (2, "Two heats on the four faces, at welding heat: the corners of a twist fold over otherwise."),
    Part.BEND: (2, "One heat for the bend, one to close both legs onto the core."),
    Part.POINT: (2, "Two heats: the outline first, its thickness with the second."),
    Part.BEND_TANGS: (2, "One heat for each tang."),
    Part.STRAIGHTEN: (1, "One short heat at a dull red."),
}
"""Parts whose heats hang on no section: common practice, no source."""


def heats_for(part: Part) -> Chosen[int]:
    """Heats of a part of the work that hang on no section.

    Args:
        part: one of those that are fixed by common practice
    """
    count, said = _FIXED[part]
    return Chosen(count, practice(said))


def heats_to_draw(of: Settled, section: Section, reach: Section, *, more: int = 0, least: int = 1) -> Chosen[int]:
    """Heats that it takes to draw from one section to another at what a heat takes off.

    Args:
        of: what shall be made, for what a heat takes off
        section: when it begins
        reach: when it is done
        more: heats besides, for a shoulder or for straightening
        least: heats at least
    """
    share = of.reduction.value
    drawn = usual_heats(section, reach, share) if reach.area < section.area else 1

    def said(units: Units) -> str:
        gone = f"from {units.section(section)} to {units.section(reach)} at {100 * share:.0f} % of the area a heat"
        beside = f", and {more} besides" if more else ""
        return f"{gone}{beside}"

    why = of.whys["reduction"]
    basis = "arithmetic" if why.basis == "asked" else why.basis
    return Chosen(max(least, drawn + more), Why(basis, said, why.source))
