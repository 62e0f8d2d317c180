"""What time brings: the phases that begin or end by themselves, and the calls that fall due."""

from __future__ import annotations

from plans.phase import HOLDING, OUTSIDE, WARMING, PhaseKind
from plans.record import record
from plans.sitting.calls import Call
from plans.sitting.events import Basis
from plans.sitting.facts import Facts
from plans.sitting.hands import HandsFree
from plans.sitting.limits import heat_ceiling

_LEAST_OVERSOAK = 120.0
"""A soak is too long once it is past done by this, or by as long as it took, whichever is more [s]."""
SLACK = 30.0
"""A skin that is colder than its target by more is not at heat: a temperature difference [K]."""


_SHORT_BY, _SHORT_SHARE = 2.0, 0.05
"""A set time counts as kept if it was cut short by no more than this [s], or by this share."""
_AFTER_SOAK = OUTSIDE | {PhaseKind.QUENCH}
_WAVERS = 5.0
"""A fire wavers by this: a temperature difference [K]; from memory."""
_SETTLES = 30.0
"""A fire into which cold work went, through its door, is given so long to come back [s]."""


def at_heat(facts: Facts) -> bool:
    """Whether the skin has come up to what the fire phase waits for."""
    target, skin = facts.target, facts.skin
    return facts.phase.kind is PhaseKind.FIRE and target is not None and skin is not None and skin >= target.heat_to


def below_heat(facts: Facts) -> bool:
    """Whether the skin is clearly colder than the soak wants it: no set time makes up for that."""
    return facts.target is not None and facts.skin is not None and facts.skin < facts.target.heat_to - SLACK


def soaks_by_itself(facts: Facts) -> bool:
    """Whether the soak begins now, without a word; in a step that has none, at heat is only called."""
    may = facts.hands.free is not HandsFree.NEVER and not facts.soak_by_word_only
    return may and not facts.looked and at_heat(facts) and any(p.kind is PhaseKind.SOAK for p in facts.step.phases)


def is_only_a_look(facts: Facts, following: PhaseKind, peak: tuple[float, Basis] | None) -> bool:
    """Whether work that is to be struck came out of the fire so far below its heat that it was for a look or for flux.

    Args:
        facts: how the sitting stands as it comes out
        following: what it would come out to
        peak: the hottest that the skin was in this heat [K], and what that stands on; None where it is not known
    """
    if facts.phase.kind is not PhaseKind.FIRE or following is not PhaseKind.STRIKE:
        return False
    return facts.target is not None and peak is not None and peak[0] < facts.target.heat_to - SLACK


def calls_due(facts: Facts) -> list[Call]:
    """The calls that fall due, those already made in this phase left out."""
    kind = facts.phase.kind
    due: list[Call] = []
    if facts.looked:
        return []
    if _wants_flux(facts):
        due.append(Call.FLUX_NOW)
    if _fire_is_cold(facts):
        due.append(Call.FIRE_COLD)
    if kind is PhaseKind.SOAK and facts.left_fire_at is None:
        if _soaked(facts):
            due.append(Call.SOAK_DONE)
        if _soaked_too_long(facts):
            due.append(Call.SOAKED_TOO_LONG)
    elif kind is PhaseKind.AIR:
        if _long_enough(facts, else_=True) and _cool_enough(facts):
            due.append(Call.TIME_UP if facts.phase.until is None else Call.COLD_ENOUGH)
    elif kind in HOLDING and _long_enough(facts, else_=False):
        due.append(Call.TIME_UP)
    elif at_heat(facts):
        due.append(Call.AT_HEAT)
    elif _temper_is_late(facts):
        due.append(Call.TEMPER_LATE)
    return [call for call in due if call not in facts.called]


def grace_is_over(facts: Facts) -> bool:
    """Whether a call that it is time went unanswered for the time of grace, and nothing but the clock can answer it."""
    grace = facts.hands.grace
    if grace is None or facts.hands.free is not HandsFree.ALL or facts.basis is Basis.MEASURED:
        return False
    if facts.end_by_word_only or facts.prompted_at is None or facts.looked:
        return False
    # Nobody heard what was called while the program was not running.
    return facts.at - max(facts.prompted_at, facts.restarted_at) >= grace


@record
class Closing:
    """A call on the phase that ends."""

    call: Call
    """What is to be called."""
    kelvin: float | None = None
    """The temperature that it is about [K]; None where it is about none."""
    basis: Basis = Basis.MEASURED
    """What that temperature stands on."""
    took: float | None = None
    """How long the phase lasted [s]; None where the call is about no time."""
    wanted: float | None = None
    """How long it was to last [s]; None where nobody knows."""


