"""One figure or word of an answer, as large as there is room."""

from __future__ import annotations

from collections.abc import Sequence

from textual.strip import Strip

from tui.widgets import CachedDrawing, Shown, drawn_figure, drawn_word, fill, letters


class Large(CachedDrawing):
    """A figure with its unit written small beside it, or a word or two; at the left of its room."""

    DEFAULT_CSS = "Large { width: 1fr; height: 1fr; text-style: bold; }"

    figure: Shown[str] = Shown("")
    unit: Shown[str] = Shown("")
    is_word: Shown[bool] = Shown(False)
    """Whether letters make it up, which may go on several lines."""

    def show(self, figure: str, unit: str = "", *, is_word: bool = False) -> None:
        """Show a figure, with its unit, or a word."""
        self.figure, self.unit, self.is_word = figure, unit, is_word

    def draw(self, width: int, height: int) -> Sequence[Strip]:
        style = self.look()
        drawn = (
            drawn_word(self.figure, width, height)
            if self.is_word
            else drawn_figure(self.figure, self.unit, "", width, height)
        )
        above = (height - len(drawn.picture)) // 2
        below = height - above - len(drawn.picture)
        rows = [*[""] * above, *drawn.picture[:-1], drawn.picture[-1] + drawn.foot, *[""] * below]
        return [Strip(letters(fill(row, width), style), width) for row in rows]
