"""What was asked for, large: each figure under its name, with its range and its basis below."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import ClassVar

from rich.segment import Segment
from textual.strip import Strip

from plans.reckoner import Fact, Figure, Reckoning
from plans.record import record
from plans.text import plain
from plans.units import Units
from tui.widgets import CachedDrawing, Shown, drawn_figure, drawn_word, fill, letters

_ROWS_EACH = 6
"""Rows that a figure takes with its name and its range, so that it is read from two metres."""
_ROWS_OF_WORD = 3
"""Rows of one word more, where each needs a line of its own."""
_MOST_ROWS = 12
"""Rows of which one figure has enough, however much room there is."""


@record
class Asked:
    """One figure of an answer, or a fact in a word or two, as it is shown."""

    label: str
    """Its name, above it."""
    figure: str
    """The figure, or the words."""
    unit: str
    """Its unit, small beside it; empty for words."""
    more: str
    """Its range and its basis, below it, or why there is none."""
    is_word: bool
    """Whether letters make it up, which may go on several lines."""

    @classmethod
    def of(cls, one: Figure | Fact, units: Units) -> Asked:
        """How one part of an answer is shown in these units."""
        large = one.large(units)
        known = ", ".join(part for part in (one.range_text(units), one.stands_on) if part)
        more = known or one.notes(units)[0]
        return cls(plain(one.label), large.figure, large.unit, plain(more), isinstance(one, Fact))

    @property
    def rows(self) -> int:
        """Rows that it takes."""
        words = len(self.figure.split()) if self.is_word else 1
        return _ROWS_EACH + _ROWS_OF_WORD * (words - 1)


class Headline(CachedDrawing):
    """The answer of a reckoning: one to three figures, one below the other."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"headline--label", "headline--large", "headline--more"}
    DEFAULT_CSS = """
    Headline { width: 1fr; height: 1fr; }
    Headline > .headline--label { color: $accent; text-style: bold; }
    Headline > .headline--large { text-style: bold; }
    Headline > .headline--more { color: $text-muted; }
    """

    asked: Shown[tuple[Asked, ...]] = Shown(())
    whose: Shown[str] = Shown("")

    def show(self, found: Reckoning, units: Units, whose: str = "") -> None:
        """Show the answer of a reckoning; `whose` it is stands in a line above."""
        self.asked, self.whose = tuple(Asked.of(one, units) for one in found.answer), plain(whose)

    @property
    def rows_needed(self) -> int:
        """Rows that it takes to be read from two metres."""
        return sum(one.rows for one in self.asked) + bool(self.whose)

    def draw(self, width: int, height: int) -> Sequence[Strip]:
        strips = [self._line(self.whose, "headline--large", width)] if self.whose else []
        for one, rows in self.placed(height):
            strips += self._drawn(one, width, rows)
        return [*strips, *[Strip.blank(width, self.look())] * height][:height]

    def placed(self, height: int) -> Iterator[tuple[Asked, int]]:
        """Each part, and the rows that it has of so many for all."""
        room, whole, before = height - bool(self.whose), sum(one.rows for one in self.asked), 0
        for one in self.asked:
            end = before + one.rows
            yield one, min(_MOST_ROWS, room * end // whole - room * before // whole)
            before = end

    def _drawn(self, one: Asked, width: int, rows: int) -> list[Strip]:
        label, more = self._line(one.label, "headline--label", width), self._line(one.more, "headline--more", width)
        return [label, *self._large(one, width, max(1, rows - 2)), more][:rows]

    def _large(self, one: Asked, width: int, rows: int) -> list[Strip]:
        """At the left, in the middle of its rows."""
        drawn = (
            drawn_word(one.figure, width, rows) if one.is_word else drawn_figure(one.figure, one.unit, "", width, rows)
        )
        above = (rows - len(drawn.picture)) // 2
        below = rows - above - len(drawn.picture)
        texts = [*[""] * above, *drawn.picture[:-1], drawn.picture[-1] + drawn.foot, *[""] * below]
        return [Strip(letters(fill(text, width), self.look("headline--large")), width) for text in texts]

    def _line(self, text: str, look: str, width: int) -> Strip:
        return Strip([Segment(fill(text, width), self.look(look))], width)
