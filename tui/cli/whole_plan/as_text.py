"""A whole plan as text, 80 columns wide."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from textwrap import wrap
from typing import Final

from plans.editing import typed_text
from plans.maker import Concern
from plans.plan import Plan, StepKind
from plans.prose import in_units
from plans.reader import AnswerKeys, keys_of, write_keys
from plans.shown import counted, show_duration
from plans.stock import LossKind, PlanVolume
from plans.text import clean
from plans.times import PlanTimes
from plans.units import Units
from tui.cli.sitting_text import table
from tui.cli.whole_plan.look import Made, PlanLook
from tui.cli.whole_plan.step_text import LABEL, NOTHING, about, step_lines

_WIDTH: Final = 80
_NAME: Final = 22
"""Columns that the name of a bar, or of its steel, takes at most."""


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
        for name, said in step_lines(look, number, units):
            yield from wrap(f"{name:<{LABEL}}{said}", _WIDTH, initial_indent="  ", subsequent_indent=" " * (2 + LABEL))
    yield from _part("In all", list(_totals(look, units)))
    yield from _part("What does not add up", [line for one in _doubts(look, units) for line in _item(one)])
    if look.made is not None:
        yield from _part("Made from", _answers(look.made, units))
    if look.made is not None and look.made.answers is not None:
        yield from _part("Against what the maker proposes for that today", _apart(look.made, units))


def _part(heading: str, lines: Sequence[str]) -> Iterator[str]:
    if lines:
        yield ""
        yield heading
        yield from (f"  {line}" for line in lines)


def _item(text: str) -> list[str]:
    return wrap(text, _WIDTH - 2, subsequent_indent="  ")


def _named(name: str, said: str) -> list[str]:
    return wrap(f"{name:<{LABEL}}{said}", _WIDTH - 2, subsequent_indent=" " * LABEL)


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
        if much > NOTHING:
            yield "", f"{units.volume(much)} {name}"
    yield "comes out", units.volume(volume.out)
    if volume.more > NOTHING:
        yield "not there", f"{units.volume(volume.more)} more than the bars have"


def _time(times: PlanTimes) -> Iterator[tuple[str, str]]:
    if times.heats:
        yield "heats", str(times.heats)
        unknown = ", ".join(str(number + 1) for number in times.unknown)
        least = f"; not known of step {unknown}" if unknown else ""
        yield "in the fire", f"{about(times.in_the_fire)}, modelled{least}" if times.in_the_fire else "not known"
    for name, seconds in (
        ("in the air", times.air),
        ("in the quench", times.quench),
        ("in the oven", times.oven),
        ("in the bath", times.dip),
    ):
        if seconds:
            yield name, show_duration(seconds) if name != "in the air" else f"{about(seconds)}, modelled"


def _doubts(look: PlanLook, units: Units) -> Iterator[str]:
    for note in look.notes:
        yield str(replace(note, file=f"line {note.line}", line=None))
    yield from (concern_text(one, units) for one in look.concerns)


def concern_text(concern: Concern, units: Units) -> str:
    """What does not add up, and what would mend it, as one line."""
    return f"{units.text(concern.what).rstrip('.')}; {units.text(concern.mend)}"


def _answers(made: Made, units: Units) -> list[str]:
    if made.answers is None:
        return _item(f"answers that can't be read: {made.refused}")
    kinds = {one.name: one.value for one in keys_of(AnswerKeys).values()}
    written = write_keys(made.answers, units)
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
