"""Sittings beside one another as text: what `log compare` prints."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import wrap
from typing import Final

from plans.logbook import KeptSitting
from plans.logbook.comparing import TOLD_APART, Laid, Moment, Part, Row
from plans.logbook.lines import What, value_text
from plans.prose import in_units
from plans.shown import show_clock
from plans.sitting import Basis
from plans.text import printable
from plans.units import Units
from tui.cli.sitting_text import table

LETTERS: Final = "ABCDE"
"""What stands for each sitting; more do not fit beside one another."""
WIDTH: Final = 80
"""Columns that a line may take."""
_EVERY: Final = (1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 1800, 3600)
_MOST_ROWS: Final = 15
_AT: Final = {
    Moment.FIRE: "since it went into the fire",
    Moment.OUT: "since it came out of the fire",
    Moment.QUENCH: "since it went into the quench",
}


def compared_text(sittings: Sequence[KeptSitting], parts: Sequence[Part], units: Units) -> str:
    """The figures of sittings beside one another, those marked that differ from the first."""
    return "\n".join(map(printable, _lines(sittings, parts, units)))


def laid_text(first: KeptSitting, laid: Sequence[Laid | None], moment: Moment, units: Units) -> str:
    """The traces of one heat of each sitting beside one another; the first sitting has such a heat."""
    return "\n".join(map(printable, _laid_lines(first, laid, moment, units)))


def _lines(sittings: Sequence[KeptSitting], parts: Sequence[Part], units: Units) -> Iterator[str]:
    for letter, kept in zip(LETTERS, sittings, strict=False):
        about = [kept.header.id, in_units(kept.header.title, units)]
        about += [kept.outcome.short] if kept.outcome is not None and kept.outcome.short else []
        yield from wrap(f"{letter}  {'; '.join(about)}", WIDTH, subsequent_indent="   ")
    # One table, so that columns stand below one another from part to part.
    heading, *rows = table(["", *LETTERS[: len(sittings)]], [_cells(row, units) for part in parts for row in part.rows])
    yield ""
    yield heading
    for part in parts:
        if part.kind is not None:
            yield ""
            yield from wrap(f"{in_units(part.title, units)} ({part.kind.value})", WIDTH)
        yield from rows[: len(part.rows)]
        del rows[: len(part.rows)]
    yield ""
    yield from wrap(
        "* differs from A by more than can be told: a count at all; a time by more than a tenth of the longer and 5 s, "
        f"too cold 1 s; a temperature by more than {units.difference(TOLD_APART)}, as two thermocouples may",
        WIDTH,
        subsequent_indent="  ",
    )


def _cells(row: Row, units: Units) -> list[str]:
    name = f"  {row.name}, {units.degree}" if row.what is What.TEMPERATURE else f"  {row.name}"
    texts = [_value(row.what, value, units) for value in row.values]
    marked = zip(texts, row.differs, strict=True)
    return [name, *(f"{text or '-'} {'*' if differs else ' '}" for text, differs in marked)]


def _value(what: What, value: float | None, units: Units) -> str:
    if value is None:
        return ""
    return str(value) if what is What.COUNT else value_text(what, value, units, unit=False)


def _laid_lines(first: KeptSitting, laid: Sequence[Laid | None], moment: Moment, units: Units) -> Iterator[str]:
    shown = laid[0]
    assert shown is not None, "the first has the heat"
    titles = {step.step: step.title for step in (() if first.figures is None else first.figures.steps)}
    yield from wrap(
        f"The skin in {units.degree}, heat {shown.heat} of {in_units(titles.get(shown.step, 'the step'), units)}, "
        f"{_AT[moment]}",
        WIDTH,
    )
    longest = max(one.seconds for one in laid if one is not None)
    every = next((step for step in _EVERY if longest / step < _MOST_ROWS), _EVERY[-1])
    moments = [float(number * every) for number in range(int(longest / every) + 1)]
    rows = [[show_clock(at), *(_skin(one, at, units) for one in laid)] for at in moments]
    yield from table(["  after", *LETTERS[: len(laid)]], [[f"  {row[0]}", *row[1:]] for row in rows])
    yield from wrap("~ modelled; else measured by a probe on the work", WIDTH)
    missing = [letter for letter, one in zip(LETTERS, laid, strict=False) if one is None]
    if missing:
        yield f"without such a heat: {', '.join(missing)}"


def _skin(laid: Laid | None, at: float, units: Units) -> str:
    found = None if laid is None else laid.at(at)
    if found is None:
        return ""
    kelvin, basis = found
    return f"{'~' if basis is Basis.MODELLED else ''}{units.degrees(kelvin)}"
