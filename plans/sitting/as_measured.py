"""The plan with what was measured by hand in place of what was planned: a step begins with what is there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from plans.measured import Measured
from plans.plan import Plan, Step
from plans.shapes import Section
from plans.sitting.measured_where import ends_long, ends_with, is_handed_on, is_same_length, is_same_section
from plans.sitting.state import State
from plans.sitting.undo import Measurement


def measured_after(state: State) -> dict[tuple[int, int], Measured]:
    """What was measured after each heat, by its step (from 0) and its number (from 1; 0 before the first).

    Where something was measured again, the later figure stands.
    """
    found: dict[tuple[int, int], Measured] = {}
    for one in state.measurements:
        place = (one.step, one.heat)
        found[place] = found.get(place, Measured()).beside(one.measured)
    return found


def with_those_before(one: Measurement, measurements: Iterable[Measurement]) -> Measurement:
    """A measurement with what was measured of the same work before it: a side that was is not taken from the plan.

    Args:
        one: what was measured
        measurements: all of the sitting, in order, this one among them
    """
    found = Measured()
    for other in measurements:
        if (other.step, other.heat) == (one.step, one.heat):
            found = found.beside(other.measured)
        if other is one:
            break
    return replace(one, measured=found)


def sections_measured(plan: Plan, state: State) -> dict[int, Section]:
    """The section that was measured at the end of each step, by the step's number from 0.

    What was measured between two heats of a step is not its end.
    """
    found: dict[int, Section] = {}
    for number, one in measured_at_ends(state).items():
        if number < len(plan.steps):
            section = one.measured.section(ends_with(plan.steps[number]))
            if section is not None:
                found[number] = section
    return found


def plan_as_measured(plan: Plan, state: State) -> Plan:
    """The plan whose steps begin with what was measured before them, section and length.

    A step takes over what was measured at the end of the step before where the plan has it begin with what that one
    ends with, and hands it on where it changes nothing: what was folded, welded on or cut off since is as planned.

    Args:
        plan: what is to be done
        state: where the sitting stands

    Returns:
        the plan; the same one where nothing is taken over
    """
    steps = list(plan.steps)
    known = len(steps)
    begin = {number: one for (number, heat), one in measured_after(state).items() if heat == 0 and number < known}
    # A step that changes no section hands on what it begins with.
    at_ends = {number: one for number, one in begin.items() if plan.steps[number].reach is None}
    for number, one in sorted(measured_at_ends(state).items()):
        if number < known:
            shaping = _shaped_by(plan, number)
            at_ends[shaping] = at_ends.get(shaping, Measured()).beside(one.measured)
    handed_on: dict[int, Measured] = {}
    for number, measured in sorted(at_ends.items()):
        if plan.steps[number].reach is None:
            measured = handed_on.get(number, Measured()).beside(measured)
        for later in _following(plan, number):
            before = plan.steps[number]
            handed_on[later] = measured
            steps[later] = _begins(plan.steps[later], measured, ends_with(before), ends_long(before))
    for number, measured in begin.items():
        step = steps[number]
        steps[number] = _begins(step, measured, step.section, step.length)
    return plan if steps == list(plan.steps) else replace(plan, steps=tuple(steps))


def measured_at_ends(state: State) -> dict[int, Measurement]:
    """What was measured after the last heat of each step, by the step's number from 0: of two figures the later."""
    return {
        step: Measurement(state.at, step, heat, measured)
        for (step, heat), measured in measured_after(state).items()
        if heat > 0 and state.worked_on(step) == (step, heat)
    }


def _shaped_by(plan: Plan, number: int) -> int:
    """The step whose section the work still has in the plan when a step is done, with only bench work in between."""
    while is_handed_on(plan, number):
        number -= 1
    return number


def _following(plan: Plan, number: int) -> Iterator[int]:
    """The steps that begin with what a step ends with: up to the first that changes it, that one too."""
    planned = ends_with(plan.steps[number])
    for later, step in enumerate(plan.steps[number + 1 :], number + 1):
        if step.section is not None and not is_same_section(step.section, planned):
            return
        if step.section is not None or step.heats_in_fire:
            yield later
        if step.reach is not None:
            return


def _begins(step: Step, measured: Measured, planned: Section | None, long: float | None) -> Step:
    """A step with what was measured of section and length; each that was not is its own, as is the length of a part
    that was cut off what the plan has as `long` [m] before it."""
    section = measured.section(planned) or measured.bevelled(planned) or step.section
    if section is None:
        return step
    is_whole = None in (step.length, long) or is_same_length(step.length, long)
    length = measured.length if measured.length is not None and is_whole else step.length
    return replace(step, section=section, length=length)
