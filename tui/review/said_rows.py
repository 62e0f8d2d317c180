"""What was said of a sitting when it was over, as lines of its review, each with the step that it is of."""

from __future__ import annotations

from plans.logbook import KeptSitting
from plans.logbook.lines import LESSONS_HEADING, OUTCOME_HEADING, lesson_line, outcome_lines
from plans.plan import Plan
from plans.units import Units


def said_rows(kept: KeptSitting, plan: Plan | None, units: Units) -> list[tuple[str, list[tuple[str, int | None]]]]:
    """The headings that have lines below them, each with those and their steps, from 0; None for the whole sitting."""
    lessons = () if kept.lessons is None else kept.lessons.written
    parts: list[tuple[str, list[tuple[str, int | None]]]] = [
        (OUTCOME_HEADING, [(line, None) for line in outcome_lines(kept.outcome, plan, units)]),
        (LESSONS_HEADING, [(lesson_line(lesson, units), lesson.step) for lesson in lessons]),
    ]
    return [(name, lines) for name, lines in parts if lines]
