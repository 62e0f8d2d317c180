"""A sitting as one page of HTML that stands alone: no script, nothing fetched, readable on paper and in the dark."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from plans.logbook.exports.curves import CURVES, curves
from plans.logbook.exports.frame import framed
from plans.logbook.exports.marks import call_mark
from plans.logbook.exports.photographs import photograph_list
from plans.logbook.exports.picture import pictures
from plans.logbook.exports.said import said_lists
from plans.logbook.exports.strips import limit_stretches
from plans.logbook.exports.style import STYLE
from plans.logbook.exports.tables import (
    call_table,
    checklist_list,
    cooling_table,
    findings_list,
    heat_tables,
    measured_table,
    note_table,
)
from plans.logbook.exports.writing import in_markup, on_paper
from plans.logbook.going_on import went_on_lines
from plans.logbook.header import Header
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.lines import not_done
from plans.logbook.reviewing import LookingBack, Timeline
from plans.phase import IN_SOMETHING
from plans.prose import in_units
from plans.shown import show_clock
from plans.sitting import Call, LimitName
from plans.units import Units


def to_page(kept: KeptSitting, units: Units = Units.METRIC, title: str = "", photographs: Path | None = None) -> str:
    """The sitting as HTML: trace, heats, how the work cooled, calls, notes, and the plan's text as it was written.

    Args:
        kept: the sitting, with its figures worked out
        units: that every figure is shown in
        title: the page's own; empty for what the sitting is called
        photographs: the folder of the copies of its photographs; None where they stand there by name alone
    """
    called = in_units(kept.called, units)
    in_head = title or f"{called}, {kept.header.started:%Y-%m-%d}"
    timeline = Timeline.of(kept)
    photographed = photograph_list(kept.photographs, photographs, timeline.plan, units)
    body = _body(LookingBack.of(timeline), units, title or called, photographed)
    return "\n".join(framed(in_head, STYLE, body, pictures=bool(photographed))) + "\n"


def _body(back: LookingBack, units: Units, title: str, photographed: list[str]) -> Iterator[str]:
    timeline = back.timeline
    kept = timeline.kept
    yield from _head(back, units, title)
    yield from findings_list(back, units)
    yield from _trace(back, units)
    yield from heat_tables(back, units)
    yield from cooling_table(timeline)
    yield from call_table(timeline, units)
    yield from measured_table(timeline, units)
    yield from checklist_list(timeline, units)
    yield from note_table(timeline)
    yield from said_lists(timeline, units)
    yield from photographed
    # Folded, for a plan's file takes more paper than all that was done.
    yield '<section class="plan"><h2>Plan</h2>\n<details><summary>As it was followed, line by line; '
    yield f"unfold it to have it on paper too</summary><pre>{in_markup(kept.header.source.rstrip())}</pre></details>"
    yield "</section>"
    yield f"<footer>Sitting {in_markup(kept.header.id)}. {_BASIS}</footer>"


_BASIS = (
    "What is measured comes from the probe; what is modelled is calculated from the plan and the clock, and may be off."
)


def _head(back: LookingBack, units: Units, title: str) -> Iterator[str]:
    timeline = back.timeline
    kept = timeline.kept
    head = kept.header
    rehearsal = ", a rehearsal" if head.rehearsal else ""
    yield "<header>"
    yield f"<h1>{in_markup(on_paper(title))}</h1>"
    if title != (plan := in_units(head.title, units)):
        yield f'<p class="quiet">{in_markup(on_paper(plan))}</p>'
    yield f'<p>{_date(head)} <span class="state">{kept.state.value}{rehearsal}</span></p>'
    for at, text in went_on_lines(head, timeline.state):
        yield f'<p class="quiet">At {show_clock(at)} {text}</p>'
    yield f'<p class="quiet">{_probe(head)}</p>'
    yield '<dl class="facts">'
    for name, value in _facts(back, units):
        yield f"<div><dt>{name}</dt><dd>{value}</dd></div>"
    yield "</dl>"
    yield "</header>"


def _date(head: Header) -> str:
    # Not %-d, which not every system has.
    return f"{head.started.day} {head.started:%B %Y, %H:%M}"


def _probe(head: Header) -> str:
    if head.probe_on is None:
        return "No probe: the warm model and the clock"
    profile = f"{in_markup(head.profile)}, " if head.profile else ""
    port = f" ({in_markup(head.port)})" if head.port else ""
    place = "in the fire" if head.probe_on.value == "fire" else "on the work"
    return f"Probe: {profile}{place}{port}"


def _facts(back: LookingBack, units: Units) -> Iterator[tuple[str, str]]:
    timeline = back.timeline
    figures = timeline.kept.figures
    yield "whole sitting", show_clock(timeline.seconds)
    if figures is None or not figures.heats:
        return
    plan = timeline.plan
    counts = [f"{plan.steps[step.step].counts}s" if plan else "heats" for step in figures.steps if step.heats]
    yield " and ".join(dict.fromkeys(counts)), ", ".join([str(figures.done), *not_done(figures.heats)])
    if back.totals is not None:
        yield from back.totals.named(units)
    if figures.calls:
        yield "calls", str(len(figures.calls))


def _trace(back: LookingBack, units: Units) -> Iterator[str]:
    timeline = back.timeline
    drawn = [curve for curve in curves(timeline) if curve.pieces]
    yield '<section><h2>Trace</h2>\n<figure><div class="wide"><div class="strips">'
    yield from pictures(back, drawn, units)
    yield "</div></div>"
    yield "<figcaption>"
    for kind in (kind for kind in CURVES if any(curve.kind == kind for curve in drawn)):
        yield _sample(f'<path class="curve {kind}" d="M1 6H27"/>', 28, CURVES[kind])
    if any(span.phase in IN_SOMETHING for span in timeline.spans):
        yield _sample('<rect class="heat" x="1" y="1" width="26" height="10"/>', 28, "in the fire, bath or oven")
    names = {limit.name for limit in limit_stretches(timeline)}
    for name in (name for name in LimitName if name in names):
        yield _sample(f'<path class="limit {name.replace(" ", "-")}" d="M1 6H27"/>', 28, name)
    called = {called.call for called in timeline.state.calls}
    for call in (call for call in Call if call in called):
        yield _sample(f'<g transform="translate(8 6)">{call_mark(call)}</g>', 16, call.value)
    if back.findings:
        yield _sample('<path class="finding" d="M2 0H14V12H2Z"/>', 16, "what stands out")
    if timeline.state.notes:
        yield _sample('<circle class="note" cx="8" cy="6" r="5"/>', 16, "note")
    yield "</figcaption>\n</figure></section>"


def _sample(drawing: str, width: int, name: str) -> str:
    box = f'viewBox="0 -2 {width} 16" width="{width}" height="16" aria-hidden="true"'
    return f"<span><svg {box}>{drawing}</svg>{name}</span>"
