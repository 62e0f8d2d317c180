"""What was asked for, large: each figure under its name, with its range and its basis below."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.widgets import Static

from plans.reckoner import Fact, Figure, Reckoning
from plans.text import plain
from plans.units import Units
from tui.reckoner.large import Large
from tui.widgets import clip

_ROWS_EACH = 6
"""Rows that a figure takes with its name and its range, so that it is read from two metres."""
_ROWS_OF_WORD = 3
"""Rows of one word more, where each needs a line of its own."""
_MOST = 3


def rows_of(one: Figure | Fact) -> int:
    """Rows that one part of an answer takes."""
    words = len(one.large().figure.split()) if isinstance(one, Fact) else 1
    return _ROWS_EACH + _ROWS_OF_WORD * (words - 1)


class Headline(Vertical):
    """The answer of a reckoning: one to three figures, one below the other."""

    DEFAULT_CSS = """
    Headline { width: 1fr; height: 1fr; }
    Headline #whose { height: auto; max-height: 2; text-style: bold; }
    """

    def compose(self) -> ComposeResult:
        yield Static(id="whose", markup=False)
        for _ in range(_MOST):
            yield _Asked()

    def show(self, found: Reckoning, units: Units, whose: str = "") -> None:
        """Show the answer of a reckoning; `whose` it is stands in a line above."""
        above = self.query_one("#whose", Static)
        above.display = bool(whose)
        above.update(clip(plain(whose), self.size.width))
        answer = found.answer
        for place, asked in enumerate(self.query(_Asked)):
            asked.display = place < len(answer)
            if asked.display:
                asked.styles.height = f"{rows_of(answer[place])}fr"
                asked.show(answer[place], units)


class _Asked(Vertical):
    """One figure, or a fact in a word or two."""

    DEFAULT_CSS = """
    _Asked { max-height: 12; }
    _Asked .label { height: 1; color: $accent; text-style: bold; }
    _Asked .more { height: 1; color: $text-muted; }
    """

    def compose(self) -> ComposeResult:
        yield Static(classes="label", markup=False)
        yield Large()
        yield Static(classes="more", markup=False)

    def show(self, one: Figure | Fact, units: Units) -> None:
        """Show this one; where there is none, why."""
        large = one.large(units)
        self.query_one(Large).show(large.figure, large.unit, is_word=isinstance(one, Fact))
        known = ", ".join(part for part in (one.range_text(units), one.basis) if part)
        self.query_one(".label", Static).update(plain(one.label))
        self.query_one(".more", Static).update(plain(known or one.notes(units)[0]))
