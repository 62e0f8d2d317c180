"""A line of text that is read from three metres: letters two cells wide and three rows tall, or larger."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby, product

from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

from plans.text import plain
from tui.widgets.cached_drawing import CachedDrawing, Shown
from tui.widgets.painting import Picture, fine_pair
from tui.widgets.plain import clip, fill

Wordings = tuple[str, ...]
"""The same thing said in full, then ever shorter."""


class BigLine(CachedDrawing):
    """A text at each end in large letters, a small word before them and small lines after them.

    Where there is too little room, both are said shorter, and then written small.
    """

    DEFAULT_CSS = "BigLine { width: 1fr; height: 3; padding: 0 1; }"

    lead: Shown[str] = Shown("")
    left: Shown[Wordings] = Shown(())
    right: Shown[Wordings] = Shown(())
    aside: Shown[tuple[str, ...]] = Shown(())

    def __init__(self, *, blocks: bool = False, id: str | None = None) -> None:
        """A line; with `blocks` without quarter blocks, which not every terminal has."""
        super().__init__(id=id)
        self._blocks = blocks

    def show(
        self, left: Sequence[str], right: Sequence[str] = (), *, lead: str = "", aside: Sequence[str] = ()
    ) -> None:
        """Show texts, all of them taken for untrusted.

        Args:
            left: what begins the line: in full, then ever shorter
            right: what ends it, likewise
            lead: a small word before it
            aside: small lines at the end, from the top; those that there are no rows for are left out
        """
        self.left, self.right = tuple(map(plain, left)), tuple(map(plain, right))
        self.lead, self.aside = plain(lead), tuple(text for text in map(plain, aside) if text)

    @property
    def says_all(self) -> bool:
        """Whether what begins the line is said in full, large or small."""
        found = self._picture(*self.size)
        return found is None or found[0] == self.left[0]

    def draw(self, width: int, height: int) -> Sequence[Strip]:
        style, found = self.look(), self._picture(width, height)
        if found is None:
            return self._written(width, height, style)
        picture, (before, beside) = found[1], self._taken()
        strips = []
        for at, row in enumerate((*picture, *[" " * len(picture[0])] * (height - len(picture)))):
            # Beside the middle of the letters, whose foot ends half a row above that of the line.
            lead = Segment(fill(self.lead if at == len(picture) // 2 else "", before), style + _PLAIN)
            aside = self.aside[at] if at < len(self.aside) else ""
            end = Segment(" " * (beside - cell_len(aside)) + aside, style)
            strips.append(Strip([part for part in (lead, *letters(row, style), end) if part.text], width))
        return strips

    def _taken(self) -> tuple[int, int]:
        """Cells that the small texts take before and after the large ones."""
        aside = max(map(cell_len, self.aside), default=0)
        return cell_len(self.lead) + bool(self.lead), aside + 2 * bool(aside)

    def _picture(self, width: int, height: int) -> tuple[str, Picture] | None:
        """The fullest wordings that fit in large letters: what begins the line, and the picture of it all."""
        if height < _LEAST or not self.left:
            return None
        room = width - sum(self._taken())
        worded = product(enumerate(self.left), enumerate(self.right or ("",)))
        for (_, left), (_, right) in sorted(worded, key=lambda pair: pair[0][0] + pair[1][0]):
            for quarters in (False,) if self._blocks else (False, True):
                # A degree is a ring: what has four letters when it is written has one cell here.
                texts = (text.replace(" deg", " °") for text in (left, right))
                picture = fine_pair(*texts, room, height, quarters=quarters)
                if picture is not None:
                    return left, picture
        return None

    def _written(self, width: int, height: int, style: Style) -> list[Strip]:
        """The same in small letters, in the middle row."""
        left = " ".join(text for text in (self.lead, *self.left[:1]) if text)
        right = "   ".join(text for text in (*self.right[:1], *reversed(self.aside)) if text)
        room = max(0, width - cell_len(right) - 2 * bool(right))
        text = fill(left, room) + "  " + right if right and room >= min(_KEPT, cell_len(left)) else clip(left, width)
        blank = Strip.blank(width, style)
        above = max(0, height - 1) // 2
        return [blank] * above + [Strip([Segment(fill(text, width), style)], width)] + [blank] * (height - above - 1)


_LEAST = 3
"""Rows that large letters need."""
_KEPT = 8
"""Cells of the left text that are kept before the right one gives way."""
_PLAIN = Style(bold=False)


def letters(row: str, style: Style) -> list[Segment]:
    """A row of large letters; full blocks as ink on ink, so that fonts show no seams."""
    solid = Style(color=style.color, bgcolor=style.color)
    return [Segment("".join(run), solid if is_ink else style) for is_ink, run in groupby(row, "█".__eq__)]
