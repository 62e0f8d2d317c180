from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest
from rich.segment import Segment
from textual.app import App, ComposeResult
from textual.geometry import Region
from textual.strip import Strip

from tui.widgets.cached_drawing import CachedDrawing, Shown
from tui.widgets.still import StillColumn


class Counting(CachedDrawing):
    """Says how often it was drawn."""

    word: Shown[str] = Shown("a")

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


async def test_what_changes_with_a_style_that_is_the_same_after_all_is_shown(stage: Any) -> None:
    widget = Counting()
    async with stage(widget, (10, 5)) as pilot:
        widget.notify_style_update()
        widget.word = "b"
        await pilot.pause()
        assert widget.render_line(0).text == "b" * 10
        assert {strip.text for strip in pilot.app.screen._compositor.render_strips()} == {"b" * 10}


class Rows(CachedDrawing):
    """A letter a row, and how often it was drawn."""

    DEFAULT_CSS = "Rows { height: 4; padding: 1 2; }"

    letters: Shown[str] = Shown("abcd")
    last: Shown[str] = Shown("")

    def __init__(self) -> None:
        super().__init__()
        self.drawings = 0

    def draw(self, width: int, height: int) -> list[Strip]:
        self.drawings += 1
        rows = (self.letters[:-1] + (self.last or self.letters[-1])).ljust(height)
        return [Strip([Segment(letter * width, self.look())], width) for letter in rows]


class Pair(App[None]):
    """Rows above a widget that says how often it was asked for its lines."""

    CSS = "Rows { height: 6; } Screen { layers: a; } Screen.far { scrollbar-size: 1 1; }"

    def __init__(self) -> None:
        super().__init__()
        self.rows, self.below = Rows(), Counting()
        self.sent: list[set[int]] = []

    def compose(self) -> ComposeResult:
        with StillColumn():
            yield self.rows
            yield self.below

    def _display(self, screen: Any, renderable: Any) -> None:
        """Note the rows of the terminal that are written."""
        if (spans := getattr(renderable, "spans", None)) is not None:
            self.sent.append({y for y, _, _ in spans})
        super()._display(screen, renderable)


async def test_only_rows_that_came_out_otherwise_are_painted() -> None:
    app = Pair()
    async with app.run_test(size=(20, 12)) as pilot:
        await pilot.pause()
        app.sent.clear()
        drawings = app.rows.drawings
        app.rows.letters, app.rows.last = "aXcd", "Y"
        await pilot.pause()
        await pilot.pause()
        # Inside the padding; once for both changes.
        assert app.sent == [{2, 4}]
        assert app.rows.drawings == drawings + 1
        assert shown(app)[1:5] == [f"  {letter * 16}  " for letter in "aXcY"]
        app.sent.clear()
        app.rows.letters = "aXcd"
        app.rows.last = "Z"
        app.rows.last = "Y"
        await pilot.pause()
        await pilot.pause()
        assert app.sent == []


async def test_what_changed_while_it_was_hidden_is_seen_when_it_comes_back() -> None:
    app = Pair()
    async with app.run_test(size=(20, 12)) as pilot:
        await pilot.pause()
        app.rows.display = False
        await pilot.pause()
        app.rows.letters = "wxyz"
        await pilot.pause()
        app.rows.display = True
        await pilot.pause()
        await pilot.pause()
        assert shown(app)[1:5] == [f"  {letter * 16}  " for letter in "wxyz"]


async def test_a_still_widget_that_is_drawn_over_comes_back() -> None:
    """What is moved, or laid under a background of another colour, is painted again."""
    app = Pair()
    async with app.run_test(size=(20, 12)) as pilot:
        await pilot.pause()
        before = app.below.render_lines(Region(0, 0, 20, 6))
        assert app.below.render_lines(Region(0, 0, 20, 6)) is before
        app.below.styles.background = "#123456"
        await pilot.pause()
        after = app.below.render_lines(Region(0, 0, 20, 6))
        assert after != before
        app.below.word = "b"
        await pilot.pause()
        assert app.below.render_lines(Region(0, 0, 20, 6))[0].text == "b" * 20
        app.rows.styles.height = 8
        await pilot.pause()
        assert shown(app)[8:] == ["b" * 20] * 4


def shown(app: App[None]) -> Sequence[str]:
    return [strip.text for strip in app.screen._compositor.render_strips()]


@pytest.mark.parametrize("order", ["value, styles", "styles, value", "class of the screen, value"])
async def test_what_changes_beside_its_styles_is_seen_and_so_is_what_changes_later(order: str) -> None:
    app = Pair()
    async with app.run_test(size=(20, 12)) as pilot:
        await pilot.pause()
        for letters in ("aXcd", "aXcY"):
            for what in order.split(", "):
                match what:
                    case "value":
                        app.rows.letters = letters
                    case "styles":
                        app.rows.notify_style_update()
                    case _:
                        app.screen.toggle_class("far")
            await pilot.pause()
            await pilot.pause()
            assert shown(app)[1:5] == [f"  {letter * 16}  " for letter in letters]


async def test_nothing_is_painted_for_styles_that_are_as_they_were() -> None:
    app = Pair()
    async with app.run_test(size=(20, 12)) as pilot:
        await pilot.pause()
        app.sent.clear()
        app.rows.notify_style_update()
        await pilot.pause()
        await pilot.pause()
        assert app.sent == []
