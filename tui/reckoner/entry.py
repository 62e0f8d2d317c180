"""The one line that is typed into: it lies over the field that has the cursor."""

from __future__ import annotations

import asyncio
from contextlib import suppress
from typing import ClassVar

from textual import events
from textual.binding import Binding
from textual.widgets import Input

_PATIENCE = 0.5
"""What has not been typed after this is not waited for [s]."""


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

    def __init__(self) -> None:
        # What is wrong is found out when it is answered.
        super().__init__(compact=True, select_on_focus=False, validate_on=())

    async def on_key(self, event: events.Key) -> None:
        if (action := self._EDITS.get(event.key)) is not None:
            event.stop()
            await self.run_action(action)

    def on_mouse_down(self, event: events.MouseDown) -> None:
        event.stop()  # those that it lies over are not pressed

    def on_mouse_up(self, event: events.MouseUp) -> None:
        event.stop()

    async def typed_out(self) -> None:
        """Wait until all that was typed so far stands in the line."""
        typed = asyncio.Event()
        if self.call_later(typed.set):
            with suppress(TimeoutError):
                await asyncio.wait_for(typed.wait(), _PATIENCE)

    def lay(self, text: str, *, at_end: bool) -> None:
        """Lie over another text, with the cursor at its end or at its beginning."""
        with self.prevent(Input.Changed):  # by nobody: it is another field
            self.value = text
        self.cursor_position = len(text) if at_end else 0
