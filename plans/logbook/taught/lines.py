"""How a row of what sittings teach is written: what it is and comes to, and below that what it rests on."""

from __future__ import annotations

from datetime import datetime
from textwrap import wrap
from typing import Final

from plans.logbook.taught.evidence import FEWEST
from plans.logbook.taught.rows import Row
from plans.units import Units

NOTHING: Final = (
    "No sitting teaches anything yet, or all that do are archived. A probe on the work tells how it cools in your air, "
    "on your anvil; a step that draws, what a heat takes off; weighing or measuring before and after, what goes to "
    f"scale; what came of a weld, if its soak was long enough. From {FEWEST} sittings on it says what they come to."
)
"""Stands where there are no rows."""
ALL_FORGOTTEN: Final = "All that your sittings taught was forgotten; what begins from now on teaches anew."
"""Stands there where rows were forgotten, and there are no others."""
_INDENT: Final = "  "
_APART: Final = 2
"""Characters between what a row is and what it comes to, where both stand on a line."""


def row_lines(row: Row, width: int, units: Units) -> list[str]:
    """A row on two lines, or more where they do not suffice; the first begins with what it is.

    Args:
        row: the row
        width: of the lines, in characters
        units: those that are set
    """
    name, figure = row.called(units), row.text
    apart = width - len(name) - len(figure)
    first = [f"{name}{' ' * apart}{figure}"] if apart >= _APART else [name, *_wrapped(figure, width)]
    return [*first, *_wrapped(f"{row.rests}; heatbook goes by: {row.in_use}", width)]


def forgotten_line(row: str, until: datetime) -> str:
    """What is said of a row that was forgotten; it has its id for a name, as no sitting tells more of it."""
    return f"{row}: what sittings taught until {until:%Y-%m-%d %H:%M} counts no more"


def _wrapped(text: str, width: int) -> list[str]:
    return wrap(text, width, initial_indent=_INDENT, subsequent_indent=_INDENT)
