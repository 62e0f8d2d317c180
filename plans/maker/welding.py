"""How hot to weld some steels together: what suits all, and what gives where nothing does."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from plans.maker.hot_work import burn_limit, burn_limit_of, fire_above
from plans.maker.steels import PieceSteel, Steels, rounded
from plans.maker.why import Chosen, Concern, practice
from plans.record import record
from plans.steel import on_lines
from plans.units import Shown, Units, kelvin

BELOW_BURN: Final = 40.0
"""The welding heat stays so far under the burn limit: a temperature difference [K]."""
FLUX_AT: Final = kelvin(880)
"""Where borax is put on: it clings and runs, and scale has not grown yet [K]."""
FLUX_EARLY: Final = kelvin(800)
"""Where it is put on steel with chromium, before that has an oxide that flux doesn't take [K]."""
SCALES_FAST: Final = 0.7
"""With so much chromium flux is put on early [mass %]."""
NO_FLUX: Final = 2.5
"""With more chromium borax does not take its oxide [mass %]."""
SILICON: Final = 1.2
"""With more silicon a weld takes badly [mass %]."""
TOO_FAR: Final = 80.0
"""Where one steel needs a welding heat so far above what the other stands, it hardly takes by hand: a temperature
difference [K]."""
CHROMIUM: Final = 1.2
"""From so much chromium on a weld under flux is doubtful [mass %]."""
SLACK: Final = 15.0
"""What two welding heats may differ by before that is worth saying: a temperature difference [K]."""
_TAKES_FROM: Final = ((0.25, 1260.0), (0.7, 1200.0), (1.0, 1200.0), (1.5, 1150.0))
_WELDED_TO: Final = ((0.25, 1320.0), (0.7, 1260.0))
"""Carbon [mass %], and the coolest and hottest welding heat [degC]: common practice, no source."""
_SOAK_FIRST, _SOAK_LATER = 10.5e3, 4.0e3
"""Soak of open seams, and of one that has set, for each metre of thickness [s/m]."""


@record
class WeldHeat:
    """The temperatures of a welding heat; they rise: `flux_at`, `keep_above`, `heat_to`, `fire`, `burn_above`."""

    fire: Chosen[float]
    """Temperature of the fire [K]."""
    heat_to: Chosen[float]
    """Welding heat [K]."""
    flux_at: Chosen[float]
    """Where the seams are fluxed on the way up [K]."""
    keep_above: Chosen[float]
    """Cold limit: colder, a seam does not take [K]."""
    burn_above: Chosen[float]
    """Burn limit of the steel that burns first [K]."""
    concerns: tuple[Concern, ...]
    """What is against this weld, besides what `plans.maker.hot_work.forging_concerns` has against its steels."""


def weld_heat(steels: Steels) -> WeldHeat:
    """The temperatures to weld some steels at, one to itself or several together.

    Two thirds up in the range that suits all of them; where none does, as hot as the one that burns first stands.

    Args:
        steels: that are welded
    """
    leanest, first = max(steels.all, key=_needs), min(steels.all, key=_stands)
    needs, stands = _needs(leanest), _stands(first)
    heat = rounded(needs + 2 / 3 * (stands - needs) if needs < stands else stands, 10)
    keep = min(kelvin(1100), heat - 80)
    chromium = max((one for one in steels.all), key=lambda one: one.holds.chromium)
    early = chromium.holds.chromium >= SCALES_FAST
    flux = (
        Chosen(
            FLUX_EARLY,
            practice(f"Early: {chromium.name} has chromium, whose oxide borax hardly takes once it is there."),
        )
        if early
        else Chosen(
            FLUX_AT, practice("Light cherry red: borax clings and runs, and keeps off the scale that comes later.")
        )
    )
    return WeldHeat(
        fire_above(heat),
        Chosen(heat, practice(_heat_said(steels, needs, stands))),
        flux,
        Chosen(keep, practice("Colder, a seam does not take: stop, and back into the fire.")),
        burn_limit(steels),
        tuple(_concerns(steels, leanest, first)),
    )


