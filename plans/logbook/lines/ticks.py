"""Which items of the checklists were ticked, a line for each step that has one."""

from __future__ import annotations

from typing import Final

from plans.plan import Plan, Step
from plans.prose import in_units
from plans.record import record
from plans.sitting import State
from plans.units import Units

CHECKLISTS_HEADING: Final = "Checklists"
"""What stands above the lines."""


@record
class ChecklistLine:
    """How far a step's checklist was ticked."""

    step: int
    """Number of the step, from 0."""
    at: float | None
    """When the last of its items was ticked [s]; None where none is."""
    text: str
    """What is said: "step 2, 3 of 5 ticked; not ticked: Flux dry, Faces bright"."""


def ticked_count(step: int, checklist: tuple[str, ...], state: State) -> str:
    """How many items of a checklist are ticked, "3 of 5"; empty where none is.

    Args:
        step: number of the step, from 0
        checklist: its items
        state: where the sitting stands
    """
    done = sum(state.ticked_at(step, item) is not None for item in range(len(checklist)))
    return f"{done} of {len(checklist)}" if done else ""


def tick_line(plan: Plan, state: State, step: int, item: int, units: Units) -> str:
    """What a tick that was set or taken off comes to: "ticked, 3 of 5: Seam closed"."""
    what = "ticked" if state.ticked_at(step, item) is not None else "no longer ticked"
    its = plan.steps[step].checklist
    return f"{what}, {ticked_count(step, its, state) or f'none of {len(its)}'}: {in_units(its[item], units)}"


def checklist_lines(state: State, plan: Plan | None, units: Units) -> list[ChecklistLine]:
    """What of the checklists was ticked, of each step that is over or has a tick; what was not is named.

    There is none where nothing was ticked in the whole sitting.

    Args:
        state: where the sitting stands
        plan: that was followed; None where it can't be read: then nothing is said
        units: those that are set
    """
    if plan is None:
        return []
    begun = sorted({one.step for one in state.begins if one.step < len(plan.steps)})
    ended = [number for number in begun if number != state.step or state.finished]
    shown = [
        (number, plan.steps[number])
        for number in begun
        if plan.steps[number].checklist and (number in ended or _ticked(number, plan.steps[number], state))
    ]
    if not any(_ticked(number, step, state) for number, step in shown):
        # Whoever ticks nothing at all keeps no checklists, and the first versions knew of no ticks.
        return []
    return [_line(number, step, state, number in ended, units) for number, step in shown]


def _ticked(number: int, step: Step, state: State) -> list[float]:
    """When the items that are ticked were [s]."""
    return [at for item in range(len(step.checklist)) if (at := state.ticked_at(number, item)) is not None]


def _line(number: int, step: Step, state: State, ended: bool, units: Units) -> ChecklistLine:
    left = [in_units(text, units) for item, text in enumerate(step.checklist) if state.ticked_at(number, item) is None]
    done = ticked_count(number, step.checklist, state) or f"none of {len(step.checklist)}"
    missing = f"; {'not ticked' if ended else 'still open'}: {'; '.join(left)}" if left else ""
    at = max(_ticked(number, step, state), default=None)
    return ChecklistLine(number, at, f"step {number + 1}, {done} ticked{missing}")
