"""How what sittings teach stands on the screen."""

from __future__ import annotations

from datetime import datetime
from textwrap import wrap
from typing import Final

from textual.content import Content

from plans.logbook.taught import Row, row_lines
from plans.units import Units

ABOUT: Final = (
    "What your own sittings teach, those that are archived left out. Keep a factor, and the warm model goes by it; "
    "forget a row, and what was taught of it until now counts no more."
)
"""Stands above the rows."""


def row_text(row: Row, width: int, units: Units) -> Content:
    """A row, with what it is in bold and what it rests on muted; `width` of its lines in cells."""
    name = row.called(units)
    first, *below = row_lines(row, width, units)
    rests = [line if line == f"  {row.text}" else Content.styled(line, "$text-muted") for line in below]
    return Content("\n").join([Content.assemble((name, "bold"), first[len(name) :]), *map(Content.assemble, rests)])


def forgotten_text(row: str, until: datetime, width: int) -> Content:
    """A row that was forgotten, by its id; `width` of its lines in cells."""
    text = f"{row}: what sittings taught until {until:%Y-%m-%d %H:%M} counts no more"
    return Content.styled("\n".join(wrap(text, width, subsequent_indent="  ")), "$text-muted")
