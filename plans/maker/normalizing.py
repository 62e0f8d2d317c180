"""The falling heats to normalize a piece by, from the card of the steel that makes its edge."""

from __future__ import annotations

from typing import Final

from plans.maker.hot_work import fire_above
from plans.maker.steels import PieceSteel, Steels, why_advice, within
from plans.maker.why import Chosen, Concern, Why, practice
from plans.record import record
from plans.steel import Advice, What
from plans.units import Units, kelvin

SHARE: Final = 0.6
"""How far up in the range of each heat the work is heated: 0 for its low end."""
BLACK: Final = kelvin(480)
"""Well below the arrest, where no glow is left [K]."""
TOO_HOT_BY: Final = 100.0
"""So far over the first heat the work is called too hot: a temperature difference [K]."""
COARSE: Final = 60.0
"""A first heat so far over what another steel of the piece wants leaves that coarse: a temperature difference [K]."""
_UNKNOWN: Final = (kelvin(900), kelvin(845), kelvin(790))
_ANNEAL: Final = (
    "Anneal it in place of normalizing: by its sheet, or a long soak at dull red, under Ac1, and a slow cooling in"
    " lime, ash or the closed furnace."
)


@record
class Normalizing:
    """The heats of normalizing, the fire of each, and how it cools between."""

    fire: Chosen[tuple[float, ...]]
    """Temperature of the fire for each heat [K]."""
    heat_to: Chosen[tuple[float, ...]]
    """What the skin is heated to in each, falling [K]."""
    soak: Chosen[float]
    """How long it is held once even [s]."""
    soak_at_most: Chosen[float]
    """A longer hold is called out [s]."""
    until: Chosen[float]
    """Below what it has to fall in still air before the next heat [K]."""
    burn_above: Chosen[float]
    """Above what the grain grows so far that the cycles are for nothing [K]."""


def normalizing(steels: Steels) -> tuple[Normalizing | None, tuple[Concern, ...]]:
    """How to normalize a piece; none where one of its steels hardens in air or nobody knows how, which is said.

    Args:
        steels: of the piece
    """
    air = [one for one in steels.all if one.air_hardening]
    if air:
        what = (
            f"{air[0].name} hardens in still air: normalizing would harden it, and may crack it. The step is left out."
        )
        return None, (Concern(air[0].answer, what, _ANNEAL),)
    decides = steels.hard or max(steels.all, key=lambda one: one.holds.carbon)
    if decides.card is None:
        return _of(_UNKNOWN, practice(f"{decides.name} is not known: heats that suit most steels.")), ()
    heats = decides.card.normalizing
    ranges = [(one.low, one.high) for one in heats if one.low is not None and one.high is not None]
    if not ranges:
        what = f"There is no normalizing heat for {decides.name}: {heats[0].why} The step is left out."
        return None, (Concern(decides.answer, what, _ANNEAL),)
    found = _of(tuple(within(low, high, SHARE) for low, high in ranges), _reason(decides, heats))
    return found, (*_noted(decides), *_coarse(steels, decides, found.heat_to.value[0]))


def _of(heats: tuple[float, ...], why: Why) -> Normalizing:
    fires = tuple(fire_above(heat).value for heat in heats)
    burn = kelvin(10 * round((heats[0] + TOO_HOT_BY - kelvin(0)) / 10))
    return Normalizing(
        Chosen(fires, fire_above(heats[0]).why),
        Chosen(heats, why),
        Chosen(240.0, practice("Long enough to even out, short enough that no grain grows and little carbon is lost.")),
        Chosen(600.0, practice("Held longer at heat, grains grow and the skin loses carbon.")),
        Chosen(
            BLACK, practice("Black all over: the steel has turned, edge and spine, and the next heat makes new grain.")
        ),
        Chosen(burn, practice("Far over the first heat grains grow faster than the cycles can mend.")),
    )


def _reason(decides: PieceSteel, heats: tuple[Advice, ...]) -> Why:
    first = why_advice(heats[0])

    def said(units: Units) -> str:
        ranges = ", ".join(
            f"{units.degrees(one.low)} to {units.degrees(one.high)}" if one.low != one.high else units.degrees(one.low)
            for one in heats
        )
        later = "" if len(heats) == 1 else " The heats after it fall, so that the new grain stays small."
        return f"{decides.name} by its card: {ranges} {units.degree}. {units.text(first.said)}{later}"

    return Why(first.basis, said, first.source)


def _noted(decides: PieceSteel) -> tuple[Concern, ...]:
    """What those who state a normalizing range say besides."""
    stated = decides.grade.stated_for(What.NORMALIZING) if decides.grade else ()
    return tuple(
        Concern(decides.answer, f"Of normalizing {decides.name} its sheet says: {one.note}.", _ANNEAL)
        for one in stated
        if "harden" in one.note or "not to" in one.note
    )


def _coarse(steels: Steels, decides: PieceSteel, first: float) -> tuple[Concern, ...]:
    found = []
    for one in steels.edge:
        high = one.card.normalizing[0].high if one.card else None
        if one is not decides and high is not None and first > high + COARSE:

            def what(units: Units, one: PieceSteel = one, high: float = high) -> str:
                return (
                    f"{decides.name} is normalized from {units.temperature(first)}, {one.name} from"
                    f" {units.temperature(high)} at most: its grain grows in the first heat."
                )

            found.append(Concern(one.answer, what, "The heats after it make it fine again: leave none of them out."))
    return tuple(found)
