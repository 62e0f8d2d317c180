"""A widget on a screen of its own, at any size."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager

import pytest
from textual.app import App, ComposeResult
from textual.pilot import Pilot
from textual.strip import Strip
from textual.widget import Widget

Stage = Callable[..., AbstractAsyncContextManager[Pilot[None]]]
Lines = Callable[[Widget], list[Strip]]


class _StageApp(App[None]):
    """Nothing but the widget, as large as the screen."""

    CSS = "Screen > * { width: 1fr; height: 1fr; padding: 0; margin: 0; }"

    def __init__(self, widget: Widget) -> None:
        super().__init__()
        self._widget = widget

    def compose(self) -> ComposeResult:
        yield self._widget


@pytest.fixture
def stage() -> Stage:
    """`async with stage(widget, (80, 24)) as pilot:` shows a widget."""

    @asynccontextmanager
    async def show(widget: Widget, size: tuple[int, int]) -> AsyncIterator[Pilot[None]]:
        async with _StageApp(widget).run_test(size=size) as pilot:
            await pilot.pause()
            yield pilot

    return show


@pytest.fixture
def lines() -> Lines:
    """The strips that a widget draws now."""
    return lambda widget: [widget.render_line(y) for y in range(widget.size.height)]