def weld_soak(thickness: float, *, first: bool) -> Chosen[float]:
    """How long to hold a stack at welding heat once its skin is up, to 30 s [s].

    Not by the warm model: open seams hold the heat up, and it takes the stack for one piece.

    Args:
        thickness: the shorter side of the stack [m]
        first: whether its seams are open still
    """
    seconds = max(60.0, round(thickness * (_SOAK_FIRST if first else _SOAK_LATER) / 30) * 30.0)
    said: Shown = "One piece by now, and hot when it goes back in: a shorter soak does."
    if first:

        def said(units: Units) -> str:
            return (
                f"About 1 min for each {units.length(0.0055)} of thickness, as open seams hold the heat up: until no"
                " shadow is left."
            )

    return Chosen(seconds, practice(said))


def weld_soak_at_most(soak: float) -> Chosen[float]:
    """Longest soak of a welding heat [s]: twice what it should take, and then the skin loses carbon and scales away."""
    return Chosen(2 * soak + 60, practice("Longer, it only scales and loses carbon: then the fire is too cold."))


def _needs(one: PieceSteel) -> float:
    """The coolest heat at which a steel takes by hand [K]."""
    return kelvin(on_lines(_TAKES_FROM, _like(one)))


def _stands(one: PieceSteel) -> float:
    """The hottest heat to weld a steel at, by what smiths do and by where it burns [K]."""
    return min(kelvin(on_lines(_WELDED_TO, _like(one))), burn_limit_of(one).value - BELOW_BURN)


def _like(one: PieceSteel) -> float:
    """The carbon of steel that welds like it [mass %]; nickel goes with the steels that it is laid between."""
    return 0.8 if one.holds.is_nickel else one.holds.carbon


def _heat_said(steels: Steels, needs: float, stands: float) -> Shown:
    names = " and ".join(one.name for one in steels.all)

    def said(units: Units) -> str:
        if needs > stands:
            return f"As hot as the steel that burns first stands, {units.temperature(stands)}."
        return f"{names}: takes from {units.temperature(needs)} on, and is safe to {units.temperature(stands)}."

    return said


def _concerns(steels: Steels, leanest: PieceSteel, first: PieceSteel) -> Iterator[Concern]:
    if leanest is not first and _needs(leanest) > _stands(first) + SLACK:
        yield _too_far_apart(leanest, first)
    for one in steels.all:
        yield from _against_flux(one)
    if all(one.holds.is_nickel for one in steels.all):
        yield Concern(
            steels.all[0].answer,
            "Nickel does not weld to nickel under flux.",
            "Lay steel between the sheets, or braze them.",
            serious=True,
        )


def _too_far_apart(leanest: PieceSteel, first: PieceSteel) -> Concern:
    needs, stands, burns = _needs(leanest), _stands(first), burn_limit_of(first).value

    def what(units: Units) -> str:
        beyond = "burns" if needs >= burns else "comes near to burning"
        return (
            f"{leanest.name} takes from {units.temperature(needs)} on, where {first.name} {beyond}: its limit is"
            f" {units.temperature(burns)}, and it is welded at {units.temperature(stands)} at most."
        )

    def mend(units: Units) -> str:
        return (
            f"Weld no hotter than {units.temperature(stands)}, soak longer, set it with a press or many light blows;"
            f" or take a steel with less carbon than {first.name} has, {first.holds.carbon:.2f} %."
        )

    return Concern(first.answer, what, mend, serious=needs - stands > TOO_FAR)


def _against_flux(one: PieceSteel) -> Iterator[Concern]:
    holds = one.holds
    if holds.chromium > NO_FLUX:
        yield Concern(
            one.answer,
            f"{one.name} has {holds.chromium:.3g} % chromium: borax does not take its oxide, a weld under flux fails.",
            "Seal every seam by arc, weld it dry in a canister or under a press; or take a steel without chromium.",
            serious=True,
        )
    elif holds.chromium >= CHROMIUM:
        yield Concern(
            one.answer,
            f"{one.name} has {holds.chromium:.2g} % chromium: its oxide is slow to go into borax.",
            "Grind it bright right before, flux it early, before it is red, and keep the fire rich; or seal the seams.",
        )
    if holds.silicon >= SILICON:
        yield Concern(
            one.answer,
            f"{one.name} has {holds.silicon:.2g} % silicon: it takes badly under the hammer.",
            "Flux it early and weld it to a plain steel, not to itself; or take another spring steel.",
        )
    if holds.is_nickel:
        yield Concern(
            one.answer,
            f"{one.name} takes to steel, not to itself, and turns brittle by sulphur from coal.",
            "Keep it between steels, in a gas fire or clean coke, and clean it last of all.",
        )
