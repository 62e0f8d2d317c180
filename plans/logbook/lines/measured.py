"""What was measured by hand, held against the plan and against constant volume, a line each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from plans.logbook.afterwards import LaterMeasurements, as_measurement
from plans.logbook.figures import SteelCost
from plans.logbook.hardness_there import hardness_there, is_as_quenched
from plans.logbook.lines.cost import loss_text
from plans.logbook.steel_there import steel_found
from plans.measured import read_measured, shown_measured
from plans.plan import Plan
from plans.record import record
from plans.shown import show_clock
from plans.sitting import Measurement, Said, State, is_at_bench, with_those_before
from plans.units import Units

MEASURED_HEADING: Final = "Measured by hand"
"""What stands above the lines."""
_SAME: Final = 0.02
"""Share by which a length or a section must differ to be spoken of; common practice, no source."""


_FAR: Final = 2.0
"""So many times the plan, or its part, a figure is asked about: further off than what a heat leaves; from memory."""


@record
class MeasuredLine:
    """A line of what was measured."""

    one: Measurement
    """What was measured, and after which heat."""
    when: str
    """When: by the sitting's own clock, "1:12:08", or the day on which it was added later, "2026-12-03"."""
    text: str
    """The line, its place before it: "step 2, after heat 3: 31.5 x 18 mm"."""
    number: int | None = None
    """What it is called among those that were added later; None for one of the sitting's own log."""
    doubt: str = ""
    """What of it is so far from the plan that it was mistyped, or is of something else; empty for nothing."""


def _measured_line(
    one: Measurement, all_of_them: Sequence[Measurement], plan: Plan | None, units: Units, cost: SteelCost | None = None
) -> str:
    """One of them: "31.5 x 18 mm, 220 mm long; 5 % more section than the plan's 30 x 18 mm; the steel is all there".

    Args:
        one: what was measured
        all_of_them: all that was measured in the sitting, in order, this one among it
        plan: that was followed; None where it can't be read
        units: those that are set
        cost: what the whole sitting cost the steel, for the decarb that was found; None where it is not known yet
    """
    if plan is None or one.step >= len(plan.steps):
        return shown_measured(one.measured, units)
    told = [shown_measured(one.measured, units), *_against_plan(one, all_of_them, plan, units)]
    told += [*_against_volume(one, all_of_them, plan), *_against_tempers(one, plan)]
    if one.measured.decarb is not None and cost is not None and cost.decarb is not None:
        told.append(f"decarb of the whole sitting as modelled {loss_text(cost.decarb, units)}")
    return "; ".join(told)


def measured_by(said: Said, plan: Plan, state: State, units: Units) -> str:
    """The line of what a word measured, its place before it, for an answer; empty where it was taken back since.

    Args:
        said: the word
        plan: that is followed
        state: where the sitting stands after it
        units: those that are set
    """
    measured = read_measured(said.text, Units.METRIC)
    found = [one for one in state.measurements if (one.at, one.measured) == (said.at, measured)]
    return _placed(found[-1], state.measurements, plan, units) if found else ""


def measured_in_short(plan: Plan, state: State, units: Units) -> str:
    """How what was measured last differs from the plan, the steel first, for a line that stands for a moment; empty
    where the plan says nothing of it."""
    found = state.measurements
    if not found or found[-1].step >= len(plan.steps):
        return ""
    one = found[-1]
    against = _against_plan(one, found, plan, units)
    return "; ".join([*_against_volume(one, found, plan), *against, *_against_tempers(one, plan)])


def measured_lines(
    state: State,
    plan: Plan | None,
    units: Units,
    later: LaterMeasurements | None = None,
    cost: SteelCost | None = None,
) -> list[MeasuredLine]:
    """All that was measured of a sitting's work, in the order in which it was said.

    Args:
        state: where the sitting stood in the end
        plan: that was followed; None where it can't be read
        units: those that are set
        later: what was measured when it was over; what was taken back of that has no line
        cost: what the sitting cost the steel; None where that was not worked out
    """
    added = () if later is None else later.standing
    found = (*state.measurements, *(as_measurement(one, state) for one in added))
    places: list[tuple[str, int | None]] = [(show_clock(state.clock(one.at)), None) for one in state.measurements]
    places += [(f"{one.added:%Y-%m-%d}", one.number) for one in added]
    return [
        MeasuredLine(one, when, _placed(one, found, plan, units, cost), number, hardly_so(one, found, plan, units))
        for one, (when, number) in zip(found, places, strict=True)
    ]


