"""What time brings: the phases that end by themselves, and the calls that fall due."""

from __future__ import annotations

from typing import TYPE_CHECKING

from plans.phase import HOLDING, WARMING
from plans.plan import PhaseKind
from plans.sitting.calls import PROMPTS
from plans.sitting.course import Place
from plans.sitting.events import Basis, Call
from plans.sitting.hands import HandsFree
from plans.sitting.quench import quench_floor

if TYPE_CHECKING:
    from plans.sitting.engine import Sitting

_LEAST_OVERSOAK = 120.0
"""A soak is too long once it is past done by this, or by as long as it took, whichever is more [s]."""
_SLACK = 30.0
"""A skin that is colder than its target by more is not at heat: a temperature difference [K]."""


def at_heat(sitting: Sitting) -> bool:
    """Whether the skin has come up to what the fire phase waits for."""
    state, skin = sitting.state, sitting.skin
    target = state.current_step.target(state.heat)
    return state.phase is PhaseKind.FIRE and target is not None and skin is not None and skin[0] >= target.heat_to


def calls_due(sitting: Sitting, at: float) -> list[Call]:
    """The calls that fall due at `at` [s], those already made in this phase left out."""
    state = sitting.state
    due: list[Call] = []
    if state.phase is PhaseKind.SOAK and state.left_fire_at is None:
        if _soaked(sitting, at):
            due.append(Call.SOAK_DONE)
        if _soaked_too_long(sitting, at):
            due.append(Call.SOAKED_TOO_LONG)
    elif state.phase is PhaseKind.AIR:
        if _long_enough(sitting, at, else_=True) and _cool_enough(sitting):
            due.append(Call.TIME_UP if sitting.phase.until is None else Call.COLD_ENOUGH)
    elif state.phase in HOLDING and _long_enough(sitting, at, else_=False):
        due.append(Call.TIME_UP)
    elif at_heat(sitting):
        due.append(Call.AT_HEAT)
    elif _temper_is_late(sitting, at):
        due.append(Call.TEMPER_LATE)
    return [call for call in due if call not in state.called]


def soaks_by_itself(sitting: Sitting) -> bool:
    """Whether the soak begins now, without a word."""
    return at_heat(sitting) and not sitting.state.not_yet and sitting.hands.free is not HandsFree.NEVER


def below_heat(sitting: Sitting) -> bool:
    """Whether the skin is clearly colder than the soak wants it: no set time makes up for that."""
    target, skin = sitting.state.current_step.target(sitting.state.heat), sitting.skin
    return target is not None and skin is not None and skin[0] < target.heat_to - _SLACK


def _long_enough(sitting: Sitting, at: float, else_: bool) -> bool:
    seconds = sitting.phase.seconds
    return else_ if seconds is None else sitting.state.elapsed(at) >= seconds


def _soaked(sitting: Sitting, at: float) -> bool:
    if sitting.phase.seconds is not None:
        return sitting.state.elapsed(at) >= sitting.phase.seconds and not below_heat(sitting)
    step, warm = sitting.state.current_step, sitting.warm
    target = step.target(sitting.state.heat)
    return target is not None and warm.known and warm.middle[-1] >= target.heat_to - step.even_within


def _soaked_too_long(sitting: Sitting, at: float) -> bool:
    state, at_most = sitting.state, sitting.phase.at_most
    if at_most is not None:
        return state.elapsed(at) >= at_most
    if Call.SOAK_DONE not in state.called:
        return False
    done_at = next(called.at for called in reversed(state.calls) if called.call is Call.SOAK_DONE)
    return at - done_at >= max(_LEAST_OVERSOAK, done_at - state.since)


def _cool_enough(sitting: Sitting) -> bool:
    until = sitting.phase.until
    if until is None:
        return sitting.phase.seconds is not None
    skin = sitting.skin
    if skin is None:
        return False
    # The middle is the last to cool; a probe knows the skin only.
    kelvin, basis = skin
    return (kelvin if basis is Basis.MEASURED else sitting.warm.middle[-1]) < until


def grace_is_over(sitting: Sitting, at: float) -> bool:
    """Whether a call that it is time went unanswered for the time of grace, and nothing but the clock can answer it."""
    grace = sitting.hands.grace
    if grace is None or sitting.hands.free is not HandsFree.ALL or sitting.is_measured or sitting.state.by_word:
        return False
    prompts = PROMPTS & sitting.state.alarms
    if not prompts:
        return False
    called = next(called for called in reversed(sitting.state.calls) if called.call in prompts)
    # Nobody heard what was called while the program was not running.
    return at - max(called.at, sitting.state.back_at) >= grace


def calls_at_the_end(sitting: Sitting, at: float, place: Place) -> list[tuple[Call, float | None, Basis]]:
    """What is to be said of the phase that ends at `at` [s] as `place` begins."""
    state, skin = sitting.state, sitting.skin
    kelvin, basis = skin or (None, Basis.PLANNED)
    if state.phase not in WARMING or place.step != state.step:
        return []
    if place.phase is PhaseKind.QUENCH and _late_for_the_quench(sitting, at, kelvin):
        return [(Call.QUENCH_LATE, kelvin, basis)]
    if place.phase is PhaseKind.AIR and _peak_missed(sitting):
        return [(Call.PEAK_MISSED, sitting.peak, basis)]
    return []


def _late_for_the_quench(sitting: Sitting, at: float, kelvin: float | None) -> bool:
    state = sitting.state
    quench = next(phase for phase in state.current_step.phases if phase.kind is PhaseKind.QUENCH)
    left = state.left_fire_at
    if quench.within is not None and left is not None and at - left > quench.within:
        return True
    floor = quench_floor(sitting.plan)
    return kelvin is not None and floor is not None and kelvin < floor


def _peak_missed(sitting: Sitting) -> bool:
    step, target, peak = sitting.state.current_step, sitting.state.current_step.target(sitting.state.heat), sitting.peak
    if target is None or peak is None:
        return False
    return not target.heat_to - step.even_within <= peak <= max(target.fire, target.heat_to) + step.even_within


def _temper_is_late(sitting: Sitting, at: float) -> bool:
    """Whether the work waits for the oven longer since its quench than the plan allows."""
    state = sitting.state
    first = state.current_step.phases[0]
    if state.phase is not PhaseKind.READY or first.kind is not PhaseKind.OVEN or first.within is None:
        return False
    quenched = next((begun.began for begun in reversed(state.begins) if begun.phase is PhaseKind.QUENCH), None)
    return quenched is not None and at - quenched > first.within
