"""A plan as a card to hang by the anvil: A5, on one page where it fits, with last time's lessons at their steps."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from plans.logbook import Recalled, at_step
from plans.logbook.exports import framed, in_markup, on_paper
from plans.logbook.lines import recalled_line
from plans.plan import Plan, StepKind
from plans.prose import in_units
from plans.shown import counted
from plans.sitting import first_of_all, for_plan
from plans.units import Units
from tui.cli.whole_plan.look import PlanLook
from tui.cli.whole_plan.step_text import step_lines

_NOT_AT_THE_ANVIL: Final = ("steel", "in the fire")
"""Lines of a step that are for the desk."""
_MOST_LESSONS: Final = 3
"""So many lessons stand at a step; a card with all that years have taught would hang on no nail."""
_STYLE: Final = """
@page{size:A5;margin:7mm 7mm 10mm;
@bottom-right{content:counter(page) " of " counter(pages);font:11pt system-ui,"Segoe UI",Roboto,"Noto Sans",sans-serif}}
*{box-sizing:border-box}
html{background:#fff;color:#000;print-color-adjust:exact;-webkit-print-color-adjust:exact}
body{margin:0 auto;max-width:134mm;overflow-wrap:anywhere;
font:11pt/1.2 system-ui,"Segoe UI",Roboto,"Noto Sans",sans-serif}
h1{font-size:16pt;line-height:1.1;margin:0 0 1mm}
p,ul,dl,ol{margin:0;padding:0}
ol,ul{list-style:none}
.cautions{border:.4mm solid #000;padding:.8mm 1.5mm;margin:1.5mm 0}
li.step{border-top:.4mm solid #000;padding:.6mm 0 .8mm;break-inside:avoid}
.title b{font-size:13pt}
dl div{padding-left:4mm;text-indent:-4mm}
dt,dd{display:inline;margin:0}
dt{font-weight:600}
dd{font-variant-numeric:tabular-nums}
.lesson{font-weight:600;border-left:.8mm solid #000;padding-left:1.5mm;margin:.4mm 0}
.caution::before{content:"\\26A0\\FE0E  "}
.check{display:inline-block;margin-right:3mm}
.check::before{content:"\\25A1\\A0"}
@media screen{body{padding:6mm}}
"""
"""Every letter of it has 11 pt at least: it is read from a metre off."""


def card_page(look: PlanLook, recalled: tuple[Recalled, ...], units: Units) -> str:
    """The card as one page of HTML that stands alone: no script, nothing fetched.

    Args:
        look: what was worked out of the plan
        recalled: the lessons of the logbook; those that belong to a step stand with it
        units: that every figure is shown in
    """
    title = in_units(look.plan.title, units)
    return "\n".join(framed(title, _STYLE, _body(look, recalled, units))) + "\n"


def _body(look: PlanLook, recalled: tuple[Recalled, ...], units: Units) -> Iterator[str]:
    plan = look.plan
    title = _text(plan.title, units)
    yield f"<h1>{title}</h1>"
    bars = (f"{bar.name}: {bar.steel}, {units.section(bar.section)}, {units.length(bar.length)}" for bar in plan.bars)
    if plan.bars:
        yield f'<p class="bars">{_text("; ".join(bars), units)}</p>'
    usual = ", ".join(caution.about for caution in for_plan(plan) if caution.kinds)
    yield f'<p class="cautions"><b>{_text(usual, units)}.</b> {_text(first_of_all(), units)}</p>'
    yield "<ol>"
    for number in range(len(plan.steps)):
        yield from _step(look, number, recalled, units)
    yield "</ol>"


def _step(look: PlanLook, number: int, recalled: tuple[Recalled, ...], units: Units) -> Iterator[str]:
    step = look.plan.steps[number]
    planned = "" if step.kind is StepKind.BENCH else f", {counted(step.heats, step.counts)}"
    head = f"<b>{number + 1} {_text(step.title, units)}</b> {step.kind.value}{planned}"
    yield f'<li class="step"><p class="title">{head}</p>'
    lessons = at_step(recalled, _as_on_the_card(look.plan), number)
    for one in lessons[:_MOST_LESSONS]:
        yield f'<p class="lesson">{_text(recalled_line(one), units)}</p>'
    if len(lessons) > _MOST_LESSONS:
        command = f"heatbook log lesson list --plan {look.plan.name}"
        yield f"<p>and {len(lessons) - _MOST_LESSONS} more: {_text(command, units)}</p>"
    for caution in step.cautions:
        yield f'<p class="caution">{_text(caution, units)}</p>'
    lines = {name: said for name, said in step_lines(look, number, units) if name not in _NOT_AT_THE_ANVIL}
    for phase in step.phases:
        if phase.cue:
            lines[phase.kind.value] = "; ".join(filter(None, (lines.get(phase.kind.value), phase.cue)))
    if lines:
        rows = "".join(
            f"<div><dt>{_text(name, units)}</dt> <dd>{_text(said, units)}</dd></div>" for name, said in lines.items()
        )
        yield f"<dl>{rows}</dl>"
    if step.checklist:
        yield "<p>" + "".join(f'<span class="check">{_text(line, units)}</span>' for line in step.checklist) + "</p>"
    yield "</li>"


def _as_on_the_card(plan: Plan) -> Plan:
    """The plan without what the card has no room for, so that a lesson which stands there is not taken for said."""
    return replace(plan, about="", steps=tuple(replace(step, instruction="") for step in plan.steps))


def _text(text: str, units: Units) -> str:
    return in_markup(on_paper(in_units(text, units)))
