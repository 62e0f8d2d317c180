"""The tables of a page: heats by step, how the work cooled, calls, notes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from plans.logbook.exports.writing import in_markup, on_paper
from plans.logbook.figures import HeatFigures
from plans.logbook.lines import (
    CHECKLISTS_HEADING,
    MEASURED_HEADING,
    Column,
    What,
    about,
    checklist_lines,
    forecast_stays,
    forecast_text,
    measured_lines,
    named_factors,
    shown_spread,
    used_columns,
)
from plans.logbook.reviewing import STANDS_OUT_HEADING, TOLLS, LookingBack, Timeline
from plans.prose import in_units
from plans.shown import show_clock
from plans.units import Units
from plans.warmth import screen_glow

_COLUMN = 12
"""A table of more rows is set in two columns, where there is room."""


def findings_list(back: LookingBack, units: Units) -> Iterator[str]:
    """What stands out, each a link to its mark on the trace; nothing where nothing does."""
    if not back.findings:
        return
    first, _, order = STANDS_OUT_HEADING.partition(", ")
    yield f'<section><h2>{first}</h2>\n<p class="about">{order.capitalize()}: {TOLLS}.</p>\n<ol class="findings">'
    for number, one in enumerate(back.findings, 1):
        at = show_clock(back.timeline.state.clock(one.at))
        text = in_markup(on_paper(one.text(units)))
        yield f'<li><a href="#{finding_mark(number)}">{text}</a> <span class="quiet">at {at}</span></li>'
    yield "</ol></section>"


def finding_mark(number: int) -> str:
    """What the mark of a finding on the trace is called, by its place in the list, from 1."""
    return f"stands-out-{number}"


def heat_tables(back: LookingBack, units: Units) -> Iterator[str]:
    """For each step that was come to a table of its heats, and what was planned beside what was done."""
    yield "<section><h2>Heats</h2>"
    timeline = back.timeline
    figures = timeline.kept.figures
    if figures is None:
        yield '<p class="quiet">The figures could not be worked out from the log.</p>'
    for shown in figures.steps if figures is not None else ():
        step = timeline.plan.steps[shown.step] if timeline.plan else None
        kind = "step-heats" if shown.heats else "step-heats bare"
        yield f'<div class="{kind}"><h3>{shown.step + 1} {in_markup(on_paper(in_units(shown.title, units)))}</h3>'
        yield '<div class="pair">'
        if shown.heats:
            yield from _heat_table(step.counts if step else "heat", shown.heats, units)
        if (beside := back.beside_of(shown.step)) is not None:
            rows = ([in_markup(on_paper(cell)) for cell in row] for row in beside.rows(units))
            yield from table(("", "planned", "done"), rows, text=(0, 1, 2))
        yield "</div></div>"
    yield "</section>"


def cooling_table(timeline: Timeline) -> Iterator[str]:
    """Hammer time of the skin as forecast and as measured, and the factors; nothing where nothing was felt."""
    figures = timeline.kept.figures
    learned = None if figures is None else figures.learned
    stays, factors = forecast_stays(learned), [] if learned is None else named_factors(learned)
    if not stays and not factors:
        return
    yield '<section class="long"><h2>How the skin cooled</h2>'
    if stays:
        rows = [
            (str(stay.step + 1), str(stay.heat), forecast_text(forecast), _happened(stay.happened))
            for stay, forecast in stays
        ]
        yield from table(("step", "heat", "its hammer time, modelled", "its hammer time, measured"), rows)
    for name, factor in factors:
        spread = factor.spread
        about = "from one stay" if spread is None else f"± {shown_spread(spread):.2f} from {factor.stays} stays"
        yield (
            f'<p class="about">{name.capitalize()} {factor.value:.2f} {about} outside the fire, fitted to the probe; '
            f"the sitting went by {factor.went_by:.2f}.</p>"
        )
    yield "</section>"


def _happened(seconds: float | None) -> str:
    return "went back before" if seconds is None else f"{seconds:.0f} s"


def call_table(timeline: Timeline, units: Units) -> Iterator[str]:
    """What was called out to the smith; nothing where nothing was."""
    calls, clock = timeline.state.calls, timeline.state.clock
    if not calls:
        return
    rows = [
        (
            show_clock(clock(call.at)),
            call.call.value,
            str(call.step + 1),
            str(call.heat),
            ", ".join(on_paper(text) for text in about(call, units, taken_back=number in timeline.taken_back)),
        )
        for number, call in enumerate(calls)
    ]
    columns = ' class="long"' if len(rows) > _COLUMN else ""
    yield f"<section{columns}><h2>Calls</h2>"
    yield from table(("at", "call", "step", "heat", "about"), rows, text=(1, 4))
    yield "</section>"


def measured_table(timeline: Timeline, units: Units) -> Iterator[str]:
    """What was measured by hand, held against the plan; nothing where nothing was."""
    found = measured_lines(timeline.state, timeline.plan, units, timeline.kept.measured_later, timeline.kept.cost)
    if not found:
        return
    rows = [(line.when, in_markup(on_paper(line.text))) for line in found]
    yield f"<section><h2>{MEASURED_HEADING}</h2>"
    yield from table(("at", "measured"), rows, text=(1,), free=True)
    yield "</section>"


def checklist_list(timeline: Timeline, units: Units) -> Iterator[str]:
    """What was ticked of each step's checklist, and what was not; nothing where there are none."""
    lines = checklist_lines(timeline.state, timeline.plan, units)
    if lines:
        items = "".join(f"<li>{in_markup(on_paper(line.text))}</li>" for line in lines)
        yield f"<section><h2>{CHECKLISTS_HEADING}</h2>\n<ul>{items}</ul></section>"


