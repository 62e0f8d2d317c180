"""Trends and habits as text: what `log trends` prints."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import wrap

from plans.logbook.comparing import FEWEST, HABITS, LIMIT, SURE, HabitsTold, HabitTold, Point, Span, spans_of
from plans.logbook.lines import short_time, value_text
from plans.shown import counted, show_clock
from plans.units import Units
from tui.cli.compared_text import WIDTH
from tui.cli.sitting_text import table


def trend_lines(points: Sequence[Point]) -> Iterator[str]:
    """A line for each sitting, or for several that followed one another; the oldest first."""
    spans = spans_of(points)
    are_single = len(spans) == len(points)
    heading = ["began"] if are_single else ["from", "to", "sittings"]
    yield from table(
        [*heading, "heats", "in fire", "struck", "too cold", "sound welds"],
        [[*_when(span, are_single), *_figures(span)] for span in spans],
    )
    if not are_single:
        yield "heats and times: those of the middle one of the sittings (median)"


def habit_lines(told: HabitsTold, units: Units) -> Iterator[str]:
    """Which habits went with flawed welds, with the counts; or why that is not said."""
    if not told.habits:
        yield from wrap(f"Which habits went with flawed welds is not said: {_why_not(told)}.", WIDTH)
        return
    yield f"Habits and flawed welds: {counted(told.sittings, 'sitting')}, {told.flawed} with a flawed weld"
    yield from table(
        ["  flawed, of all sittings", "with it", "without", "p"],
        [
            [
                f"  {_name(one, units)}",
                f"{one.flawed_with} of {one.flawed_with + one.sound_with}",
                f"{one.flawed_without} of {one.flawed_without + one.sound_without}",
                f"{one.chance:.2g}" if one.chance >= 0.0001 else "<0.0001",
            ]
            for one in told.habits
        ],
    )
    sure = [one for one in told.habits if one.is_told]
    yield from wrap(
        "p is how often chance alone parts so many sittings at least as unevenly (Fisher's exact test, two-sided). "
        f"{len(HABITS)} habits are tried at once, and by chance one in {round(1 / SURE)} comes below {SURE}: so one "
        f"counts only from {LIMIT:.2g} down. {_verdict(sure)}",
        WIDTH,
    )


def _when(span: Span, is_single: bool) -> list[str]:
    dates = [f"{moment:%Y-%m-%d}" for moment in (span.first, span.last)]
    return dates[:1] if is_single else [*dates, str(span.sittings)]


def _figures(span: Span) -> list[str]:
    return [
        f"{span.heats:g}",
        show_clock(span.in_fire) if span.in_fire else "",
        show_clock(span.struck) if span.struck else "",
        short_time(span.too_cold) if span.too_cold else "",
        f"{span.sound} of {span.welds}" if span.welds else "",
    ]


def _why_not(told: HabitsTold) -> str:
    if told.sittings < FEWEST:
        return (
            f"it takes {FEWEST} sittings whose welds were looked at (heatbook log outcome), and there "
            f"{'is' if told.sittings == 1 else 'are'} {told.sittings}"
        )
    if told.flawed in (0, told.sittings):
        return f"in all {told.sittings} sittings {'a weld was flawed' if told.flawed else 'the welds were sound'}"
    return "no habit was there in some sittings and not in others"


def _name(one: HabitTold, units: Units) -> str:
    if one.usual is None:
        return one.habit.name
    return f"{one.habit.name} ({value_text(one.habit.what, one.usual, units) or '0:00'})"


def _verdict(sure: Sequence[HabitTold]) -> str:
    if not sure:
        return "None does: nothing here tells habits of flawed welds from chance."
    names = "; ".join(
        f"{one.habit.name} went with {'more' if _is_worse(one) else 'fewer'} flawed welds" for one in sure
    )
    return f"{names[0].upper()}{names[1:]}. What went together need not be cause and effect."


def _is_worse(one: HabitTold) -> bool:
    with_it, without = one.flawed_with + one.sound_with, one.flawed_without + one.sound_without
    return one.flawed_with * without > one.flawed_without * with_it
