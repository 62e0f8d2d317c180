"""The list of what is compared: the sittings, then their figures side by side, step by step."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from textual.content import Content
from textual.widgets.option_list import Option

from plans.logbook import KeptSitting
from plans.logbook.comparing import (
    DIFFERS,
    LETTERS,
    Row,
    letters_without,
    part_title,
    row_name,
    row_texts,
    what_differs,
)
from plans.prose import in_units
from plans.text import plain
from plans.units import Units
from tui.comparing.compared import Compared
from tui.screens import gap, heading, row, when

_INDENT = "  "


class FigureTable:
    """The rows of figures lined up, one column a sitting.

    Args:
        compared: the sittings
        units: the units that are set
        room: for a line [cells]
    """

    def __init__(self, compared: Compared, units: Units, room: int) -> None:
        self._units = units
        self._letters = LETTERS[: len(compared.sittings)]
        rows = [self._cells(one) for part in compared.parts for one in part.rows]
        cells = [self._heads, *rows]
        longest = [max(map(len, column)) for column in zip(*cells, strict=True)]
        apart = next((apart for apart in (3, 2, 1) if sum(longest) + apart * len(self._letters) <= room), 1)
        self._widths = [longest[0], *(width + apart for width in longest[1:])]

    @property
    def _heads(self) -> list[str]:
        # A figure has room for its star behind it.
        return ["", *(f"{letter}  " for letter in self._letters)]

    def head_line(self) -> str:
        """The line above the list."""
        return row(self._heads, self._widths)

    def line(self, one: Row) -> Content:
        """A figure of every sitting; what differs has its star, and stands out."""
        text = Content(row(self._cells(one), self._widths))
        for place, differs in enumerate(one.differs, 1):
            if differs:
                end = sum(self._widths[: place + 1])
                text = text.stylize("bold $warning", end - self._widths[place], end)
        return text

    def _cells(self, one: Row) -> list[str]:
        figures = (f"{text} {DIFFERS if differs else ' '}" for text, differs in row_texts(one, self._units))
        return [f"{_INDENT}{row_name(one, self._units)}", *figures]


def compared_options(compared: Compared, units: Units, room: int) -> Iterator[Option]:
    """The lines; the id of one says what it is of: "sitting:1", "part:2:0", "note".

    Args:
        compared: the sittings
        units: the units that are set
        room: for a line [cells]
    """
    for number, (letter, kept) in enumerate(zip(LETTERS, compared.sittings, strict=False)):
        yield Option(Content.assemble((letter, "bold reverse"), f"  {_about(kept, units)}"), id=f"sitting:{number}")
    table = FigureTable(compared, units, room)
    for number, part in enumerate(compared.parts):
        title, lacking = part_title(part, units), [] if part.kind is None else letters_without(part.steps)
        yield gap()
        yield heading(f"{title}; not in {', '.join(lacking)}" if lacking else title)
        for place, one in enumerate(part.rows):
            yield Option(table.line(one), id=f"part:{number}:{place}")
    yield gap()
    yield Option(Content.styled("\n".join(wrap(what_differs(compared.parts, units), room)), "$text-muted"), id="note")


def _about(kept: KeptSitting, units: Units) -> str:
    short = "" if kept.outcome is None else kept.outcome.short
    said = "; ".join(filter(None, (plain(in_units(kept.called, units)), kept.state.value, short)))
    return f"{when(kept.header.started)}  {said}"
