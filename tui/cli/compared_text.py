"""Sittings beside one another as text: what `log compare` prints."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import wrap
from typing import Final

from plans.logbook import KeptSitting
from plans.logbook.comparing import (
    DIFFERS,
    LETTERS,
    SINCE,
    Laid,
    Moment,
    Part,
    Row,
    letters_without,
    part_title,
    row_name,
    row_texts,
    skin_text,
    what_differs,
)
from plans.prose import in_units
from plans.shown import show_clock
from plans.text import printable
from plans.units import Units
from tui.cli.sitting_text import table

WIDTH: Final = 80
"""Columns that a line may take."""
_EVERY: Final = (1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 1800, 3600)
_MOST_ROWS: Final = 15


def compared_text(sittings: Sequence[KeptSitting], parts: Sequence[Part], units: Units) -> str:
    """The figures of sittings beside one another, those marked that differ from the first."""
    return "\n".join(map(printable, _lines(sittings, parts, units)))


def laid_text(first: KeptSitting, laid: Sequence[Laid | None], moment: Moment, units: Units) -> str:
    """The traces of one heat of each sitting beside one another; the first sitting has such a heat."""
    return "\n".join(map(printable, _laid_lines(first, laid, moment, units)))


def _lines(sittings: Sequence[KeptSitting], parts: Sequence[Part], units: Units) -> Iterator[str]:
    for letter, kept in zip(LETTERS, sittings, strict=False):
        about = [kept.header.id, in_units(kept.called, units)]
        about += [kept.outcome.short] if kept.outcome is not None and kept.outcome.short else []
        yield from wrap(f"{letter}  {'; '.join(about)}", WIDTH, subsequent_indent="   ")
    # One table, so that columns stand below one another from part to part.
    heading, *rows = table(["", *LETTERS[: len(sittings)]], [_cells(row, units) for part in parts for row in part.rows])
    yield ""
    yield heading
    for part in parts:
        if part.kind is not None:
            yield ""
            yield from wrap(part_title(part, units), WIDTH)
        yield from rows[: len(part.rows)]
        del rows[: len(part.rows)]
    yield ""
    yield from wrap(what_differs(parts, units), WIDTH, subsequent_indent="  ")


def _cells(row: Row, units: Units) -> list[str]:
    texts = row_texts(row, units)
    return [f"  {row_name(row, units)}", *(f"{text} {DIFFERS if differs else ' '}" for text, differs in texts)]


def _laid_lines(first: KeptSitting, laid: Sequence[Laid | None], moment: Moment, units: Units) -> Iterator[str]:
    shown = laid[0]
    assert shown is not None, "the first has the heat"
    titles = {step.step: step.title for step in (() if first.figures is None else first.figures.steps)}
    yield from wrap(
        f"The skin in {units.degree}, heat {shown.heat} of {in_units(titles.get(shown.step, 'the step'), units)}, "
        f"{SINCE[moment]}",
        WIDTH,
    )
    longest = max(one.seconds for one in laid if one is not None)
    every = next((step for step in _EVERY if longest / step < _MOST_ROWS), _EVERY[-1])
    moments = [float(number * every) for number in range(int(longest / every) + 1)]
    rows = [[show_clock(at), *(skin_text(one, at, units) for one in laid)] for at in moments]
    yield from table(["  after", *LETTERS[: len(laid)]], [[f"  {row[0]}", *row[1:]] for row in rows])
    yield from wrap("~ modelled; else measured by a probe on the work", WIDTH)
    if missing := letters_without(laid):
        yield f"without such a heat: {', '.join(missing)}"
