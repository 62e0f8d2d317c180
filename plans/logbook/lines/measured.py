"""What was measured by hand, held against the plan and against constant volume, a line each."""

from __future__ import annotations

from typing import Final

from plans.measured import shown_measured
from plans.plan import Plan
from plans.sitting import Measurement, State
from plans.steel import STEEL
from plans.stock import USUAL_SCALE, through
from plans.units import Units

MEASURED_HEADING: Final = "Measured by hand"
"""What stands above the lines."""
_SAME, _ALL_THERE = 0.02, 0.03
"""Shares by which a side or a section, and the steel, must differ to be spoken of: on hot-forged faces a caliper and a
rule tell no less; common practice, no source."""


def measured_line(one: Measurement, plan: Plan | None, units: Units) -> str:
    """One of them: "31.5 x 18 mm, 220 mm long; 5 % more section than the plan's 30 x 18 mm; the steel is all there".

    Args:
        one: what was measured
        plan: that was followed; None where it can't be read
        units: those that are set
    """
    if plan is None or one.step >= len(plan.steps):
        return shown_measured(one.measured, units)
    told = [shown_measured(one.measured, units), *_against_plan(one, plan, units), *_against_volume(one, plan)]
    return "; ".join(told)


def last_measured(plan: Plan, state: State, units: Units) -> str:
    """The line of what was measured last, for an answer as it is said; empty where nothing was."""
    return measured_lines(state, plan, units)[-1][1] if state.measurements else ""


def measured_in_short(plan: Plan, state: State, units: Units) -> str:
    """How what was measured last differs from the plan, the steel first, for a line that stands for a moment; empty
    where the plan says nothing of it."""
    if not state.measurements or state.measurements[-1].step >= len(plan.steps):
        return ""
    one = state.measurements[-1]
    return "; ".join([*_against_volume(one, plan), *_against_plan(one, plan, units)])


def measured_lines(state: State, plan: Plan | None, units: Units) -> list[tuple[Measurement, str]]:
    """All that was measured in a sitting, each with its place before it: "step 2, after heat 3: 31.5 x 18 mm"."""
    return [(one, f"{measured_place(one, plan)}: {measured_line(one, plan, units)}") for one in state.measurements]


def measured_place(one: Measurement, plan: Plan | None) -> str:
    """Where it belongs: "step 2, after heat 3", "before step 1"."""
    if one.heat == 0:
        return f"before step {one.step + 1}"
    counts = plan.steps[one.step].counts if plan is not None and one.step < len(plan.steps) else "heat"
    return f"step {one.step + 1}, after {counts} {one.heat}"


def _against_plan(one: Measurement, plan: Plan, units: Units) -> list[str]:
    """How section and length differ from what the plan has after that heat."""
    step, told = plan.steps[one.step], []
    planned = step.section_at(one.heat + 1) or step.reach
    section = one.measured.section(planned)
    if planned is not None and section is not None:
        told.append(_differs(section.area / planned.area - 1, "section", units.section(planned)))
    length = step.reach_length if one.heat >= step.heats else step.length if one.heat == 0 else None
    if length is not None and one.measured.length is not None:
        told.append(_differs(one.measured.length / length - 1, "length", units.length(length)))
    return told


def _differs(more: float, what: str, planned: str) -> str:
    if abs(more) < _SAME:
        return f"{what} as planned"
    return f"{abs(more) * 100:.0f} % {'more' if more > 0 else 'less'} {what} than the plan's {planned}"


def _against_volume(one: Measurement, plan: Plan) -> list[str]:
    """What of the steel is missing, or is too much, by constant volume less what usually goes to scale."""
    measured, step = one.measured, plan.steps[one.step]
    section = measured.section(step.section_at(one.heat + 1))
    if measured.mass is not None:
        volume = measured.mass / STEEL
    elif section is not None and measured.length is not None:
        volume = section.area * measured.length
    else:
        return []
    planned = _volume(plan, one.step, min(1.0, one.heat / step.heats))
    if planned is None:
        return []
    more = volume / planned - 1
    if abs(more) < _ALL_THERE:
        return ["the steel is all there"]
    percent = f"{abs(more) * 100:.0f} %"
    return [f"{percent} of the steel is missing" if more < 0 else f"{percent} more steel than the plan has there"]


def _volume(plan: Plan, number: int, share: float) -> float | None:
    """The steel in a step once a share of its heats is done [m3]; None where the plan does not tell."""
    found, step = through(plan), plan.steps[number]
    for its in found.steps if found is not None else ():
        if its.step == number:
            return its.begins + (its.ends - its.begins) * share
    if step.section is None or step.length is None:
        return None
    begins = step.section.area * step.length
    return begins * (1 + (USUAL_SCALE.left(step.heats)[0] - 1) * share)
