"""The list of a review: what stands out, heats by step, planned beside done, what it cost, then calls, then notes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from textual.content import Content
from textual.widgets.option_list import Option

from plans.logbook import BESIDE_HEADING, STANDS_OUT_HEADING, TOTALS_HEADING, HeatFigures, went_on_lines
from plans.logbook.lines import (
    CHECKLISTS_HEADING,
    COOLING_HEADING,
    COST_HEADING,
    MEASURED_HEADING,
    PHOTOGRAPHS_HEADING,
    Column,
    call_text,
    checklist_lines,
    cost_lines,
    factor_lines,
    measured_lines,
    photograph_lines,
    stay_lines,
    used_columns,
)
from plans.prose import in_units
from plans.record import record
from plans.shop import Shop
from plans.shown import show_clock
from plans.text import plain
from plans.units import Units
from tui.review.review_data import HeatReview, Review
from tui.review.said_rows import said_rows
from tui.screens import gap, heading, row
from tui.widgets import fill

_INDENT = "  "
_ROOM = 78
"""Cells of a line on a screen of 80."""


@record
class Stop:
    """Where a line of the list stands on the curve."""

    step: int
    """Number of the step, from 0."""
    heat: int
    """Number of the heat within the step, from 1."""
    at: float
    """Where the reading line goes, by the sitting's own clock [s]"""
    began: float
    """Where what the line tells of began, by the sitting's own clock [s]"""
    ended: float
    """Where what the line tells of ended, by the sitting's own clock [s]; at `began` for one moment."""
    above: str = ""
    """What stands above the list while the line is chosen: the heads of its columns, or what it is."""
    copied: str = ""
    """The line as it is copied, where it needs words that it does not have itself."""
    measured_later: int | None = None
    """The number of what was measured later, where the line tells of that; None for any other."""
    photograph: int | None = None
    """The number of the photograph that the line tells of; None for any other."""


class HeatTable:
    """The heats of a review lined up, in the columns in which any of them has something.

    Args:
        heats: the figures of all heats that the list shows
        units: the units that are set
        room: for a line [cells]
    """

    def __init__(self, heats: Sequence[HeatFigures], units: Units, room: int = _ROOM) -> None:
        self._columns = used_columns(heats)
        self._units = units
        cells = [self.heads, *(self._cells(heat) for heat in heats)]
        longest = [max(map(len, column)) for column in zip(*cells, strict=True)]
        apart = 2 if sum(longest) + 2 * len(longest) <= room else 1
        self._widths = [width + apart for width in longest]

    @property
    def width(self) -> int:
        """How wide its lines are [cells]."""
        return sum(self._widths)

    @property
    def heads(self) -> tuple[str, ...]:
        """The short titles of the table's columns."""
        return tuple(f"{_INDENT if index == 0 else ''}{column.short}" for index, column in enumerate(self._columns))

    def head_line(self) -> str:
        """The line above the list; empty where there are no heats."""
        return row(self.heads, self._widths) if self._columns else ""

    def line(self, heat: HeatFigures) -> Content:
        """A heat on one line; what warns stands out."""
        cells = self._cells(heat)
        text = Content(row(cells, self._widths))
        for index, (column, cell) in enumerate(zip(self._columns, cells, strict=True)):
            if column.warns and cell:
                end = sum(self._widths[: index + 1])
                text = text.stylize("bold $error", end - len(cell), end)
        return text

    def _cells(self, heat: HeatFigures) -> tuple[str, ...]:
        return tuple(
            (_INDENT if index == 0 else "") + _cell(column, heat, self._units)
            for index, column in enumerate(self._columns)
        )


def _stop(heat: HeatReview, above: str = "", copied: str = "") -> Stop:
    return Stop(heat.step, heat.figures.heat, heat.left_fire, heat.began, heat.ended, above, copied)


def _in_words(title: str, heat: HeatFigures, units: Units) -> str:
    """A heat's figures on a line by themselves: "Set the weld: heat 2, in fire 3:10, leaving 1251 degC"."""
    figures = [(column, column.text(heat, units)) for column in used_columns([heat])]
    return f"{in_units(title, units)}: " + ", ".join(f"{column.title} {text}" for column, text in figures if text)


_BESIDE_HEADS = ("step", "", "planned", "done")


def _beside(step: str, name: str, planned: str, done: str) -> str:
    """A line of what was planned beside what was done."""
    return f"{_INDENT}{fill(step, 6)}{fill(name, 15)}{fill(planned, 27)}{done}"


def _cell(column: Column, heat: HeatFigures, units: Units) -> str:
    return column.text(heat, units, unit=False)


