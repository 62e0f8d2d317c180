"""The tally for the view from far away: strokes several rows tall, every fifth across the four."""

from __future__ import annotations

from rich.segment import Segment
from textual.strip import Strip

from tui.widgets.cached_drawing import CachedDrawing, Shown


def chalk_lines(done: int, planned: int, current: bool, width: int, height: int) -> list[str]:
    """The strokes as `height` rows of `width` cells: the heat under way half as tall, those to come as dots."""
    kinds = ["done"] * done + ["begun"] * current
    kinds += ["planned"] * max(0, planned - len(kinds))
    fives = [_five(kinds[first : first + 5], height) for first in range(0, len(kinds), 5)]
    rows = ["   ".join(five[row] for five in fives) for row in range(height)]
    if max(map(len, rows), default=0) > width:
        rows = [""] * (height - 1) + [f"{done} of {planned}"[:width]]
    return [row.center(width) for row in rows]


def _five(kinds: list[str], height: int) -> list[str]:
    """Up to five strokes; the fifth goes across the four before it."""
    if kinds == ["done"] * 5:
        rows = [" ██ ██ ██ ██ "] * height
        rows[height // 2] = "█" * 13
        return rows
    rows = []
    for row in range(height):
        begun = "▄▄" if height == 1 else "██" if row > (height - 1) // 2 else "  "
        planned = "· " if row == height - 1 else "  "
        signs = {"done": "██", "begun": begun, "planned": planned}
        rows.append(" ".join(signs[kind] for kind in kinds))
    return rows


class ChalkTally(CachedDrawing):
    """The tally, as large as the widget."""

    DEFAULT_CSS = "ChalkTally { width: 1fr; height: 3; color: $foreground; display: none; }"

    counts: Shown[tuple[int, int, bool]] = Shown((0, 0, False))
    """Done, planned, and whether one is under way."""

    def draw(self, width: int, height: int) -> list[Strip]:
        style = self.look()
        return [Strip([Segment(line, style)], width) for line in chalk_lines(*self.counts, width, height)]
