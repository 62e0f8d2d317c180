"""Which step and heat a figure is of that was measured by hand, where it does not say so itself."""

from __future__ import annotations

from typing import Final

from plans.phase import PhaseKind
from plans.plan import Plan, Step
from plans.shapes import Section
from plans.sitting.state import NOT_WORKED_ON, State

_SAME: Final = 1e-6
"""Sides that differ by less are the same one, typed in either units [m]."""


def measured_of(plan: Plan, state: State) -> tuple[int, int]:
    """The step (from 0) whose work a caliper finds now, and after which of its heats (from 1; 0 before the first).

    It is the one that was worked on last, but for bench steps that the plan gives no section to reach: straight after
    the anvil, with nothing measured there yet, the first figure is of what was forged; and once a step in the fire is
    come to, a figure is of what that one begins with.

    Args:
        plan: what is done
        state: where the sitting stands
    """
    step, heat = state.worked_on()
    if step >= len(plan.steps) or heat == 0 or not is_at_bench(plan.steps[step]):
        return step, heat
    if state.phase in NOT_WORKED_ON:
        return state.step, 0
    if is_handed_on(plan, step) and _is_struck(plan.steps[step - 1]):
        forged = state.worked_on(step - 1)
        if forged[1] > 0 and all((one.step, one.heat) != forged for one in state.measurements):
            return forged
    return step, heat


def is_handed_on(plan: Plan, number: int) -> bool:
    """Whether a step, from 0, is bench work on what the step before ended with, and the plan has it change nothing."""
    step = plan.steps[number]
    if number == 0 or step.reach is not None or not is_at_bench(step):
        return False
    before = plan.steps[number - 1]
    return is_same_section(step.section, ends_with(before)) and step.length == ends_long(before)


def ends_with(step: Step) -> Section | None:
    """The section that the plan has when a step is done; None where it says none."""
    return step.reach or step.section


def ends_long(step: Step) -> float | None:
    """The length that the plan has when a step is done [m]; None where it says none."""
    return step.reach_length or (step.length if step.reach is None else None)


def is_same_section(one: Section | None, other: Section | None) -> bool:
    """Whether two sections are known and the same one."""
    if one is None or other is None:
        return False
    sides = abs(one.width - other.width), abs(one.thickness - other.thickness)
    return one.form is other.form and max(sides) < _SAME


def is_at_bench(step: Step) -> bool:
    """Whether nothing of a step is done in fire, oven or bath."""
    return all(phase.kind is PhaseKind.BENCH for phase in step.phases)


def _is_struck(step: Step) -> bool:
    return any(phase.kind is PhaseKind.STRIKE for phase in step.phases)
