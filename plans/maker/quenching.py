"""What a piece is quenched in: by its sheet, else by how deep its steel hardens and how thick it is."""

from __future__ import annotations

import re
from enum import StrEnum
from math import sqrt
from typing import Final

from plans.maker.steels import PieceSteel
from plans.maker.why import Basis, Chosen, Concern, Why, practice
from plans.prose import in_braces
from plans.record import record
from plans.steel import Composition, What
from plans.units import kelvin


class Medium(StrEnum):
    """What steel is quenched in."""

    FAST_OIL = "fast quench oil"
    """Thin oil, made for quenching."""
    OIL = "medium quench oil"
    """Thicker oil, warmed so that it runs."""
    BRINE = "brine"
    """Water with a tenth of salt."""
    AIR = "still air"
    """Still air, thin work between plates."""


@record
class Quench:
    """What the work is quenched in, how warm that is, and how long it stays."""

    medium: Chosen[Medium]
    """What it goes into."""
    at: Chosen[float]
    """How warm that is [K]."""
    seconds: Chosen[float]
    """How long it stays in [s]."""
    within: Chosen[float]
    """Longest time from the fire into it [s]."""

    @property
    def text(self) -> str:
        """Its words for the `medium` of a plan: "fast quench oil at {50 degC}"."""
        if self.medium.value is Medium.AIR:
            return f"{self.medium.value}, thin work between plates"
        return f"{self.medium.value} at {in_braces(self.at.value)}"


THIN: Final = 0.008
"""So thin a shallow-hardening steel hardens right through in fast oil [m]."""
_WARM: Final = {
    Medium.FAST_OIL: kelvin(50),
    Medium.OIL: kelvin(55),
    Medium.BRINE: kelvin(25),
    Medium.AIR: kelvin(20),
}
_WITHIN: Final = {Medium.FAST_OIL: 2.0, Medium.OIL: 3.0, Medium.BRINE: 2.0, Medium.AIR: 15.0}
_SHALLOW: Final = 0.55
"""Depth of hardening, as `_depth` has it, below which oil must be fast."""


def quench(one: PieceSteel, thickness: float) -> tuple[Quench, tuple[Concern, ...]]:
    """What a steel is quenched in, and what is dangerous about it.

    Args:
        one: the steel of the edge
        thickness: of the work where it is thickest [m]
    """
    medium = _medium(one, thickness)
    seconds = 600.0 if medium.value is Medium.AIR else max(10.0, 5 * round(thickness * 2.5e3 / 5))
    found = Quench(
        medium,
        Chosen(_WARM[medium.value], practice(_WARM_SAID[medium.value])),
        Chosen(seconds, practice("Until it is down to hand heat; straighten it in the first minute after.")),
        Chosen(_WITHIN[medium.value], practice(_WITHIN_SAID[medium.value])),
    )
    return found, tuple(_dangers(one, medium.value, thickness))


_WARM_SAID: Final = {
    Medium.FAST_OIL: "Warm oil runs thinner and quenches faster and more evenly; hotter, it smokes and may flash.",
    Medium.OIL: "Warmed, so that it runs thin: cold thick oil quenches slower. Hotter, it smokes and may flash.",
    Medium.BRINE: "Hand-warm, so that it shocks the steel less; salt breaks the jacket of steam.",
    Medium.AIR: "As warm as the shop.",
}
_WITHIN_SAID: Final = {
    Medium.FAST_OIL: "It hardens shallow: a thin edge cools past where it hardens within seconds in air.",
    Medium.OIL: "2 to 3 s is usual; a thin edge cools fastest.",
    Medium.BRINE: "It hardens shallow: a thin edge cools past where it hardens within seconds in air.",
    Medium.AIR: "There is no haste: it hardens in air.",
}


def said_for(one: PieceSteel, medium: Medium) -> float | None:
    """The hardening heat that a steel's sheet has for a medium, as in "820 into water, 850 into oil" [K].

    Args:
        one: the steel
        medium: what it is quenched in

    Returns:
        None where the sheet makes no difference; the middle where it has a range for it.
    """
    kind = _KIND[medium]
    for stated in one.grade.stated_for(What.HARDENING) if one.grade else ():
        for low, high, into in re.findall(r"(\d{3,4})(?:-(\d{3,4}))? into (\w+)", stated.note):
            if into == kind:
                return kelvin((float(low) + float(high or low)) / 2)
    return None


_KIND: Final = {Medium.FAST_OIL: "oil", Medium.OIL: "oil", Medium.BRINE: "water", Medium.AIR: "air"}


def _medium(one: PieceSteel, thickness: float) -> Chosen[Medium]:
    stated = one.grade.stated_for(What.HARDENING) if one.grade else ()
    notes = [each for each in stated if any(word in each.note for word in ("oil", "water", "air"))]
    note = " ".join(each.note for each in notes)
    told: Basis = "published" if notes and all(each.source.looked_up for each in notes) else "from memory"
    source = "; ".join(dict.fromkeys(str(each.source) for each in notes))
    shallow = _depth(one.holds) < _SHALLOW
    oil = Medium.FAST_OIL if shallow else Medium.OIL
    if one.air_hardening:
        return Chosen(Medium.AIR, Why(told if notes else "common practice", f"{one.name} hardens in air.", source))
    if "oil" in note:
        how = "hardens shallow, so that it must be a fast one" if shallow else "has alloy enough for a slower one"
        return Chosen(oil, Why(told, f"Its sheet has {one.name} quenched in oil; it {how}.", source))
    if "water" in note and thickness <= THIN:
        said = (
            f"The sheet has water for {one.name}; so thin, it hardens through in fast oil, and cracks far less often."
        )
        return Chosen(Medium.FAST_OIL, practice(said))
    if "water" in note:
        return Chosen(
            Medium.BRINE, Why(told, f"Its sheet has {one.name} quenched in water; so thick, oil is too slow.", source)
        )
    if shallow and thickness > THIN:
        said = f"{one.name} hardens shallow: so thick, hardly more than skin-deep in oil; that does for an edge."
        return Chosen(oil, practice(said))
    how = "hardens shallow: fast oil" if shallow else "has alloy enough to harden in a slower, gentler oil"
    return Chosen(oil, practice(f"{one.name} {how}."))


def _depth(steel: Composition) -> float:
    """How deep a steel hardens, by its carbon, manganese, chromium, nickel and molybdenum: a weight, not a depth.

    Common practice, no source: it only tells shallow steels, such as 1095 and W2, from those that stand slower oil.
    """
    alloys = 0.8 * steel.manganese + steel.chromium + steel.nickel / 3 + 2 * steel.molybdenum
    return alloys * sqrt(min(steel.carbon, 0.9) / 0.8)


def _dangers(one: PieceSteel, medium: Medium, thickness: float) -> list[Concern]:
    if medium is Medium.BRINE:
        mend = "Round every edge and scratch first, temper at once, expect to lose one now and then; or stay with oil."
        return [Concern(one.answer, f"{one.name} in brine: thin edges, nicks and sharp shoulders crack.", mend)]
    if medium is not Medium.AIR and _depth(one.holds) < _SHALLOW and thickness > THIN:
        what = f"{one.name} hardens shallow: where it is thickest oil hardens its skin, not its middle."
        return [Concern(one.answer, what, "That does for an edge: grind the bevels in before the quench.")]
    return []
