"""How a row of what sittings teach is written: what it is and comes to, and below that what it rests on."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from textwrap import wrap

from rich.cells import cell_len
from textual.content import Content

from plans.logbook.taught import FEWEST, Row
from plans.units import Units

_INDENT = "  "
_APART = 2
"""Cells between what a row is and what it comes to, where both stand on a line."""

NOTHING = (
    "No sitting teaches anything yet. A probe on the work tells how it cools in your air, on your anvil; a step that "
    "draws, what a heat takes off; weighing or measuring before and after, what goes to scale; what came of a weld, "
    f"whether its soak was long enough. From {FEWEST} sittings on it is said here what they come to."
)
"""Stands where there are no rows."""
ABOUT = (
    "What your own sittings teach, those that are archived left out. Keep a factor, and the warm model goes by it; "
    "forget a row, and what was taught of it until now counts no more."
)
"""Stands above the rows."""


def row_text(row: Row, width: int, units: Units) -> Content:
    """A row on two lines, or more where they do not suffice.

    Args:
        row: the row
        width: of the lines [cells]
        units: those that are set
    """
    name, figure = row.called(units), row.text
    apart = width - cell_len(name) - cell_len(figure)
    if apart >= _APART:
        first = Content.assemble((name, "bold"), " " * apart, figure)
    else:
        lines = _wrapped(figure, width)
        first = Content("\n").join([Content.styled(name, "bold"), *(Content(line) for line in lines)])
    below = _wrapped(f"{row.rests}; heatbook goes by: {row.in_use}", width)
    return Content("\n").join([first, *(Content.styled(line, "$text-muted") for line in below)])


def forgotten_text(row: str, until: datetime, width: int) -> Content:
    """A row that was forgotten, by its id."""
    text = f"{row}: what sittings taught until {until:%Y-%m-%d %H:%M} counts no more"
    return Content.styled("\n".join(wrap(text, width, subsequent_indent=_INDENT)), "$text-muted")


def _wrapped(text: str, width: int) -> Iterator[str]:
    yield from wrap(text, width, initial_indent=_INDENT, subsequent_indent=_INDENT)