def calls_at_the_end(
    facts: Facts,
    following: PhaseKind | None,
    peak: tuple[float, Basis] | None,
    floor: float | None,
    soak_left: float | None = None,
) -> list[Closing]:
    """What is to be said of the phase that is going on, as it ends.

    Args:
        facts: how the sitting stands as the phase ends
        following: the phase of the same step that begins; None where another step does, or the sitting ends
        peak: the hottest that the skin was in this heat [K], and what that stands on; None where it is not known
        floor: the temperature below which the steel transforms before it is quenched [K]; None where it is not known
        soak_left: what a soak by the warm model still wanted [s]; None where nobody knows
    """
    kind = facts.phase.kind
    closing = []
    if short := _cut_short(facts, following, soak_left):
        closing.append(short)
    if kind not in WARMING:
        return closing
    if following is PhaseKind.QUENCH and _late_for_the_quench(facts, floor):
        closing.append(Closing(Call.QUENCH_LATE, facts.skin, facts.basis))
    if following in (PhaseKind.AIR, PhaseKind.QUENCH) and peak is not None and _is_missed(facts, peak[0]):
        closing.append(Closing(Call.PEAK_MISSED, *peak))
    return closing


def is_even(took: float, wanted: float) -> bool:
    """Whether a set time was as good as kept [s]."""
    return took >= wanted - leeway(wanted)


def leeway(wanted: float) -> float:
    """By how much a set time may be cut short and still counts as kept [s]."""
    return max(_SHORT_BY, _SHORT_SHARE * wanted)


def _cut_short(facts: Facts, following: PhaseKind | None, soak_left: float | None) -> Closing | None:
    kind, took = facts.phase.kind, facts.elapsed
    wanted = facts.phase.seconds
    if kind in HOLDING and wanted is not None:
        return None if is_even(took, wanted) else Closing(Call.HOLD_SHORT, took=took, wanted=wanted)
    if kind is not PhaseKind.SOAK or following not in _AFTER_SOAK or Call.SOAK_DONE in facts.called:
        return None
    if wanted is None and soak_left is not None:
        wanted = took + soak_left
    return None if wanted is None or is_even(took, wanted) else Closing(Call.SOAK_SHORT, took=took, wanted=wanted)


def _wants_flux(facts: Facts) -> bool:
    """Whether the skin came up past the temperature at which the plan fluxes it, and nobody has been there yet."""
    at, skin, first = facts.step.flux_at, facts.skin, facts.skin_at_first
    if facts.phase.kind is not PhaseKind.FIRE or at is None or skin is None or facts.fluxed:
        return False
    return skin >= at and (first is None or first < at)


def fire_is_hot_enough(facts: Facts) -> bool:
    """Whether the fire, as it is measured, is hot enough again by more than it wavers."""
    return facts.target is not None and facts.fire is not None and facts.fire >= facts.target.heat_to + _WAVERS


def _fire_is_cold(facts: Facts) -> bool:
    """Whether the fire, as it is measured, can't bring the work to its heat."""
    target, fire = facts.target, facts.fire
    if facts.phase.kind is not PhaseKind.FIRE or target is None or fire is None or facts.elapsed < _SETTLES:
        return False
    return fire < target.heat_to


def _long_enough(facts: Facts, else_: bool) -> bool:
    seconds = facts.phase.seconds
    return else_ if seconds is None else facts.elapsed >= seconds


def _soaked(facts: Facts) -> bool:
    if facts.phase.seconds is not None:
        return facts.elapsed >= facts.phase.seconds and not below_heat(facts)
    target, middle = facts.target, facts.middle
    return target is not None and middle is not None and middle >= target.heat_to - facts.step.even_within


def _soaked_too_long(facts: Facts) -> bool:
    if facts.phase.at_most is not None:
        return facts.elapsed >= facts.phase.at_most
    done_at = facts.soak_done_at
    return done_at is not None and facts.at - done_at >= max(_LEAST_OVERSOAK, done_at - facts.since)


def _cool_enough(facts: Facts) -> bool:
    until = facts.phase.until
    if until is None:
        return facts.phase.seconds is not None
    # The middle is the last to cool; a probe knows the skin only.
    kelvin = facts.skin if facts.basis is Basis.MEASURED else facts.middle
    return kelvin is not None and kelvin < until


def _late_for_the_quench(facts: Facts, floor: float | None) -> bool:
    quench = next(phase for phase in facts.step.phases if phase.kind is PhaseKind.QUENCH)
    left = facts.left_fire_at
    if quench.within is not None and left is not None and facts.at - left > quench.within:
        return True
    return facts.skin is not None and floor is not None and facts.skin < floor


def _is_missed(facts: Facts, peak: float) -> bool:
    target, ceiling = facts.target, heat_ceiling(facts.step, facts.target)
    if target is None or ceiling is None:
        return False
    return not target.heat_to - facts.step.even_within <= peak <= ceiling


def _temper_is_late(facts: Facts) -> bool:
    """Whether the work waits for the oven longer since its quench than the plan allows."""
    first = facts.step.phases[0]
    if facts.phase.kind is not PhaseKind.READY or first.kind is not PhaseKind.OVEN or first.within is None:
        return False
    return facts.quenched_at is not None and facts.at - facts.quenched_at > first.within
