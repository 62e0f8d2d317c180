"""A whole plan as text, 80 columns wide."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from textwrap import wrap
from typing import Final

from plans.editing import typed_text
from plans.maker import Concern
from plans.phase import PhaseKind
from plans.plan import Phase, Plan, Step, StepKind
from plans.prose import in_units
from plans.reader import AnswerKeys, keys_of, write_keys
from plans.shapes import Section
from plans.shown import counted, show_duration
from plans.stock import LossKind, PlanVolume
from plans.text import clean
from plans.times import PlanTimes, StepTimes
from plans.units import Units
from plans.warmth import Span
from tui.cli.sitting_text import table
from tui.cli.whole_plan.look import Hammer, Made, PlanLook

_WIDTH: Final = 80
_LABEL: Final = 14
"""Columns that the name of a line takes below a step."""
_NAME: Final = 22
"""Columns that the name of a bar, or of its steel, takes at most."""
_NOTHING: Final = 5e-9
"""A volume smaller than this is none [m3]."""


def look_lines(look: PlanLook, units: Units) -> Iterator[str]:
    """The plan line by line: what it is about, its bars, its steps, what it takes, and what does not add up.

    Args:
        look: what was worked out of it
        units: that every figure is shown in
    """
    plan = look.plan
    yield from wrap(in_units(plan.title, units), _WIDTH)
    for paragraph in filter(None, plan.about.split("\n\n")):
        yield ""
        yield from wrap(in_units(paragraph, units), _WIDTH)
    yield from _part("Bars", _bars(look, units))
    for number, step in enumerate(plan.steps):
        yield ""
        planned = "" if step.kind is StepKind.BENCH else f", {counted(step.heats, step.counts)}"
        yield from wrap(
            f"{number + 1} {in_units(step.title, units)}: {step.kind.value}{planned}", _WIDTH, subsequent_indent="  "
        )
        for name, said in _of_step(look, number, units):
            yield from wrap(
                f"{name:<{_LABEL}}{said}", _WIDTH, initial_indent="  ", subsequent_indent=" " * (2 + _LABEL)
            )
    yield from _part("In all", list(_totals(look, units)))
    yield from _part("What does not add up", [line for one in _doubts(look, units) for line in _item(one)])
    if look.made is not None:
        yield from _part("Made from", _answers(look.made.answers, units))
        yield from _part("Against what the maker proposes for that today", _apart(look.made, units))


def _part(heading: str, lines: Sequence[str]) -> Iterator[str]:
    if lines:
        yield ""
        yield heading
        yield from (f"  {line}" for line in lines)


def _item(text: str) -> list[str]:
    return wrap(text, _WIDTH - 2, subsequent_indent="  ")


def _named(name: str, said: str) -> list[str]:
    return wrap(f"{name:<{_LABEL}}{said}", _WIDTH - 2, subsequent_indent=" " * _LABEL)


def _bars(look: PlanLook, units: Units) -> list[str]:
    rows = [
        (
            clean(in_units(bar.name, units), _NAME),
            clean(bar.steel, _NAME),
            units.section(bar.section),
            units.length(bar.length),
            units.mass(mass),
        )
        for bar, mass in zip(look.plan.bars, look.masses, strict=True)
    ]
    return table(("bar", "steel", "section", "length", "mass"), rows) if rows else []


# A step


def _of_step(look: PlanLook, number: int, units: Units) -> Iterator[tuple[str, str]]:
    """What is told of a step, each line with its name."""
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
        yield in_units(step.thin_name, units)[: _LABEL - 1], units.section(step.thin) + over
    volume = look.volume_of(number)
    if volume is not None:
        aside = look.aside_before(volume)
        changes = (
            ("set aside or cut off before it", aside),
            ("taken up again", -aside),
            ("welded on", volume.welded_on),
            ("to scale", volume.scale),
            ("trimmed", volume.trimmed),
        )
        said = ", ".join(f"{units.volume(much)} {what}" for what, much in changes if much > _NOTHING)
        ends = f" -> {units.volume(volume.ends)}" if abs(volume.ends - volume.begins) > _NOTHING else ""
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
        said = f"until it is even, {_about(times.first.soak)}"
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
        parts.append(f"until it is down to {units.temperature(phase.until)}" + (f", {_about(took)}" if took else ""))
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
        return f"{_about(first)}, modelled"
    return f"{_about(first)} the first time, {_about(times.in_the_fire)} in all, modelled"


def _about(seconds: float) -> str:
    """A modelled time, no finer than it is worth: to 5 s below 10 min, else to the minute."""
    finest = 5 if seconds < 600 else 60
    return f"about {show_duration(finest * max(1, round(seconds / finest)))}"


# The whole


def _totals(look: PlanLook, units: Units) -> Iterator[str]:
    plan, times = look.plan, look.times
    for name, said in (*_steel(plan, look.masses, look.volume, units), *_time(times)):
        yield from _named(name, said)


def _steel(plan: Plan, masses: Sequence[float], volume: PlanVolume | None, units: Units) -> Iterator[tuple[str, str]]:
    stock = sum(bar.section.area * bar.length for bar in plan.bars)
    if not plan.bars:
        return
    yield "stock", f"{counted(len(plan.bars), 'bar')}, {units.volume(stock)}, {units.mass(sum(masses))}"
    if volume is None:
        return
    losses = {
        LossKind.SCALE.value: sum(step.scale for step in volume.steps),
        LossKind.TRIMMED.value: sum(step.trimmed for step in volume.steps),
        "cut off, ground off or set aside": volume.beside,
    }
    for name, much in losses.items():
        if much > _NOTHING:
            yield "", f"{units.volume(much)} {name}"
    yield "comes out", units.volume(volume.out)
    if volume.more > _NOTHING:
        yield "not there", f"{units.volume(volume.more)} more than the bars have"


def _time(times: PlanTimes) -> Iterator[tuple[str, str]]:
    if times.heats:
        yield "heats", str(times.heats)
        unknown = ", ".join(str(number + 1) for number in times.unknown)
        least = f"; not known of step {unknown}" if unknown else ""
        yield "in the fire", f"{_about(times.in_the_fire)}, modelled{least}" if times.in_the_fire else "not known"
    for name, seconds in (
        ("in the air", times.air),
        ("in the quench", times.quench),
        ("in the oven", times.oven),
        ("in the bath", times.dip),
    ):
        if seconds:
            yield name, show_duration(seconds) if name != "in the air" else f"{_about(seconds)}, modelled"


def _doubts(look: PlanLook, units: Units) -> Iterator[str]:
    for note in look.notes:
        yield str(replace(note, file=f"line {note.line}", line=None))
    yield from (concern_text(one, units) for one in look.hurries)


def concern_text(concern: Concern, units: Units) -> str:
    """What does not add up, and what would mend it, as one line."""
    return f"{units.text(concern.what).rstrip('.')}; {units.text(concern.mend)}"


def _answers(answers: AnswerKeys, units: Units) -> list[str]:
    kinds = {one.name: one.value for one in keys_of(AnswerKeys).values()}
    written = write_keys(answers, units)
    if not written:
        return ["no answers: all of it as it is usual"]
    return [line for name, value in written.items() for line in _named(name, typed_text(kinds[name], value))]


def _apart(made: Made, units: Units) -> list[str]:
    if made.apart is None:
        return _item(f"it refuses these answers: {made.refused}")
    lines = [line for one in made.apart.figures.lines(units) for line in _item(one)]
    worded = made.apart.worded
    lines += [f"{counted(worded, 'text')} worded otherwise"] if worded else []
    return lines or ["just as it stands here"]
