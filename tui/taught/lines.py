"""How what sittings teach stands on the screen."""

from __future__ import annotations

from datetime import datetime
from textwrap import wrap
from typing import Final

from textual.content import Content

from plans.logbook.taught import Row, forgotten_line, row_lines
from plans.units import Units

ABOUT: Final = (
    "What your own sittings teach, those that are archived left out. Keep a factor, and the warm model goes by it; "
    "forget a row, and what was taught of it until now counts no more."
)
"""Stands above the rows."""
READING: Final = "Reading what they teach: of sittings that an older heatbook kept, out of their files, once."
"""Stands there where that takes a while."""


def row_text(row: Row, width: int, units: Units) -> Content:
    """A row, with what it is in bold and what it rests on muted; `width` of its lines in cells."""
    name = row.called(units)
    first, *below = row_lines(row, width, units)
    rests = [line if line == f"  {row.text}" else Content.styled(line, "$text-muted") for line in below]
    return Content("\n").join([Content.assemble((name, "bold"), first[len(name) :]), *map(Content.assemble, rests)])


def forgotten_text(row: str, until: datetime, width: int) -> Content:
    """A row that was forgotten, by its id; `width` of its lines in cells."""
    lines = wrap(forgotten_line(row, until), width, subsequent_indent="  ")
    return Content.styled("\n".join(lines), "$text-muted")