def note_table(timeline: Timeline) -> Iterator[str]:
    """What the smith left, numbered as in the trace; nothing where there is none."""
    notes, clock = timeline.state.notes, timeline.state.clock
    if not notes:
        return
    rows = [
        (str(number), show_clock(clock(note.at)), str(note.step + 1), str(note.heat), in_markup(note.text))
        for number, note in enumerate(notes, 1)
    ]
    yield "<section><h2>Notes</h2>"
    yield from table(("number", "at", "step", "heat", "note"), rows, text=(4,), free=True)
    yield "</section>"


_GLOWING = ("leaving", "lowest struck")
"""Columns with a spot of the colour that the work glowed in."""


def _heat_table(counts: str, heats: Sequence[HeatFigures], units: Units) -> Iterator[str]:
    columns = used_columns(heats)
    heading = [counts if column.what is What.COUNT else column.title for column in columns]
    yield from table(heading, ([_cell(column, heat, units) for column in columns] for heat in heats))


def _cell(column: Column, heat: HeatFigures, units: Units) -> str:
    text, value = on_paper(column.text(heat, units)), column.value(heat)
    if column.warns and text:
        return f'<span class="alarmed">{text}</span>'
    if column.title in _GLOWING and isinstance(value, float):
        colour = "".join(f"{channel:02x}" for channel in screen_glow(max(value, 0.0)))
        return f'<i style="background:#{colour}"></i>{text}'
    return text


def table(
    heading: Sequence[str], rows: Iterable[Sequence[str]], text: Sequence[int] = (), free: bool = False
) -> Iterator[str]:
    """A table of cells that are markup already; the columns of `text` stand to the left, `free` if they may be long.

    Where the first heading is empty, the first cell of each row is a heading: it says what the row is.
    """
    kinds = [f' class="text{" free" if free else ""}"' if index in text else "" for index in range(len(heading))]
    yield '<div class="wide"><table>'
    headings = (
        f'<th scope="col"{kind}>{name}</th>' if name else f"<td{kind}></td>"
        for kind, name in zip(kinds, heading, strict=True)
    )
    yield f"<thead><tr>{''.join(headings)}</tr></thead><tbody>"
    for row in rows:
        cells = [f"<td{kind}>{cell}</td>" for kind, cell in zip(kinds, row, strict=True)]
        if not heading[0]:
            cells[0] = f'<th scope="row"{kinds[0]}>{row[0]}</th>'
        yield f"<tr>{''.join(cells)}</tr>"
    yield "</tbody></table></div>"
