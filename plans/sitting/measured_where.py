"""Which step and heat a figure is of that was measured by hand, where it does not say so itself."""

from __future__ import annotations

from typing import Final

from plans.measured import Measured
from plans.phase import PhaseKind
from plans.plan import Plan, Step
from plans.shapes import Section
from plans.sitting.state import NOT_WORKED_ON, State

_SAME: Final = 1e-6
"""Sides that differ by less are the same one, typed in either units [m]."""
_LONG: Final = 1e-3
"""Lengths that differ by less are the same one, marked in either units [m]."""


def measured_of(plan: Plan, state: State, measured: Measured | None = None) -> tuple[int, int]:
    """The step (from 0) whose work a caliper finds now, and after which of its heats (from 1; 0 before the first).

    It is the one that was worked on last, but for bench steps that the plan gives no section to reach. Straight after
    the anvil, at a bench step after which the plan has as much steel as before it, a figure is of what was forged; one
    that was measured there already is of what was ground since. Once a step in the fire is come to, a figure is of what
    that one begins with. Figures that name their step are of that one's last heat.

    Args:
        plan: what is done
        state: where the sitting stands
        measured: the figures; None before they are known
    """
    if measured is not None and measured.step is not None:
        return state.worked_on(measured.step)
    step, heat = state.worked_on()
    if step >= len(plan.steps) or heat == 0 or not is_at_bench(plan.steps[step]):
        return step, heat
    if state.phase in NOT_WORKED_ON:
        return state.step, 0
    forged = _straight_from_anvil(plan, state)
    if forged is None or (measured is not None and measured.names & _measured_at(state, forged)):
        return step, heat
    return forged


def _straight_from_anvil(plan: Plan, state: State) -> tuple[int, int] | None:
    """The step (from 0) and heat (from 1) in which the work was struck that lies at the bench now, with only what
    changes nothing of it in between; None where it is not so."""
    step, _ = state.worked_on()
    if state.phase in NOT_WORKED_ON or not is_handed_on(plan, step) or not is_struck(plan.steps[step - 1]):
        return None
    after = next((one for one in plan.steps[step + 1 :] if not is_at_bench(one) and one.section is not None), None)
    if after is not None and not is_same_work(plan.steps[step], after):
        return None  # what is ground or cut here is no longer as it was forged
    forged = state.worked_on(step - 1)
    return forged if forged[1] > 0 else None


def _measured_at(state: State, place: tuple[int, int]) -> frozenset[str]:
    """The names of the figures that were measured after a heat."""
    found = (one.measured.names for one in state.measurements if (one.step, one.heat) == place)
    return frozenset[str]().union(*found)


def is_handed_on(plan: Plan, number: int) -> bool:
    """Whether a step, from 0, is bench work on what the step before ended with, and the plan has it change nothing."""
    step = plan.steps[number]
    if number == 0 or step.reach is not None or not is_at_bench(step):
        return False
    before = plan.steps[number - 1]
    return is_same_section(step.section, ends_with(before)) and is_same_length(step.length, ends_long(before))


def is_same_work(one: Step, other: Step) -> bool:
    """Whether two steps begin with the same section, and with the same length where both say one."""
    lengths = (one.length, other.length)
    return is_same_section(one.section, other.section) and (None in lengths or is_same_length(*lengths))


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


def is_same_length(one: float | None, other: float | None) -> bool:
    """Whether two lengths [m] are the same one, or both are not known."""
    if one is None or other is None:
        return one is other
    return abs(one - other) < _LONG


def is_at_bench(step: Step) -> bool:
    """Whether nothing of a step is done in fire, oven or bath."""
    return all(phase.kind is PhaseKind.BENCH for phase in step.phases)


def is_struck(step: Step) -> bool:
    """Whether the work is struck in a step."""
    return any(phase.kind is PhaseKind.STRIKE for phase in step.phases)
