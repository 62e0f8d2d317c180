"""Splitting a step after some of its heats, and giving a step more or fewer heats."""

from __future__ import annotations

from typing import Any, Final

from plans.editing.changes import checked
from plans.editing.order import copied
from plans.editing.setting import FILE, parsed, place_of, refusal, with_values
from plans.plan import Plan, Step, StepKind
from plans.reader import read_plan
from plans.shown import counted
from plans.spelling import spell, spell_section
from plans.stock import USUAL_SCALE, drawn_length
from plans.toml import KeyPath
from plans.units import Units

_ON: Final = ", continued"
_EACH: Final = ("fire", "heat_to")
"""The keys that may hold one value for each heat."""


def split_step(text: str, index: int, heats: int, units: Units) -> str:
    """The plan with a step in two: the first heats in the one, the others in a second one right below it.

    The first ends with the section that the work has by then, equal shares changing a side by equal factors, and with
    the length that follows by constant volume. Of what the whole step loses, each heat has an equal share; where the
    plan does not say what it loses, it is the usual scale.

    Args:
        text: of the plan
        index: number of the step, from 0
        heats: how many heats the first one keeps, at least one and fewer than there are
        units: in which section and length between the two are written

    Raises:
        PlanError: the plan is none, or is then, or there is nothing to split off; it holds every fault.
    """
    step = _step(text, index)
    if not 0 < heats < step.heats:
        where, _ = place_of(parsed(text).values, ("step", index))
        raise refusal(where, "", *_why_not(step, heats))
    first: dict[KeyPath, Any] = {("step", index, "heats"): heats}
    second: dict[KeyPath, Any] = {("step", index + 1, "heats"): step.heats - heats}
    written = parsed(text).values["step"][index]
    for key in _EACH:
        if isinstance(written.get(key), list):
            first["step", index, key], second["step", index + 1, key] = written[key][:heats], written[key][heats:]
    between = step.section_at(heats + 1)
    if step.reach is not None and between is not None:
        first["step", index, "reach"] = spell_section(between, units)
        length = _length_after(step, heats)
        first["step", index, "reach_length"] = None if length is None else spell(length, "length", units)
        # Both follow from what the first one leaves.
        second["step", index + 1, "section"] = second["step", index + 1, "length"] = None
    return checked(with_values(copied(text, "step", index, _ON), first | second))


def _why_not(step: Step, heats: int) -> tuple[str, str]:
    """Why a step can't be split after some heats, and what would do."""
    if step.kind is StepKind.BENCH:
        return "is done at the bench, where nothing is counted that could be split", "repeat the step instead"
    has = f"has {counted(step.heats, step.counts)}"
    if step.heats == 1:
        return f"{has}, which can't be split", "give it more first"
    most = "" if step.heats == 2 else f" to {step.heats - 1}"
    return f"{has}, which can't be split after {heats}", f"split it after 1{most}"


def with_heats(text: str, index: int, heats: int) -> str:
    """The plan with another number of heats in a step; temperatures for each heat are cut off, or the last one stays.

    Args:
        text: of the plan
        index: number of the step, from 0
        heats: how many it shall have

    Raises:
        PlanError: the plan is none, or is then; it holds every fault.
    """
    _step(text, index)
    values: dict[KeyPath, Any] = {("step", index, "heats"): heats}
    written = parsed(text).values["step"][index]
    for key in _EACH:
        if isinstance(each := written.get(key), list):
            values["step", index, key] = [*each, *[each[-1]] * heats][: max(1, heats)]
    return checked(with_values(text, values))


def _step(text: str, index: int) -> Step:
    plan: Plan = read_plan(text, "", FILE)
    if not 0 <= index < len(plan.steps):
        raise refusal("", "", f"there is no step {index + 1}", f"it has {counted(len(plan.steps), 'step')}")
    return plan.steps[index]


def _length_after(step: Step, heats: int) -> float | None:
    """Length of the work after some heats of a step [m]; None where the step does not say enough."""
    between = step.section_at(heats + 1)
    if step.section is None or step.length is None or between is None:
        return None
    begins = step.section.area * step.length
    if step.reach is not None and step.reach_length is not None:
        left: float = (step.reach.area * step.reach_length / begins) ** (heats / step.heats)
    else:
        left = USUAL_SCALE.left(heats)[0]
    return drawn_length(step.section, step.length, between, left)