def review_options(
    review: Review, units: Units, shop: Shop | None = None, room: int = _ROOM
) -> tuple[list[Option], dict[str, Stop]]:
    """The lines, and where each stands, by the id of its option.

    Args:
        review: what is shown
        units: the units that are set
        shop: what the shop file says, to stand beside what was learned; None where nobody asks it
        room: for a line [cells]
    """
    options: list[Option] = []
    stops: dict[str, Stop] = {}
    figures, clock = review.kept.figures, review.timeline.state.clock
    of_all = HeatTable([heat.figures for heat in review.heats], units, room)

    def add(text: Content, stop: Stop) -> None:
        name = str(len(stops))
        stops[name] = stop
        options.append(Option(text, id=name))

    back = review.looked_back
    if back.findings:
        options.append(heading(STANDS_OUT_HEADING))
        for one in back.findings:
            at = clock(one.at)
            add(
                Content(f"{show_clock(at):>8}  {one.text(units)}"), Stop(one.step, one.heat, at, at, at, one.toll.words)
            )
        options.append(gap())
    for step in figures.steps if figures is not None else ():
        heats = [heat for heat in review.heats if heat.step == step.step]
        if not heats:
            continue
        # Forging, hardening and tempering together may have more columns than a narrow screen.
        table = of_all if of_all.width <= room else HeatTable([heat.figures for heat in heats], units, room)
        options.append(heading(f"{step.step + 1}  {in_units(step.title, units)}"))
        for heat in heats:
            copied = _in_words(step.title, heat.figures, units)
            add(table.line(heat.figures), _stop(heat, table.head_line(), copied))
    last = review.heats[-1] if review.heats else None
    step_of_last, number = (last.step, last.figures.heat) if last is not None else (0, 1)
    whole = Stop(step_of_last, number, review.end, 0.0, review.end)
    if back.beside:
        options += [gap(), heading(BESIDE_HEADING)]
        for beside in back.beside:
            heats = [heat for heat in review.heats if heat.step == beside.figures.step]
            if not heats:
                continue
            stop = Stop(heats[0].step, 1, heats[0].began, heats[0].began, heats[-1].ended, _beside(*_BESIDE_HEADS))
            for place, cells in enumerate(beside.rows(units)):
                add(Content(_beside("" if place else str(beside.figures.step + 1), *cells)), stop)
    if back.totals is not None and (named := back.totals.named(units)):
        options += [gap(), heading(TOTALS_HEADING)]
        add(Content(_INDENT + ", ".join(f"{name} {value}" for name, value in named)), whole)
    if cost := cost_lines(None if figures is None else figures.cost, units):
        options += [gap(), heading(COST_HEADING)]
        for line in cost:
            add(Content(f"{_INDENT}{line}"), whole)
    learned = None if figures is None else figures.learned
    told = [
        (line, Stop(stay.step, stay.heat, began, began, began))
        for stay, line in stay_lines(learned)
        for began in (clock(stay.began),)
    ]
    told += [(line, whole) for line in factor_lines(learned, shop)]
    if told:
        options += [gap(), heading(COOLING_HEADING)]
        for line, stop in told:
            add(Content(f"{_INDENT}{line}"), stop)
    if review.calls:
        options += [gap(), heading("Calls")]
        for place, call in enumerate(review.calls):
            said = call_text(call, units, taken_back=place in review.timeline.taken_back)
            text = f"{show_clock(call.at):>8}  {call.call.row.sign} {said}"
            add(Content(text), Stop(call.step, call.heat, call.at, call.at, call.at))
    if measured := measured_lines(
        review.timeline.state, review.plan, units, review.kept.measured_later, review.kept.cost
    ):
        options += [gap(), heading(MEASURED_HEADING)]
        for taken in measured:
            at = clock(taken.one.at)
            stop = Stop(taken.one.step, max(taken.one.heat, 1), at, at, at, measured_later=taken.number)
            add(Content(f"{taken.when:>8}  {plain(taken.text)}"), stop)
    if ticks := checklist_lines(review.timeline.state, review.plan, units):
        options += [gap(), heading(CHECKLISTS_HEADING)]
        for ticked in ticks:
            stop = next((_stop(heat) for heat in review.heats if heat.step == ticked.step), whole)
            if ticked.at is not None:
                at = clock(ticked.at)
                stop = Stop(ticked.step, 1, at, at, at)
            add(Content(f"{_INDENT}{plain(ticked.text)}"), stop)
    if review.notes:
        options += [gap(), heading("Notes")]
        for note in review.notes:
            stop = Stop(note.step, note.heat, note.at, note.at, note.at)
            add(Content(f"{show_clock(note.at):>8}  {plain(note.text)}"), stop)
    for name, lines in said_rows(review.kept, review.plan, units):
        options += [gap(), heading(name)]
        for line, its in lines:
            stop = next((_stop(heat) for heat in review.heats if heat.step == its), whole)
            add(Content(f"{_INDENT}{plain(line)}"), stop)
    if photographs := photograph_lines(review.kept.photographs, review.photographs):
        options += [gap(), heading(PHOTOGRAPHS_HEADING)]
        for shown in photographs:
            stop = next((_stop(heat) for heat in review.heats if heat.step == shown.one.step), whole)
            path = plain(shown.path)
            stop = replace(stop, above=path, copied=path, photograph=shown.one.number)
            add(Content(f"{_INDENT}{plain(shown.text)}"), stop)
    if gone_on := went_on_lines(review.kept.header, review.timeline.state):
        options += [gap(), heading("Breaks")]
        for at, text in gone_on:
            add(Content(f"{show_clock(at):>8}  {text}"), Stop(step_of_last, number, at, at, at))
    if not options:
        options.append(heading("No heat was begun, nothing was called, nothing was noted."))
    return options, stops
