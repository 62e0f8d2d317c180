"""An answer of the reckoner as text: the figures first, then what each stands on."""

from __future__ import annotations

from collections.abc import Iterator

from textual.content import Content

from plans.reckoner import Fact, Figure, Reckoning
from plans.text import plain
from plans.units import Units
from tui.widgets import fill

_IN_COLUMNS_FROM = 64
"""Cells that a figure, its range and its basis need beside each other."""


def answer_text(found: Reckoning, width: int, units: Units) -> Content:
    """The whole answer, for so many cells; lines may be longer, and are broken where they are shown."""
    rows = _columns(found, units) if width >= _IN_COLUMNS_FROM else _stacked(found, units)
    notes = [Content.styled(plain(note), "$text-muted") for note in found.notes(units)]
    return Content("\n").join([*rows, Content(""), Content.styled(plain(found.asked(units)), "$text-muted"), *notes])


def _columns(found: Reckoning, units: Units) -> Iterator[Content]:
    rows = (*found.answer, *found.besides)
    labels = max(len(one.label) for one in rows) + 2
    texts = max(len(one.text(units)) for one in found.found if isinstance(one, Figure)) + 2
    for one in rows:
        label, text = fill(plain(one.label), labels), f"{plain(one.text(units))}  ".ljust(texts)
        more = ", ".join(part for part in (one.range_text(units), one.stands_on) if part)
        yield Content.assemble(label, (text, _style(one, found)), (more, "$text-muted"))


def _stacked(found: Reckoning, units: Units) -> Iterator[Content]:
    """For a narrow pane: a range stands below its figure."""
    for one in (*found.answer, *found.besides):
        between = one.range_text(units)
        text = (plain(one.text(units)), _style(one, found))
        yield Content.assemble(plain(one.label), "  ", text, ("" if between else f"  {one.stands_on}", "$text-muted"))
        if between:
            yield Content.styled(f"  {between}, {one.stands_on}", "$text-muted")


def _style(one: Figure | Fact, found: Reckoning) -> str:
    return "bold $accent" if one in found.answer else "bold"
