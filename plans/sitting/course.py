"""Which phase comes next, or came before, by the plan alone."""

from __future__ import annotations

from dataclasses import dataclass

from plans.phase import FORGING, WARMING
from plans.plan import PhaseKind, Plan, StepKind
from plans.sitting.state import State

_COOLED_FIRST = frozenset({StepKind.NORMALIZE, StepKind.ANNEAL, StepKind.HARDEN})
"""These begin from black, not from the anvil's heat."""


@dataclass(frozen=True, slots=True)
class Place:
    """A point in a plan."""

    step: int
    heat: int
    phase: PhaseKind


def entry(plan: Plan, step: int, coming_from: PhaseKind | None) -> Place:
    """Where a step is entered: straight into the fire, or on in it, while hot; else the smith is awaited."""
    first = plan.steps[step].phases[0].kind
    hot = coming_from in FORGING and plan.steps[step].kind not in _COOLED_FIRST
    if first is PhaseKind.BENCH or (first is PhaseKind.FIRE and hot):
        return Place(step, 1, first)
    return Place(step, 1, PhaseKind.READY)


def after(state: State) -> Place | None:
    """What the word "next" leads to; None when the plan is done."""
    kinds = _kinds(state.plan, state.step)
    if state.phase is PhaseKind.READY:
        return Place(state.step, state.heat, kinds[0])
    if state.left_fire_at is not None:
        return out_of_fire(state)
    index = kinds.index(state.phase)
    if index + 1 < len(kinds):
        return Place(state.step, state.heat, kinds[index + 1])
    if state.heat < state.heats_planned(state.step):
        return Place(state.step, state.heat + 1, kinds[0])
    return step_after(state)


def step_after(state: State) -> Place | None:
    """The beginning of the next step; None when there is none."""
    if state.step + 1 == len(state.plan.steps):
        return None
    return entry(state.plan, state.step + 1, state.phase)


def out_of_fire(state: State) -> Place | None:
    """What the work comes out to; None when it is not in the fire."""
    if state.phase not in WARMING:
        return None
    kinds = _kinds(state.plan, state.step)
    later = [kind for kind in kinds[kinds.index(state.phase) + 1 :] if kind is not PhaseKind.SOAK]
    return Place(state.step, state.heat, later[0]) if later else after(state)


def in_the_fire_again(state: State) -> Place | None:
    """What it means that work went into the fire: this step's first heat or one more, never another step's."""
    if PhaseKind.FIRE not in _kinds(state.plan, state.step):
        return None
    if state.phase is PhaseKind.READY:
        return Place(state.step, state.heat, PhaseKind.FIRE)
    if state.phase is PhaseKind.STRIKE or (
        state.phase is PhaseKind.AIR and state.heat < state.heats_planned(state.step)
    ):
        return Place(state.step, state.heat + 1, PhaseKind.FIRE)
    return None


def before(state: State) -> Place | None:
    """What the word "back" leads to: the phase before, be it of the heat or step before; None at the very start."""
    kinds = _kinds(state.plan, state.step)
    index = 0 if state.phase is PhaseKind.READY else kinds.index(state.phase)
    if index > 0:
        return Place(state.step, state.heat, kinds[index - 1])
    if state.heat > 1:
        return Place(state.step, state.heat - 1, kinds[-1])
    if state.step == 0:
        return None
    earlier = state.step - 1
    return Place(earlier, state.heats_planned(earlier), _kinds(state.plan, earlier)[-1])


def _kinds(plan: Plan, step: int) -> list[PhaseKind]:
    return [phase.kind for phase in plan.steps[step].phases]
