"""How hot to heat the work for each kind of forging: what the steels stand, and what the hand asks for."""

from __future__ import annotations

from enum import StrEnum
from typing import Final

from plans.maker.steels import PieceSteel, Steels, rounded
from plans.maker.why import Chosen, Concern, Why, practice
from plans.record import record
from plans.steel import MOST_CARBON, burning, hottest_to_forge
from plans.units import Units, kelvin

ABOVE_WORK: Final = 30.0
"""The fire is so much hotter than what the work is heated to: a temperature difference [K]."""
MOST_DRAWN: Final = kelvin(1150)
"""Highest heat to draw out at, whatever the steel stands [K]."""
RICH: Final = 0.9
"""Above so much carbon a steel is forged in a narrower range [mass %]."""
LEAST_RANGE: Final = 50.0
"""The heat lies at least so far above the cold limit, or there is no time to work in: a temperature difference [K]."""
HOT_SHORT: Final = 0.2
"""With so much sulphur a steel breaks up at forging heat [mass %]."""
_AIR_HARDENING: Final = (kelvin(1060), kelvin(925), kelvin(1150))
"""Heat, cold limit and burn limit of steels that harden in air [K]: makers' sheets, from memory."""
_NICKEL_BURNS: Final = kelvin(1350)
_UNKNOWN_AC1: Final = kelvin(700)


class HotWork(StrEnum):
    """What is forged, as far as it decides how hot."""

    DRAW = "draw"
    """Drawing out, folding, squaring a sound bar."""
    PROOF = "proof"
    """Drawing hard right after the weld, so that a bad one opens now."""
    TWIST = "twist"
    """Twisting a bar, whose welds must stand it."""
    THIN = "thin"
    """Bevels, points, tangs and tapers, which are thin and burn before the rest is hot."""
    BEND = "bend"
    """Bending what is finished at the hammer."""
    STRAIGHTEN = "straighten"
    """The last heat, for straightening alone."""


@record
class Heat:
    """The temperatures of one kind of heat, each below the next: `keep_above`, `heat_to`, `fire`, `burn_above`."""

    fire: Chosen[float]
    """Temperature of the fire [K]."""
    heat_to: Chosen[float]
    """What the skin is heated to [K]."""
    keep_above: Chosen[float]
    """Cold limit, below which no blow falls [K]."""
    burn_above: Chosen[float]
    """Burn limit [K]."""


def heat_for(work: HotWork, steels: Steels) -> Heat:
    """The temperatures to forge some steels at, together if they are welded.

    Args:
        work: what is forged
        steels: of the piece
    """
    if work is HotWork.STRAIGHTEN:
        return _straightening(steels)
    top, bottom, burn = _draw(steels), _cold(steels), burn_limit(steels)
    cooler = {HotWork.PROOF: -40.0, HotWork.TWIST: -60.0, HotWork.THIN: 30.0, HotWork.BEND: 70.0}.get(work, 0.0)
    said = {
        HotWork.PROOF: "Hotter than for drawing, as the welds are young: what opens now, opens early.",
        HotWork.TWIST: "Hotter than for drawing: a twist shears the welds, and turns where the bar is hottest.",
        HotWork.THIN: "Cooler than for drawing: what is thin is hot, and burnt, before the rest is.",
        HotWork.BEND: "Cooler than for drawing: it shall bend and not stretch, and scale less.",
    }.get(work)
    colder = {HotWork.PROOF: 50.0, HotWork.TWIST: 50.0}.get(work, 0.0) if steels.welded else 0.0
    keep = bottom.value + colder
    heat = max(min(rounded(top.value - cooler, 10), rounded(burn.value - 2 * ABOVE_WORK, 10)), keep + LEAST_RANGE)
    heat_to = Chosen(heat, practice(said) if said else top.why)
    keep_above = (
        Chosen(keep, practice("Stop sooner than in a sound bar: what is struck or turned cold opens a young weld."))
        if colder
        else bottom
    )
    return Heat(fire_above(heat), heat_to, keep_above, burn)


def fire_above(heat: float) -> Chosen[float]:
    """The fire for work that is heated to a temperature [K]: `ABOVE_WORK` hotter, so that it gets there at all."""

    def said(units: Units) -> str:
        return (
            f"{units.difference(ABOVE_WORK)} over what the work is heated to: hotter, thin parts run away from thick."
        )

    return Chosen(rounded(heat + ABOVE_WORK), practice(said))


def burn_limit(steels: Steels) -> Chosen[float]:
    """Above what the first of some steels burns [K]."""
    return min((burn_limit_of(one) for one in steels.all), key=lambda one: one.value)


