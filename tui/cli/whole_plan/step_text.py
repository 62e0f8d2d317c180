"""A step of a plan as text: what it begins and ends with, its heats and limits, and what it takes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from plans.phase import PhaseKind
from plans.plan import Phase, Step, StepKind
from plans.prose import in_units
from plans.shapes import Section
from plans.shown import show_duration
from plans.times import StepTimes
from plans.units import Units
from plans.warmth import Span
from tui.cli.whole_plan.look import Hammer, PlanLook

LABEL: Final = 14
"""Columns that the name of a line takes."""
NOTHING: Final = 5e-9
"""A volume smaller than this is none [m3]."""


def step_lines(look: PlanLook, number: int, units: Units) -> Iterator[tuple[str, str]]:
    """What is told of a step, each line with its name.

    Args:
        look: what was worked out of the plan
        number: of the step, from 0
        units: that every figure is shown in
    """
    step, times = look.plan.steps[number], look.times.steps[number]
    yield from _work(look, number, units)
    for phase in step.phases:
        match phase.kind:
            case PhaseKind.FIRE:
                yield "fire", _fire(step, units)
            case PhaseKind.SOAK:
                yield "soak", _soak(phase, times)
            case PhaseKind.STRIKE:
                yield "hammer time", _hammer(look.hammer[number])
            case PhaseKind.AIR:
                yield "air", _air(phase, times, units)
            case PhaseKind.QUENCH | PhaseKind.DIP:
                yield phase.kind.value, _held(in_units(phase.medium, units), phase)
            case PhaseKind.OVEN:
                yield "oven", _held(units.temperature(phase.at), phase)
    if step.heats_in_fire:
        yield "in the fire", _in_the_fire(times)


def _work(look: PlanLook, number: int, units: Units) -> Iterator[tuple[str, str]]:
    step = look.plan.steps[number]
    if step.kind is StepKind.BENCH:
        return
    begins, ends = _size(step.section, step.length, units), _size(step.reach, step.reach_length, units)
    if begins or ends:
        yield "work", f"{begins or 'not said'} -> {ends}" if ends else begins
    if step.thin is not None:
        over = "" if step.thin_length is None else f" over {units.length(step.thin_length)}"
        yield in_units(step.thin_name, units)[: LABEL - 1], units.section(step.thin) + over
    volume = look.volume_of(number)
    if volume is not None:
        aside = look.aside_before(volume)
        changes = (
            ("set aside or cut off before it", aside),
            ("more than was left", -aside),
            ("welded on", volume.welded_on),
            ("to scale", volume.scale),
            ("trimmed", volume.trimmed),
        )
        said = ", ".join(f"{units.volume(much)} {what}" for what, much in changes if much > NOTHING)
        ends = f" -> {units.volume(volume.ends)}" if abs(volume.ends - volume.begins) > NOTHING else ""
        yield "steel", f"{units.volume(volume.begins)}{ends}{': ' if said else ''}{said}"


def _size(section: Section | None, length: float | None, units: Units) -> str:
    long = "" if length is None else f"{units.length(length)} long"
    return ", ".join(part for part in ("" if section is None else units.section(section), long) if part)


def _fire(step: Step, units: Units) -> str:
    fires = _each([target.fire for target in step.targets], units)
    said = [f"{fires}, to bring the work to {_each([target.heat_to for target in step.targets], units)}"]
    for name, limit in (
        ("flux at", step.flux_at),
        ("strike down to", step.keep_above),
        ("burns above", step.burn_above),
    ):
        if limit is not None:
            said.append(f"{name} {units.temperature(limit)}")
    return "; ".join(said)


def _each(kelvins: Sequence[float], units: Units) -> str:
    """One temperature for all heats, or that of each."""
    alike = kelvins[:1] if len(set(kelvins)) == 1 else kelvins
    return f"{', '.join(units.degrees(one) for one in alike)} {units.degree}"


def _soak(phase: Phase, times: StepTimes) -> str:
    if phase.seconds is not None:
        said = show_duration(phase.seconds)
    elif times.first.soak is not None:
        said = f"until it is even, {about(times.first.soak)}"
    else:
        said = "until it is even"
    return said if phase.at_most is None else f"{said}, at most {show_duration(phase.at_most)}"


def _hammer(hammer: Hammer) -> str:
    if hammer.first is None:
        return "not known: the plan says no section or no cold limit"
    last = (
        ""
        if hammer.last is None or _span(hammer.last) == _span(hammer.first)
        else f", in the last heat {_span(hammer.last)}"
    )
    return f"{_span(hammer.first)}{last}, modelled"


def _span(span: Span) -> str:
    if span.most is None:
        return f"{span.likely:.0f} s (at least {span.least:.0f})"
    return f"{span.likely:.0f} s ({span.least:.0f} to {span.most:.0f})"


def _air(phase: Phase, times: StepTimes, units: Units) -> str:
    parts = []
    if phase.until is not None:
        took = times.first.air
        parts.append(f"until it is down to {units.temperature(phase.until)}" + (f", {about(took)}" if took else ""))
    if phase.seconds is not None:
        parts.append(f"for {show_duration(phase.seconds)}")
    return ", at most ".join(parts) or "until you say so"


def _held(what: str, phase: Phase) -> str:
    parts = [what]
    if phase.seconds is not None:
        parts.append(f"for {show_duration(phase.seconds)}")
    if phase.within is not None:
        parts.append(f"within {show_duration(phase.within)}")
    return ", ".join(parts)


def _in_the_fire(times: StepTimes) -> str:
    first = times.first.in_the_fire
    if first is None:
        return "not known: the plan says no section, or the work never comes to heat"
    if times.heats == 1 or times.in_the_fire is None:
        return f"{about(first)}, modelled"
    return f"{about(first)} the first time, {about(times.in_the_fire)} in all, modelled"


def about(seconds: float) -> str:
    """A modelled time, no finer than it is worth: to 5 s below 10 min, else to the minute."""
    finest = 5 if seconds < 600 else 60
    return f"about {show_duration(finest * max(1, round(seconds / finest)))}"
