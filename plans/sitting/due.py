"""What time brings: the phases that begin or end by themselves, and the calls that fall due."""

from __future__ import annotations

from dataclasses import dataclass

from plans.phase import HOLDING, WARMING, PhaseKind
from plans.plan import Phase, Step, Target
from plans.sitting.calls import Call
from plans.sitting.events import Basis
from plans.sitting.hands import Hands, HandsFree

_LEAST_OVERSOAK = 120.0
"""A soak is too long once it is past done by this, or by as long as it took, whichever is more [s]."""
_SLACK = 30.0
"""A skin that is colder than its target by more is not at heat: a temperature difference [K]."""


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known of a sitting at one moment, as far as what time brings hangs on it."""

    at: float
    """The moment [s]."""
    step: Step
    """The step that is going on."""
    target: Target | None
    """What its heat aims at; None where nothing is heated."""
    phase: Phase
    """The plan's figures for the phase that is going on; none but its kind while the smith is awaited."""
    since: float
    """When the phase really began [s]."""
    elapsed: float
    """How long the phase has run, pauses left out [s]."""
    skin: float | None
    """The work's skin [K]; None where neither probe nor model knows it."""
    basis: Basis
    """What the skin stands on; `PLANNED` where it is not known."""
    middle: float | None
    """The work's middle in the warm model [K]; None where no section is known yet."""
    hands: Hands
    """What may begin or end by itself."""
    soak_by_word_only: bool
    """Whether only a word begins the soak."""
    end_by_word_only: bool
    """Whether only a word ends the phase."""
    left_fire_at: float | None
    """When the work left the fire for the quench, while it is on its way [s]; None else."""
    called: frozenset[Call]
    """Calls made in this phase."""
    soak_done_at: float | None
    """When the soak was called done in this phase [s]; None where it was not."""
    prompted_at: float | None
    """When the newest prompt that still holds was called [s]; None without one."""
    restarted_at: float
    """When the program was last started again in the middle of the sitting [s]; 0 where it never was."""
    quenched_at: float | None
    """When the work was quenched last [s]; None where it never was, and while no oven is waited for."""


def at_heat(facts: Facts) -> bool:
    """Whether the skin has come up to what the fire phase waits for."""
    target, skin = facts.target, facts.skin
    return facts.phase.kind is PhaseKind.FIRE and target is not None and skin is not None and skin >= target.heat_to


def below_heat(facts: Facts) -> bool:
    """Whether the skin is clearly colder than the soak wants it: no set time makes up for that."""
    return facts.target is not None and facts.skin is not None and facts.skin < facts.target.heat_to - _SLACK


def soaks_by_itself(facts: Facts) -> bool:
    """Whether the soak begins now, without a word."""
    return at_heat(facts) and not facts.soak_by_word_only and facts.hands.free is not HandsFree.NEVER


def is_only_a_look(facts: Facts, following: PhaseKind, peak: tuple[float, Basis] | None) -> bool:
    """Whether work that is to be struck came out of the fire so far below its heat that it was for a look or for flux.

    Args:
        facts: how the sitting stands as it comes out
        following: what it would come out to
        peak: the hottest that the skin was in this heat [K], and what that stands on; None where it is not known
    """
    if facts.phase.kind is not PhaseKind.FIRE or following is not PhaseKind.STRIKE:
        return False
    return facts.target is not None and peak is not None and peak[0] < facts.target.heat_to - _SLACK


def calls_due(facts: Facts) -> list[Call]:
    """The calls that fall due, those already made in this phase left out."""
    kind = facts.phase.kind
    due: list[Call] = []
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
    if facts.end_by_word_only or facts.prompted_at is None:
        return False
    # Nobody heard what was called while the program was not running.
    return facts.at - max(facts.prompted_at, facts.restarted_at) >= grace


def calls_at_the_end(
    facts: Facts, following: PhaseKind, peak: tuple[float, Basis] | None, floor: float | None
) -> list[tuple[Call, float | None, Basis]]:
    """What is to be said of the phase that is going on, as another one of its step begins.

    Args:
        facts: how the sitting stands as the phase ends
        following: the phase that begins
        peak: the hottest that the skin was in this heat [K], and what that stands on; None where it is not known
        floor: the temperature below which the steel transforms before it is quenched [K]; None where it is not known

    Returns:
        the calls, each with the temperature that it is about [K] and what that stands on
    """
    if facts.phase.kind not in WARMING:
        return []
    if following is PhaseKind.QUENCH and _late_for_the_quench(facts, floor):
        return [(Call.QUENCH_LATE, facts.skin, facts.basis)]
    if following is PhaseKind.AIR and peak is not None and _is_missed(facts, peak[0]):
        return [(Call.PEAK_MISSED, *peak)]
    return []


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
    target, even = facts.target, facts.step.even_within
    if target is None:
        return False
    return not target.heat_to - even <= peak <= max(target.fire, target.heat_to) + even


def _temper_is_late(facts: Facts) -> bool:
    """Whether the work waits for the oven longer since its quench than the plan allows."""
    first = facts.step.phases[0]
    if facts.phase.kind is not PhaseKind.READY or first.kind is not PhaseKind.OVEN or first.within is None:
        return False
    return facts.quenched_at is not None and facts.at - facts.quenched_at > first.within
