"""The one line that is typed into: it lies over the field that has the cursor."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
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

    Over a field whose text is one of a few words it is not typed into: the arrows turn to the next word or the one
    before, a letter to the next that begins with it, and what deletes takes the word away.
    """

    _EDITS: ClassVar[dict[str, str]] = {
        key: binding.action
        for binding in Input.BINDINGS
        if isinstance(binding, Binding) and binding.action != "submit"
        for key in binding.key.split(",")
    }
    _TURNS: ClassVar[dict[str, int]] = {"right": 1, "space": 1, "left": -1}
    _TAKES_AWAY: ClassVar[frozenset[str]] = frozenset({"backspace", "delete"})

    def __init__(self, text: str) -> None:
        # What is wrong is found out when it is answered.
        super().__init__(text, compact=True, select_on_focus=False, validate_on=())
        self._laid_out = asyncio.Event()
        self._words: tuple[str, ...] = ()
        """The words of which its text is one; none where it may be any."""
        self._just_come = False
        """Whether its text is chosen since the cursor came here, and not by who types."""

    def on_resize(self) -> None:
        at = self.cursor_screen_offset - self.content_region.offset + self.scroll_offset
        self.scroll_to_region(Region(*at, 1, 1), force=True, animate=False)
        self._laid_out.set()

    async def on_key(self, event: events.Key) -> None:
        if self._words:
            self._turn(event)
        elif (action := self._EDITS.get(event.key)) is not None:
            event.stop()
            if self._just_come and action == "delete_left":
                # Whoever comes back to take a letter away means one, though a letter typed takes the place of all.
                self.cursor_position = len(self.value)
            await self.run_action(action)
        self._just_come = False

    def _turn(self, event: events.Key) -> None:
        """Obey a key over a word of a few; a key that means nothing there goes on."""
        if event.key in self._TAKES_AWAY:
            word = ""
        elif (steps := self._TURNS.get(event.key)) is not None:
            there = self.value or self.placeholder  # what is taken without a word is turned from as well
            at = self._words.index(there) if there in self._words else 0 if steps < 0 else -1
            word = self._words[(at + steps) % len(self._words)]
        elif event.is_printable and event.character is not None:
            at = self._words.index(self.value) + 1 if self.value in self._words else 0
            turned = (*self._words[at:], *self._words[:at])
            word = next((one for one in turned if one.startswith(event.character.lower())), self.value)
        else:
            return
        event.stop()
        event.prevent_default()
        self.value = word
        self.selection = Selection(0, len(word))

    def on_paste(self, event: events.Paste) -> None:
        if self._words:
            event.stop()
            event.prevent_default()

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

    def lay(self, text: str, *, chosen: bool, words: Sequence[str] = ()) -> None:
        """Lie over another text: all of it chosen, so that what is typed takes its place, or the cursor before it.

        Args:
            text: what stands there
            chosen: whether all of it is chosen
            words: the words of which it is one; none where any text may be typed
        """
        self._words = tuple(words)
        with self.prevent(Input.Changed):  # by nobody: it is another field
            self.value = text
        self.selection = Selection(0, len(text) if chosen or words else 0)
        self._just_come = chosen


async def _within_reason(event: asyncio.Event) -> None:
    with suppress(TimeoutError):
        await asyncio.wait_for(event.wait(), _PATIENCE)
