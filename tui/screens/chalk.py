"""The tally for the view from far away: strokes several rows tall, every fifth across the four."""

from __future__ import annotations

from rich.segment import Segment
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget


def chalk_lines(done: int, planned: int, current: bool, width: int, height: int) -> list[str]:
    """The strokes as `height` rows of `width` cells; the heat under way is half as tall, planned ones are dots."""
    columns: list[str] = []
    for heat in range(1, max(planned, done + current) + 1):
        columns.append("done" if heat <= done else "begun" if current and heat == done + 1 else "planned")
    rows = []
    for row in range(height):
        line = ""
        for index, kind in enumerate(columns):
            is_last_of_five = index % 5 == 4
            if is_last_of_five and kind == "done":
                # The stroke across the four before it, slanting from foot to head.
                line += "   "
                continue
            low = row >= height // 2
            ink = kind == "done" or (kind == "begun" and low)
            foot = row == height - 1
            line += "██ " if ink else "·  " if kind == "planned" and foot else "   "
            if index % 5 == 4:
                line += " "
        if row == height // 2:
            for five in range(done // 5):
                start = five * 16
                line = line[:start] + "█" * 14 + line[start + 14 :]
        rows.append(line.rstrip())
    widest = max(map(len, rows), default=0)
    if widest > width:
        return [""] * (height - 1) + [f"{done} of {planned}"[:width].center(width)]
    return [row.ljust(widest).center(width) for row in rows]


class ChalkTally(Widget):
    """The tally, as large as the widget."""

    DEFAULT_CSS = "ChalkTally { width: 1fr; height: 3; color: $foreground; display: none; }"

    counts: reactive[tuple[int, int, bool]] = reactive((0, 0, False))
    """Done, planned, and whether one is under way."""

    def render_line(self, y: int) -> Strip:
        width, height = self.size
        lines = chalk_lines(*self.counts, width, height)
        return Strip([Segment(lines[y], self.rich_style)], width)
