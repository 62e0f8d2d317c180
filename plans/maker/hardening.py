"""Where to quench a piece from, how long to hold it there, and in what: by the steel of its edge."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from plans.maker.hot_work import fire_above
from plans.maker.quenching import Quench, quench, said_for
from plans.maker.steels import PieceSteel, Steels, rounded, why_advice, within
from plans.maker.why import Chosen, Concern, Why, practice
from plans.record import record
from plans.steel import hardening_soak
from plans.units import Shown, Units, kelvin

ABOVE_LEAST: Final = 20.0
"""The work is heated at most so far over the low end of its range: no more than is needed [K]."""
TOO_HOT_BY: Final = 60.0
"""So far over the hardening heat the grain is past mending: a temperature difference [K]."""
COARSE: Final = 30.0
"""The grain of a steel beside the edge grows so far over its own range: a temperature difference [K]."""
_UNKNOWN: Final = (kelvin(790), kelvin(815))


@record
class Hardening:
    """The hardening heat and the quench."""

    fire: Chosen[float]
    """Temperature of the fire [K]."""
    heat_to: Chosen[float]
    """Hardening heat of the skin [K]."""
    soak: Chosen[float]
    """How long it is held once even [s]."""
    soak_at_most: Chosen[float]
    """A longer hold is called out [s]."""
    burn_above: Chosen[float]
    """Above what the grain is spoiled for this quench [K]."""
    quench: Quench
    """What it goes into, and how."""


def hardening(steels: Steels, thickness: float) -> tuple[Hardening | None, tuple[Concern, ...]]:
    """How to harden a piece; none where no steel of it hardens, which is said.

    Args:
        steels: of the piece; the one of its edge with most carbon decides, the others of the edge as far as they can
        thickness: of the work where it is thickest [m]
    """
    hard = steels.hard
    if hard is None:
        lean = steels.all[0]
        what = f"{lean.name} holds too little carbon to harden: a quench gains little. The step is left out."
        mend = "Take a steel with more than 0.5 % carbon where it shall cut, or leave the hardening out."
        return None, (Concern(lean.answer, what, mend, serious=True),)
    bath, dangers = quench(hard, thickness)
    known = _range(hard)
    if known is None:
        what = f"Nobody states a hardening heat for {hard.name} here, and its alloys are too many to work it out."
        return None, (Concern(hard.answer, what, "Ask for its maker's sheet, and go by that.", serious=True),)
    low, high, why = known
    low, high, clash = _suits(steels, hard, low, high)
    said = said_for(hard, bath.medium.value)
    if said is not None and low <= said <= high:
        heat, why = said, Why(why.basis, f"What its sheet has for {hard.name} into {bath.medium.value}.", why.source)
    else:
        top = high if hard.air_hardening else min(high, low + 2 * ABOVE_LEAST)
        heat = within(low, top, 0.5)
        why = _reason(hard, low, high, why)
    soak = hardening_soak(hard.holds, air_hardening=hard.air_hardening)
    found = Hardening(
        fire_above(heat),
        Chosen(heat, why),
        Chosen(
            soak,
            practice("Once it is even: long enough for carbides to dissolve. A rich fire saves the skin's carbon."),
        ),
        Chosen(2 * soak, practice("Longer, the skin loses carbon and the grain grows.")),
        Chosen(
            rounded(max(high, heat) + TOO_HOT_BY, 10),
            practice("So hot the grain grows: let it cool black, normalize, and start anew."),
        ),
        bath,
    )
    return found, (*clash, *dangers, *_others(steels, hard, heat))


def _range(one: PieceSteel) -> tuple[float, float, Why] | None:
    if one.card is None:
        return *_UNKNOWN, practice(f"{one.name} is not known: a heat that suits most steels of about 1 % carbon.")
    advice = one.card.hardening
    if advice.low is None or advice.high is None:
        return None
    return advice.low, advice.high, why_advice(advice)


def _suits(steels: Steels, hard: PieceSteel, low: float, high: float) -> tuple[float, float, tuple[Concern, ...]]:
    """What of a hardening range the other steels of the edge share; its nearest end where they don't, which is said."""
    clash = []
    for one in steels.edge:
        known = _range(one)
        if one is hard or known is None:
            continue
        if max(low, known[0]) <= min(high, known[1]):
            low, high = max(low, known[0]), min(high, known[1])
            continue
        mend = (
            f"{hard.name} decides; harden a test piece of the billet first and break it, or pair steels nearer alike."
        )
        clash.append(Concern(one.answer, _no_heat_for_both(hard, (low, high), one, known), mend))
        low = high = rounded(high) if known[0] > high else low
    return low, high, tuple(clash)


def _no_heat_for_both(
    hard: PieceSteel, wants: tuple[float, float], one: PieceSteel, other: tuple[float, float, Why]
) -> Shown:
    def said(units: Units) -> str:
        ours, theirs = (
            units.temperature(low) if low == high else f"{units.degrees(low)} to {units.temperature(high)}"
            for low, high in (wants, other[:2])
        )
        return f"{hard.name} is quenched from {ours}, {one.name} from {theirs}: no heat suits both."

    return said


def _reason(hard: PieceSteel, low: float, high: float, why: Why) -> Why:
    def said(units: Units) -> str:
        if low == high:
            return f"{hard.name}: {units.temperature(low)}. {units.text(why.said)}"
        ends = f"{units.degrees(low)} to {units.temperature(high)}"
        return f"{hard.name}: {ends}, no hotter than needed. {units.text(why.said)}"

    return Why(why.basis, said, why.source)


def _others(steels: Steels, hard: PieceSteel, heat: float) -> Iterator[Concern]:
    """What the quench does to the steels beside those of the edge, where it is not what they are made for."""
    for one in steels.all:
        known = _range(one) if one.hardens and one not in steels.edge else None
        if known is None:
            continue
        if one.air_hardening:
            what = f"{one.name} hardens in still air: it stays hard beside the edge, and cracks with it."
            yield Concern(one.answer, what, "Take a mild steel beside the edge, or one of the edge's own kind.")
        elif heat > known[1] + COARSE:
            yield Concern(one.answer, _too_hot_for(one, hard, heat, known[1]), "Hold it no longer than the edge needs.")


def _too_hot_for(one: PieceSteel, hard: PieceSteel, heat: float, high: float) -> Shown:
    def said(units: Units) -> str:
        ours, most = units.temperature(heat), units.temperature(high)
        return f"{hard.name} is quenched from {ours}, {one.name} beside it from {most} at most: its grain grows."

    return said