def forging_concerns(steels: Steels) -> tuple[Concern, ...]:
    """What is against forging these steels at all, and which of them is not known; each with what would mend it."""
    found = [*steels.unknown()]
    for one in steels.all:
        if one.holds.sulphur >= HOT_SHORT:
            what = (
                f"{one.name} holds {one.holds.sulphur:.2g} % sulphur: it is hot short, and breaks up under the hammer."
            )
            found.append(Concern(one.answer, what, "Take a mild steel such as 1018 in its place.", serious=True))
        if one.air_hardening:
            what = (
                f"{one.name} hardens in still air: it cracks where it is struck too cold, or cools fast between heats."
            )
            mend = "Heat it slowly, keep to the narrow range, and let it cool in lime, ash or a warm furnace each time."
            found.append(Concern(one.answer, what, mend))
    return tuple(found)


def burn_limit_of(one: PieceSteel) -> Chosen[float]:
    """Above what one steel burns [K]."""
    if one.holds.is_nickel:
        said = f"{one.name} melts hotter than steel, but sulphur from the fire makes it brittle long before."
        return Chosen(_NICKEL_BURNS, practice(said))
    known = burning(one.holds)
    if known is None or one.air_hardening:
        said = f"{one.name} holds carbides that melt early: its sheet has the range to forge it in."
        return Chosen(_AIR_HARDENING[2], Why("from memory", said, "makers' sheets, from memory"))
    carbon = f"{one.holds.carbon:.2f} % carbon" + ("" if one.grade else " (taken, as it is not known)")
    said = f"{one.name}, {carbon}: a safe distance under where it begins to melt. White sparks are burning steel."
    return Chosen(rounded(known.value + 5, 10), Why(known.basis, said, known.source))


def _draw(steels: Steels) -> Chosen[float]:
    """The highest heat for drawing that all the steels stand [K]."""
    return min((_drawn(one) for one in steels.all), key=lambda one: one.value)


def _drawn(one: PieceSteel) -> Chosen[float]:
    if one.air_hardening:
        return Chosen(
            _AIR_HARDENING[0], Why("from memory", f"{one.name} hardens in air.", "makers' sheets, from memory")
        )
    printed = hottest_to_forge(min(one.holds.carbon, MOST_CARBON))
    if printed.value >= MOST_DRAWN:
        return Chosen(MOST_DRAWN, practice(f"{one.name} stands more, but gains only scale and coarse grain by it."))
    said = f"The hottest that {one.name}, {one.holds.carbon:.2f} % carbon, is forged at: more carbon, less heat."
    return Chosen(rounded(printed.value, 10), Why("from memory", said, printed.source))


def _cold(steels: Steels) -> Chosen[float]:
    """The cold limit that suits all the steels [K]."""
    return max((_coldest(one, welded=steels.welded) for one in steels.all), key=lambda one: one.value)


def _coldest(one: PieceSteel, *, welded: bool) -> Chosen[float]:
    if one.air_hardening:
        said = f"{one.name} stiffens and cracks sooner than plain steel."
        return Chosen(_AIR_HARDENING[1], Why("from memory", said, "makers' sheets, from memory"))
    if one.holds.carbon > RICH and one.holds.chromium >= 1:
        return Chosen(kelvin(920), practice(f"{one.name} is stiff with carbides below this, and cracks."))
    if one.grade is not None and one.grade.name == "wrought iron":
        return Chosen(kelvin(950), practice("Wrought iron splits along its threads of slag where it is struck colder."))
    if welded:
        return Chosen(
            kelvin(900), practice("Welded work is not struck colder: the seams open, and steels stretch unlike.")
        )
    if one.holds.carbon > RICH:
        return Chosen(
            kelvin(870), practice(f"{one.name} has carbides along its grains below this, and cracks more easily.")
        )
    return Chosen(kelvin(850), practice("Colder, it hardly moves, and cracks at the edges."))


def _straightening(steels: Steels) -> Heat:
    below = [one.card.ac1.best.value if one.card else _UNKNOWN_AC1 for one in steels.all]
    lowest = min([at for at in below if at is not None], default=kelvin(740))
    heat = rounded(min(lowest - 40, kelvin(700)), 10)

    def said(units: Units) -> str:
        return (
            f"Dull red, under Ac1, {units.temperature(lowest)}: no new grain, and nothing that could harden. "
            "On wood or with a wooden mallet."
        )

    def cold(units: Units) -> str:
        return f"Below it steel nears the blue heat, about {units.temperature(kelvin(300))}, at which it cracks."

    return Heat(fire_above(heat), Chosen(heat, practice(said)), Chosen(kelvin(550), practice(cold)), burn_limit(steels))
