"""Several sittings beside one another as one page of HTML that stands alone, as that of one sitting does."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from plans.logbook.comparing import (
    DIFFERS,
    LETTERS,
    SINCE,
    Laid,
    Moment,
    Part,
    heats_from,
    lay_heats,
    letters_without,
    part_title,
    row_name,
    row_texts,
    side_by_side,
    what_differs,
)
from plans.logbook.exports.frame import framed
from plans.logbook.exports.overlay import overlay
from plans.logbook.exports.style import STYLE
from plans.logbook.exports.tables import table
from plans.logbook.exports.writing import in_markup, on_paper
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.lines import LESSONS_HEADING, OUTCOME_HEADING, lesson_line, outcome_lines
from plans.logbook.reviewing import Timeline
from plans.prose import in_units
from plans.units import Units

MOST_PICTURES: Final = 40
"""So many heats are drawn; a page that says nothing of the rest says how many they are."""


def to_beside_page(
    sittings: Sequence[KeptSitting],
    units: Units = Units.METRIC,
    *,
    title: str = "",
    moment: Moment | None = None,
    step: int | None = None,
    heat: int | None = None,
) -> str:
    """Sittings beside one another as HTML: outcome and lessons of each, figures, and traces over one another.

    Args:
        sittings: two to five, with their figures worked out; the others are held against the first
        units: that every figure is shown in
        title: the page's own; empty for the titles of the plans
        moment: what traces count from; None for the fire, and of a heat that was quenched the quench as well
        step: number of the one step in the first sitting whose heats are drawn, from 0; None for all steps
        heat: number of the one heat that is drawn of each step, from 1; None for all
    """
    called = title or " / ".join(dict.fromkeys(in_units(kept.called, units) for kept in sittings))
    return "\n".join(framed(called, STYLE, _body(sittings, units, called, moment, step, heat))) + "\n"


def _body(
    sittings: Sequence[KeptSitting],
    units: Units,
    title: str,
    moment: Moment | None,
    step: int | None,
    heat: int | None,
) -> Iterator[str]:
    timelines, parts = list(map(Timeline.of, sittings)), side_by_side(sittings)
    yield f"<header><h1>{_text(title, units)}</h1>"
    yield f"<p>{len(sittings)} sittings beside one another</p></header>"
    yield '<section class="each">'
    for letter, timeline in zip(LETTERS, timelines, strict=False):
        yield from _sitting(letter, timeline, units)
    yield "</section>"
    yield f'<section><h2>Figures</h2>\n<p class="about">{_text(what_differs(parts, units), units)}.</p>'
    yield '<div class="figures">'
    for part in parts:
        yield from _figures(part, len(sittings), units)
    yield "</div></section>"
    drawn = parts[1:] if step is None else [part for part in parts if part.steps[0] == step]
    yield from _traces(timelines, drawn, units, list(Moment) if moment is None else [moment], moment is None, heat)
    names = ", ".join(f"{letter} {kept.header.id}" for letter, kept in zip(LETTERS, sittings, strict=False))
    yield f"<footer>Sittings: {in_markup(names)}.</footer>"


def _sitting(letter: str, timeline: Timeline, units: Units) -> Iterator[str]:
    """What a letter stands for, and what was said of it when it was over."""
    kept = timeline.kept
    started = kept.header.started
    rehearsal = ", a rehearsal" if kept.header.rehearsal else ""
    yield f'<div><h3><b class="of-{letter.lower()}">{letter}</b> {_text(kept.called, units)}</h3>'
    yield f'<p class="quiet">{started.day} {started:%B %Y, %H:%M}, {kept.state.value}{rehearsal}</p>'
    if timeline.trouble is not None:
        yield f'<p class="quiet">{_text(timeline.trouble, units)}</p>'
    if kept.figures is None:
        yield '<p class="quiet">The figures could not be worked out from the log.</p>'
    elif not len(kept.log.readings):
        yield '<p class="quiet">No readings: its temperatures are modelled.</p>'
    lessons = () if kept.lessons is None else kept.lessons.written
    said = ((OUTCOME_HEADING, outcome_lines(kept.outcome, timeline.plan, units)),
            (LESSONS_HEADING, [lesson_line(lesson, units) for lesson in lessons]))  # fmt: skip
    for name, lines in said:
        if lines:
            items = "".join(f"<li>{_text(line, units)}</li>" for line in lines)
            yield f'<p class="about">{name}</p><ul>{items}</ul>'
    yield "</div>"


def _figures(part: Part, count: int, units: Units) -> Iterator[str]:
    yield f'<div class="step-heats"><h3>{_text(part_title(part, units), units)}</h3>'
    rows = [[_text(row_name(row, units), units), *(_cell(*one) for one in row_texts(row, units))] for row in part.rows]
    yield from table(["", *LETTERS[:count]], rows, text=(0,))
    yield "</div>"


def _cell(text: str, differs: bool) -> str:
    return f'<b class="differs">{text} {DIFFERS}</b>' if differs else text


def _traces(
    timelines: Sequence[Timeline],
    parts: Sequence[Part],
    units: Units,
    moments: Sequence[Moment],
    is_usual: bool,
    heat: int | None,
) -> Iterator[str]:
    yield "<section><h2>Traces over one another</h2>"
    found = []
    for part in parts:
        for moment in moments:
            # Out of the fire shows no more than in the fire does: only where it is asked for.
            if not (is_usual and moment is Moment.OUT):
                heats = [one for one in heats_from(timelines, moment, part.steps) if heat in (None, one)]
                laid = ((part, moment, one, lay_heats(timelines, moment, part.steps, one)) for one in heats)
                found += [one for one in laid if sum(its is not None for its in one[3]) > 1]
    if not found:
        yield '<p class="quiet">No two of them have such a heat of the same step.</p></section>'
        return
    yield '<p class="about">The skin of the work: whole where it was measured, dashed where it was modelled.</p>'
    yield '<div class="overlays">'
    for part, moment, number, laid_heats in found[:MOST_PICTURES]:
        yield from _picture(part, moment, number, laid_heats, units)
    yield "</div>"
    if len(found) > MOST_PICTURES:
        yield f'<p class="quiet">{len(found) - MOST_PICTURES} more are not drawn; ask for one step or moment.</p>'
    yield "</section>"


def _picture(part: Part, moment: Moment, heat: int, laid: Sequence[Laid | None], units: Units) -> Iterator[str]:
    label = f"{in_units(part.title, units)}, heat {heat}, {SINCE[moment]}"
    missing = letters_without(laid)
    without = f"; {', '.join(missing)} without it" if missing else ""
    yield "<figure>"
    yield "".join(overlay(laid, label, units))
    yield f"<figcaption>{_text(label, units)}{without}</figcaption></figure>"


def _text(text: str, units: Units) -> str:
    return in_markup(on_paper(in_units(text, units)))
