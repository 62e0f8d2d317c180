"""What was ticked on the checklists, as JSON has it: steps and items counted from 1, each with its words."""

from __future__ import annotations

from typing import Any

from plans.plan import Plan
from plans.sitting import State


def ticked_record(state: State, plan: Plan | None) -> dict[str, list[dict[str, Any]]]:
    """The key `checklists`, with a record for each item of every step that was come to; no key where there are none, or
    where nothing was ticked at all.

    Args:
        state: where the sitting stands
        plan: that was followed; None where it can't be read: then no item is known
    """
    if not state.ticked:
        return {}
    begun = {one.step for one in state.begins}
    records = [
        {"step": number + 1, "item": item + 1, "text": text, "ticked_at_seconds": state.ticked_at(number, item)}
        for number, step in enumerate(plan.steps if plan is not None else ())
        for item, text in enumerate(step.checklist)
        if number in begun
    ]
    return {"checklists": records} if records else {}
