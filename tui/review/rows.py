"""The list of a review: heats by step, what they cost the steel, how the work cooled, then calls, then notes."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content
from textual.widgets.option_list import Option

from plans.logbook import HeatFigures, went_on_lines
from plans.logbook.lines import (
    COOLING_HEADING,
    COST_HEADING,
    Column,
    call_text,
    cost_lines,
    factor_lines,
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


class HeatTable:
    """The heats of a review lined up, in the columns in which any of them has something.

    Args:
        heats: the figures of all heats that the list shows
        units: the units that are set
    """

    def __init__(self, heats: Sequence[HeatFigures], units: Units) -> None:
        self._columns = used_columns(heats)
        self._units = units
        cells = [self.heads, *(self._cells(heat) for heat in heats)]
        longest = [max(map(len, column)) for column in zip(*cells, strict=True)]
        apart = 2 if sum(longest) + 2 * len(longest) <= _ROOM else 1
        self._widths = [width + apart for width in longest]

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


def _stop(heat: HeatReview) -> Stop:
    return Stop(heat.step, heat.figures.heat, heat.left_fire, heat.began, heat.ended)


def _cell(column: Column, heat: HeatFigures, units: Units) -> str:
    return column.text(heat, units, unit=False)


def column_heads(review: Review, units: Units) -> str:
    """The line above the list of a review: short titles of the columns that its heats fill."""
    return _table(review, units).head_line()


def _table(review: Review, units: Units) -> HeatTable:
    return HeatTable([heat.figures for heat in review.heats], units)


def review_options(review: Review, units: Units, shop: Shop | None = None) -> tuple[list[Option], dict[str, Stop]]:
    """The lines, and where each stands, by the id of its option.

    Args:
        review: what is shown
        units: the units that are set
        shop: what the shop file says, to stand beside what was learned; None where nobody asks it
    """
    options: list[Option] = []
    stops: dict[str, Stop] = {}
    figures, clock = review.kept.figures, review.timeline.state.clock
    table = _table(review, units)

    def add(text: Content, stop: Stop) -> None:
        name = str(len(stops))
        stops[name] = stop
        options.append(Option(text, id=name))

    for step in figures.steps if figures is not None else ():
        heats = [heat for heat in review.heats if heat.step == step.step]
        if not heats:
            continue
        options.append(heading(f"{step.step + 1}  {in_units(step.title, units)}"))
        for heat in heats:
            add(table.line(heat.figures), _stop(heat))
    last = review.heats[-1] if review.heats else None
    step_of_last, number = (last.step, last.figures.heat) if last is not None else (0, 1)
    whole = Stop(step_of_last, number, review.end, 0.0, review.end)
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
    if review.notes:
        options += [gap(), heading("Notes")]
        for note in review.notes:
            stop = Stop(note.step, note.heat, note.at, note.at, note.at)
            add(Content(f"{show_clock(note.at):>8}  {plain(note.text)}"), stop)
    for name, lines in said_rows(review.kept, review.plan, units):
        options += [gap(), heading(name)]
        for line, its in lines:
            add(
                Content(f"{_INDENT}{plain(line)}"),
                next((_stop(heat) for heat in review.heats if heat.step == its), whole),
            )
    if gone_on := went_on_lines(review.kept.header, review.timeline.state):
        options += [gap(), heading("Breaks")]
        for at, text in gone_on:
            add(Content(f"{show_clock(at):>8}  {text}"), Stop(step_of_last, number, at, at, at))
    if not options:
        options.append(heading("No heat was begun, nothing was called, nothing was noted."))
    return options, stops
