"""The one line that is typed into: it lies over the field that has the cursor."""

from __future__ import annotations

import asyncio
from contextlib import suppress
from typing import ClassVar

from textual import events
from textual.binding import Binding
from textual.geometry import Region
from textual.widgets import Input
from textual.widgets.input import Selection

_PATIENCE = 0.5
"""What has not come after this is not waited for [s]."""


class Entry(Input):
    """Textual's line, which obeys the keys of editing in the order in which they and the letters were typed.

    Left to the bindings, such a key makes its way up to the app, and by then the line may lie over another field.
    """

    _EDITS: ClassVar[dict[str, str]] = {
        key: binding.action
        for binding in Input.BINDINGS
        if isinstance(binding, Binding) and binding.action != "submit"
        for key in binding.key.split(",")
    }

    def __init__(self, text: str) -> None:
        # What is wrong is found out when it is answered.
        super().__init__(text, compact=True, select_on_focus=False, validate_on=())
        self._laid_out = asyncio.Event()

    def on_resize(self) -> None:
        at = self.cursor_screen_offset - self.content_region.offset + self.scroll_offset
        self.scroll_to_region(Region(*at, 1, 1), force=True, animate=False)
        self._laid_out.set()

    async def on_key(self, event: events.Key) -> None:
        if (action := self._EDITS.get(event.key)) is not None:
            event.stop()
            await self.run_action(action)

    def on_mouse_down(self, event: events.MouseDown) -> None:
        event.stop()  # those that it lies over are not pressed

    def on_mouse_up(self, event: events.MouseUp) -> None:
        event.stop()

    async def laid_out(self) -> None:
        """Wait until it has a width, without which it can't tell how far its text is scrolled."""
        await _within_reason(self._laid_out)

    async def typed_out(self) -> None:
        """Wait until all that was typed so far stands in the line."""
        typed = asyncio.Event()
        if self.call_later(typed.set):
            await _within_reason(typed)

    def lay(self, text: str, *, chosen: bool) -> None:
        """Lie over another text: all of it chosen, so that what is typed takes its place, or the cursor before it."""
        with self.prevent(Input.Changed):  # by nobody: it is another field
            self.value = text
        self.selection = Selection(0, len(text) if chosen else 0)


async def _within_reason(event: asyncio.Event) -> None:
    with suppress(TimeoutError):
        await asyncio.wait_for(event.wait(), _PATIENCE)
