"""Which phase comes next, or came before, by the plan alone."""

from __future__ import annotations

from plans.phase import FORGING, WARMING, PhaseKind
from plans.plan import Plan, StepKind
from plans.record import record
from plans.sitting.calls import Call
from plans.sitting.state import State

_COOLED_FIRST = frozenset({StepKind.NORMALIZE, StepKind.ANNEAL, StepKind.HARDEN})
"""These begin from black, not from the anvil's heat."""


_COOLED = frozenset({Call.ARREST, Call.COLD_ENOUGH, Call.TIME_UP})
"""Calls by which work that cools in the air has cooled."""


@record
class PlanPoint:
    """A phase of a heat of a step, as a point in the plan that the sitting can go to."""

    step: int
    """Number of the step, from 0."""
    heat: int
    """Number of the heat in the step, from 1."""
    phase: PhaseKind
    """The phase; `READY` where the smith is awaited."""


def heats_planned(plan: Plan, state: State, step: int) -> int:
    """How many heats a step has: the plan's, those that the smith added, and what came to be done beyond them.

    Args:
        plan: what is to be done
        state: where the sitting stands
        step: number of the step, from 0
    """
    planned = plan.steps[step].heats
    for heat in state.extra.get(step, ()):
        # A probe may have begun heats beyond the plan: one more is one more than those.
        planned = max(planned, heat) + 1
    return max(planned, state.heat) if step == state.step else planned


def entry(plan: Plan, step: int, coming_from: PhaseKind | None) -> PlanPoint:
    """Where a step is entered: straight into the fire, or on in it, while hot; else the smith is awaited."""
    first = plan.steps[step].phases[0].kind
    hot = coming_from in FORGING and plan.steps[step].kind not in _COOLED_FIRST
    if first is PhaseKind.BENCH or (first is PhaseKind.FIRE and hot):
        return PlanPoint(step, 1, first)
    return PlanPoint(step, 1, PhaseKind.READY)


def after(plan: Plan, state: State) -> PlanPoint | None:
    """What the word "next" leads to; None when the plan is done."""
    kinds = _kinds(plan, state.step)
    if state.phase is PhaseKind.READY:
        return PlanPoint(state.step, state.heat, kinds[0])
    if state.left_fire_at is not None:
        return out_of_fire(plan, state)
    index = kinds.index(state.phase)
    if index + 1 < len(kinds):
        return PlanPoint(state.step, state.heat, kinds[index + 1])
    if state.heat < heats_planned(plan, state, state.step):
        return heat_after(plan, state)
    return step_after(plan, state)


def heat_after(plan: Plan, state: State) -> PlanPoint:
    """The beginning of one more heat of this step, planned or not."""
    return PlanPoint(state.step, state.heat + 1, _kinds(plan, state.step)[0])


def step_after(plan: Plan, state: State) -> PlanPoint | None:
    """The beginning of the next step; None when there is none."""
    following = state.step + 1
    if following == len(plan.steps):
        return None
    if state.went_in_unsaid and _kinds(plan, following)[0] is PhaseKind.FIRE:
        # It lies in the fire already, and nobody awaits it.
        return PlanPoint(following, 1, PhaseKind.FIRE)
    return entry(plan, following, None if state.is_lost else state.phase)


def out_of_fire(plan: Plan, state: State) -> PlanPoint | None:
    """What the work comes out to; None when it is not in the fire."""
    if state.phase not in WARMING:
        return None
    kinds = _kinds(plan, state.step)
    later = [kind for kind in kinds[kinds.index(state.phase) + 1 :] if kind is not PhaseKind.SOAK]
    return PlanPoint(state.step, state.heat, later[0]) if later else after(plan, state)


def in_the_fire_again(plan: Plan, state: State, is_black: bool = True) -> PlanPoint | None:
    """What it means that work went into the fire: this step's first heat, one more or the same, never another step's.

    Out of the fire for the quench or for the air, and back before it was cold, it was only looked at: what cools in
    the air must have shown its arrest, or come to what that phase waits for.

    Args:
        plan: what is to be done
        state: where the sitting stands
        is_black: whether the work was so cold that it transformed, where the air phase waits for nothing
    """
    kinds = _kinds(plan, state.step)
    if PhaseKind.FIRE not in kinds:
        return None
    cooled = state.called & _COOLED or (is_black and _waits_for_nothing(plan, state))
    too_soon = state.phase is PhaseKind.AIR and not cooled
    if state.phase is PhaseKind.READY or state.left_fire_at is not None or too_soon:
        return PlanPoint(state.step, state.heat, PhaseKind.FIRE)
    if state.phase is PhaseKind.STRIKE or (
        state.phase in (PhaseKind.AIR, PhaseKind.QUENCH) and state.heat < heats_planned(plan, state, state.step)
    ):
        return PlanPoint(state.step, state.heat + 1, PhaseKind.FIRE)
    return None


def to_heat_again(state: State, below_heat: bool) -> tuple[PlanPoint, ...]:
    """Where work goes that comes back into its soak: to the beginning of the same heat, if it fell below it."""
    colder = below_heat and state.phase is PhaseKind.SOAK
    return (PlanPoint(state.step, state.heat, PhaseKind.FIRE),) if colder else ()


def in_the_oven(plan: Plan, state: State) -> PlanPoint | None:
    """Into the oven of a step that has one, while it is awaited or another hold is left; None else."""
    first = _kinds(plan, state.step)[0]
    if first is not PhaseKind.OVEN:
        return None
    if state.phase is PhaseKind.AIR and state.heat < heats_planned(plan, state, state.step):
        return heat_after(plan, state)
    return PlanPoint(state.step, state.heat, first) if state.phase is PhaseKind.READY else None


def before(plan: Plan, state: State) -> PlanPoint | None:
    """What the word "back" leads to: the phase before, be it of the heat or step before; None at the very start."""
    kinds = _kinds(plan, state.step)
    index = 0 if state.phase is PhaseKind.READY else kinds.index(state.phase)
    if index > 0:
        return PlanPoint(state.step, state.heat, kinds[index - 1])
    if state.heat > 1:
        return PlanPoint(state.step, state.heat - 1, kinds[-1])
    if state.step == 0:
        return None
    earlier = state.step - 1
    was = next((begun for begun in reversed(state.begins) if begun.step == earlier), None)
    if was is not None:
        # Where its last heats were left out, nothing is to be begun again that never was.
        return PlanPoint(earlier, was.heat, was.phase)
    return PlanPoint(earlier, heats_planned(plan, state, earlier), _kinds(plan, earlier)[-1])


def _waits_for_nothing(plan: Plan, state: State) -> bool:
    """Whether the phase that goes on has neither a temperature nor a time at which it is over."""
    phase = next((phase for phase in plan.steps[state.step].phases if phase.kind is state.phase), None)
    return phase is None or (phase.until is None and phase.seconds is None)


def _kinds(plan: Plan, step: int) -> list[PhaseKind]:
    return [phase.kind for phase in plan.steps[step].phases]
