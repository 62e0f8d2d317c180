"""What was said of a sitting when it was over, as lists of a page: outcome and lessons."""

from __future__ import annotations

from collections.abc import Iterator

from plans.logbook.exports.writing import in_markup, on_paper
from plans.logbook.lines import LESSONS_HEADING, OUTCOME_HEADING, lesson_line, outcome_lines
from plans.logbook.reviewing import Timeline
from plans.units import Units


def said_lists(timeline: Timeline, units: Units) -> Iterator[str]:
    """Outcome and lessons, each under its heading; nothing where nothing was said."""
    kept = timeline.kept
    lessons = () if kept.lessons is None else kept.lessons.written
    yield from _list(OUTCOME_HEADING, outcome_lines(kept.outcome, timeline.plan, units))
    yield from _list(LESSONS_HEADING, [lesson_line(lesson, units) for lesson in lessons])


def _list(heading: str, lines: list[str]) -> Iterator[str]:
    if lines:
        items = "".join(f"<li>{in_markup(on_paper(line))}</li>" for line in lines)
        yield f"<section><h2>{heading}</h2>\n<ul>{items}</ul></section>"
