"""Figures beside one another in words: the same on the command line, the screen and the page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from plans.logbook.comparing.figure_rows import Part, Row
from plans.logbook.comparing.laying_over import Laid, Moment
from plans.logbook.comparing.told_apart import from_when_on
from plans.logbook.lines import What, value_text
from plans.logbook.reviewing import TOTALS_HEADING
from plans.prose import in_units
from plans.sitting import Basis
from plans.units import Units

LETTERS: Final = "ABCDE"
"""What stands for each sitting, in order; more do not fit beside one another."""
DIFFERS: Final = "*"
"""Stands behind a figure that differs from the first sitting's by more than can be told."""
SINCE: Final = {
    Moment.FIRE: "since it went into the fire",
    Moment.OUT: "since it came out of the fire",
    Moment.QUENCH: "since it went into the quench",
}
"""What the times of traces count from."""


def row_name(row: Row, units: Units) -> str:
    """What a row of figures is, with its unit where that does not stand behind each."""
    unit = row.what.unit(units) or row.currency
    return f"{row.name}, {unit}" if unit else row.name


def row_texts(row: Row, units: Units) -> Iterator[tuple[str, bool]]:
    """A row's figures as they are printed, "-" where there is none, each with whether it differs."""
    for value, differs in zip(row.values, row.differs, strict=True):
        # None done, where others did some, is a figure; no time at all is none.
        is_count = row.what is What.COUNT and value is not None
        text = str(value) if is_count else "" if value is None else value_text(row.what, value, units, unit=False)
        yield text or "-", differs


def what_differs(parts: Sequence[Part], units: Units) -> str:
    """What the star behind a figure of these means."""
    kinds = {row.what for part in parts for row in part.rows}
    return f"{DIFFERS} {from_when_on(LETTERS[0], kinds, units)}"


def skin_text(laid: Laid | None, at: float, units: Units) -> str:
    """The skin so long after the moment [s]: "1187", "~1190" where it is modelled; empty where nobody knew it."""
    found = None if laid is None else laid.at(at)
    if found is None:
        return ""
    kelvin, basis = found
    return f"{'~' if basis is Basis.MODELLED else ''}{units.degrees(kelvin)}"


def letters_without(found: Sequence[object]) -> list[str]:
    """The letters of the sittings that have no such heat or step: that have None in their place."""
    return _letters_with(found, None)


def part_title(part: Part, units: Units) -> str:
    """What stands above the figures of a step, or of the sittings as a whole: "Set the weld (weld)", and what others
    call it: "Set the weld (weld), in B: Close the weld"."""
    if part.kind is None:
        return TOTALS_HEADING
    others = dict.fromkeys(title for title in part.titles if title != part.title)
    called = [f", in {' and '.join(_letters_with(part.titles, title))}: {in_units(title, units)}" for title in others]
    return f"{in_units(part.title, units)} ({part.kind.value}){''.join(called)}"


def _letters_with(found: Sequence[object], one: object) -> list[str]:
    """The letters of the sittings that have this in their place."""
    return [letter for letter, its in zip(LETTERS, found, strict=False) if its == one]
