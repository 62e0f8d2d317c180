"""Trends and habits in words and columns: the same on the command line and the screen."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Final

from plans.logbook.comparing.habits import FEWEST, HABITS, LIMIT, SURE, HabitsTold, HabitTold
from plans.logbook.comparing.trends import Point, Span, spans_of
from plans.logbook.figures import amount
from plans.logbook.lines import short_time, value_text
from plans.record import record
from plans.shown import counted, show_clock
from plans.units import Units

MEDIANS: Final = "heats, times, fuel: those of the middle one of the sittings (median)"
"""Said below a table whose rows have several sittings each."""


@record
class Table:
    """A table of texts."""

    heading: tuple[str, ...]
    """Its headings."""
    rows: tuple[tuple[str, ...], ...]
    """Its rows, each as long as the heading."""
    of: tuple[tuple[str, ...], ...] = ()
    """Of trends the ids of the sittings that each row has."""


def trend_table(points: Sequence[Point], units: Units) -> Table:
    """A row for each sitting, or for several that followed one another; the oldest first. Fuel where any is known.

    Args:
        points: the sittings, the oldest first
        units: the units that are set
    """
    spans = spans_of(points)
    fuels = [amount(span.fuel_mass, span.fuel_volume, units) for span in spans]
    began, ended = _began(spans), _ended(spans)
    are_single = len(spans) == len(points)
    heading = ("began",) if are_single else ("from", "to", "sittings")
    ids, rows, begin = [point.sitting for point in points], [], 0
    of = []
    for place, (span, fuel) in enumerate(zip(spans, fuels, strict=True)):
        of.append(tuple(ids[begin : begin + span.sittings]))
        begin += span.sittings
        when = began[place : place + 1] if are_single else [began[place], ended[place], str(span.sittings)]
        rows.append((*when, *_figures(span), *([fuel] if any(fuels) else [])))
    # There is room for all of it in 80 columns where one of them is short.
    sound = "sound" if any(fuels) or (not are_single and max(map(len, began)) > _DATE) else "sound welds"
    last = (sound, "fuel") if any(fuels) else (sound,)
    return Table((*heading, "heats", "in fire", "struck", "too cold", *last), tuple(rows), tuple(of))


def habit_table(told: HabitsTold, units: Units) -> Table:
    """How often welds were flawed with each habit and without it; the heading says what is counted."""
    rows = [
        (
            _name(one, units),
            f"{one.flawed_with} of {one.flawed_with + one.sound_with}",
            f"{one.flawed_without} of {one.flawed_without + one.sound_without}",
            f"{one.chance:.2g}" if one.chance >= 0.0001 else "<0.0001",
        )
        for one in told.habits
    ]
    return Table(("flawed, of all sittings", "with it", "without", "p"), tuple(rows))


def habits_heading(told: HabitsTold) -> str:
    """What stands above that table."""
    return f"Habits and flawed welds: {counted(told.sittings, 'sitting')}, {told.flawed} with a flawed weld"


def habits_verdict(told: HabitsTold) -> str:
    """What the table tells, by which test, and from which number on; or why there is none."""
    if not told.habits:
        return f"Which habits went with flawed welds is not said: {_why_not(told)}."
    return (
        "p is how often chance alone parts so many sittings at least as unevenly (Fisher's exact test, two-sided). "
        f"{len(HABITS)} habits are tried at once, and by chance one in {round(1 / SURE)} comes below {SURE}: so one "
        f"counts only from {LIMIT:.2g} down. {_verdict([one for one in told.habits if one.is_told])}"
    )


_DATE: Final = len("2026-03-01")


def _began(spans: Sequence[Span]) -> list[str]:
    """When each row began: the day, with the clock where another row has sittings of that day as well."""
    days = Counter(day for span in spans for day in {span.first.date(), span.last.date()})
    return [f"{span.first:{'%Y-%m-%d %H:%M' if days[span.first.date()] > 1 else '%Y-%m-%d'}}" for span in spans]


def _ended(spans: Sequence[Span]) -> list[str]:
    """On which day the last sitting of each row began; its year only where it is another than that of the first."""
    return [f"{span.last:{'%m-%d' if span.last.year == span.first.year else '%Y-%m-%d'}}" for span in spans]


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
