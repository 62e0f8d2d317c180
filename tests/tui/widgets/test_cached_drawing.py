from __future__ import annotations

from typing import Any

from rich.segment import Segment
from textual.reactive import reactive
from textual.strip import Strip

from tui.widgets.cached_drawing import CachedDrawing


class Counting(CachedDrawing):
    """Says how often it was drawn."""

    word: reactive[str] = reactive("a")

    def __init__(self) -> None:
        super().__init__()
        self.drawings = 0

    def draw(self, width: int, height: int) -> list[Strip]:
        self.drawings += 1
        return [Strip([Segment(self.word * width, self.rich_style)], width)] * height


async def test_it_is_drawn_once_for_all_its_lines(stage: Any, lines: Any) -> None:
    widget = Counting()
    async with stage(widget, (10, 5)):
        before = widget.drawings
        lines(widget)
        lines(widget)
        assert widget.drawings == before


async def test_it_is_drawn_again_after_each_kind_of_change(stage: Any, lines: Any) -> None:
    widget = Counting()
    async with stage(widget, (10, 5)) as pilot:
        widget.word = "b"
        await pilot.pause()
        assert lines(widget)[0].text == "b" * 10
        await pilot.resize_terminal(12, 4)
        await pilot.pause()
        assert [strip.text for strip in lines(widget)] == ["b" * 12] * 4
        before = lines(widget)[0]
        widget.styles.color = "#123456"
        await pilot.pause()
        assert lines(widget)[0] != before
        before = lines(widget)[0]
        pilot.app.theme = "textual-light"
        await pilot.pause()
        assert lines(widget)[0] != before