def _placed(
    one: Measurement, all_of_them: Sequence[Measurement], plan: Plan | None, units: Units, cost: SteelCost | None = None
) -> str:
    return f"{measured_place(one.step, one.heat, plan)}: {_measured_line(one, all_of_them, plan, units, cost)}"


def measured_place(number: int, heat: int, plan: Plan | None) -> str:
    """Where a figure belongs: "step 2, after heat 3", "before step 1", "step 4, at the bench".

    Args:
        number: of the step, from 0
        heat: after which, from 1; 0 before the first
        plan: that was followed; None where it can't be read
    """
    if heat == 0:
        return f"before step {number + 1}"
    step = plan.steps[number] if plan is not None and number < len(plan.steps) else None
    if step is not None and is_at_bench(step):
        return f"step {number + 1}, at the bench"
    counts = "heat" if step is None else step.counts
    return f"step {number + 1}, after {counts} {heat}"


def hardly_so(one: Measurement, all_of_them: Sequence[Measurement], plan: Plan | None, units: Units) -> str:
    """What a figure says that is so far from the plan that it was mistyped, or is of something else; empty for none.

    Args:
        one: what was measured
        all_of_them: all that was measured in the sitting, in order, this one among it
        plan: that was followed; None where it can't be read
        units: those that are set
    """
    if plan is None or one.step >= len(plan.steps):
        return ""
    told = [
        _differs(times - 1, what, planned)
        for times, what, planned in _times_the_plan(one, all_of_them, plan, units)
        if not 1 / _FAR <= times <= _FAR
    ]
    there = steel_found(one, all_of_them, plan)
    if there is not None and not 1 / _FAR <= 1 - there.missing <= _FAR:
        told.append(there.sentence)
    return "; ".join(told)


def _against_plan(one: Measurement, all_of_them: Sequence[Measurement], plan: Plan, units: Units) -> list[str]:
    """How section, bevel and length differ from what the plan has after that heat."""
    return [
        _differs(times - 1, what, planned) for times, what, planned in _times_the_plan(one, all_of_them, plan, units)
    ]


def _times_the_plan(
    one: Measurement, all_of_them: Sequence[Measurement], plan: Plan, units: Units
) -> Iterator[tuple[float, str, str]]:
    """How many times what the plan has after that heat, what it is of, and what the plan has."""
    step = plan.steps[one.step]
    planned = step.section_at(one.heat + 1) or step.reach
    section = with_those_before(one, all_of_them).measured.section(planned)
    sides = one.measured.width is not None or one.measured.thickness is not None
    if planned is not None and section is not None and sides:
        yield section.area / planned.area, "section", units.section(planned)
    if planned is not None and planned.edge is not None and one.measured.bevel is not None:
        bevel = planned.bevel or planned.room_for_bevel
        yield one.measured.bevel / bevel, "bevel", units.length(bevel)
    length = step.reach_length if one.heat >= step.heats else step.length if one.heat == 0 else None
    if length is not None and one.measured.length is not None:
        yield one.measured.length / length, "length", units.length(length)


def _against_tempers(one: Measurement, plan: Plan) -> list[str]:
    """How the hardness stands to what the plan's tempers leave, and a file to what a quench should."""
    told, hardness = [], one.measured.hardness
    there = None if hardness is None else hardness_there(plan, one.step, one.heat)
    if there is not None and hardness is not None:
        side = "harder than" if hardness > there.most else "softer than" if hardness < there.least else "within"
        told.append(f"{side} the {there.said} that {there.steel} has after this temper, modelled")
    if one.measured.file == "bites" and one.heat > 0 and is_as_quenched(plan, one.step):
        told.append("a file should skate after the quench: it did not harden, or its skin has lost carbon")
    return told


def _differs(more: float, what: str, planned: str) -> str:
    if abs(more) < _SAME:
        return f"{what} as planned"
    return f"{abs(more) * 100:.0f} % {'more' if more > 0 else 'less'} {what} than the plan's {planned}"


def _against_volume(one: Measurement, all_of_them: Sequence[Measurement], plan: Plan) -> list[str]:
    """What of the steel is missing, or is too much, by constant volume less what usually goes to scale."""
    there = steel_found(one, all_of_them, plan)
    return [] if there is None else [there.sentence]
