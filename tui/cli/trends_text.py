"""Trends and habits as text: what `log trends` prints."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import wrap

from plans.logbook.comparing import (
    MEDIANS,
    HabitsTold,
    Point,
    habit_table,
    habits_heading,
    habits_verdict,
    trend_table,
)
from plans.units import Units
from tui.cli.compared_text import WIDTH
from tui.cli.sitting_text import table


def trend_lines(points: Sequence[Point], units: Units) -> Iterator[str]:
    """A line for each sitting, or for several that followed one another; the oldest first."""
    found = trend_table(points, units)
    yield from table(found.heading, found.rows)
    if len(found.rows) < len(points):
        yield MEDIANS


def habit_lines(told: HabitsTold, units: Units) -> Iterator[str]:
    """Which habits went with flawed welds, with the counts; or why that is not said."""
    if told.habits:
        yield habits_heading(told)
        found = habit_table(told, units)
        yield from (f"  {line}" for line in table(found.heading, found.rows))
    yield from wrap(habits_verdict(told), WIDTH)
