"""One line of text, asked for at the foot of the screen."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from plans.errors import PlansError
from plans.text import plain

_ROWS = 3
"""Rows that the sheet takes, without those that say what may be written."""


class LineInput(Input):
    """A line; of what is pasted the beginning goes in, as far as there is room, and the rest is counted."""

    left_out = 0
    """How many characters that were pasted found no room."""

    def __init__(self, value: str, longest: int, *, chosen: bool = False) -> None:
        self._longest = longest  # asked for as soon as there is a value
        super().__init__(value, max_length=longest, select_on_focus=chosen)
        self.cursor_position = len(value)

    def on_paste(self, event: events.Paste) -> None:
        # What Input does by itself: take the first line, and nothing at all where that is too long.
        event.prevent_default()
        event.stop()
        room = self._longest - len(self.value) + len(self.selected_text)
        text = plain(event.text)
        before = 0 if self.selected_text else self.left_out
        self.left_out = before + max(0, len(text.rstrip()) - room)
        self.replace(text[:room], *self.selection)
        if self.is_full:  # it may have been so before, and tell of no change
            self.post_message(self.Changed(self, self.value))

    @property
    def is_full(self) -> bool:
        """Whether there is no room for more."""
        return len(self.value) >= self._longest

    def watch_value(self) -> None:
        if not self.is_full:
            # What was pasted is not what stands here any more.
            self.left_out = 0


def as_typed(text: str, left_out: int) -> str:
    """The line as it was typed, without blanks around it, whatever found no room."""
    del left_out
    return plain(text).strip()


class LineScreen(ModalScreen[str | None]):
    """Asks for a line, and stays until it can be read; None when it was given up, or left empty.

    Args:
        title: what is asked for
        value: what stands there to begin with
        longest: how many characters it may have
        below: how many rows of what it stands over are left to be seen below it, if there is room
        hint: what may be written, in a few words before the keys
        legend: what may be written, where that takes rows of its own
        example: a line as it may be, which is seen while there is none
        may_be_empty: whether an empty line is an answer, which is an empty text
        chosen: whether what stands there is chosen, so that the first letter typed takes its place
        read: the answer, of what was typed and of how many characters that were pasted found no room; a `PlansError`
            says why there is none, and the line stands there to be mended
    """

    DEFAULT_CSS: ClassVar[str] = """
    LineScreen { align: center bottom; background: $background 30%; }
    LineScreen #sheet { height: auto; background: $surface; padding: 0 1 1 1; }
    LineScreen #legend { height: auto; }
    LineScreen Input, LineScreen Input:focus { border: none; height: 1; padding: 0; background: $panel; }
    """

    def __init__(
        self,
        title: str,
        value: str = "",
        longest: int = 200,
        below: int = 0,
        hint: str = "",
        *,
        legend: str = "",
        example: str = "",
        may_be_empty: bool = False,
        chosen: bool = False,
        read: Callable[[str, int], str] = as_typed,
    ) -> None:
        super().__init__()
        self._title, self._value, self._longest, self._below, self._hint = title, value, longest, below, hint
        self._legend, self._example = legend, example
        self._may_be_empty, self._chosen, self._read = may_be_empty, chosen, read

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet") as sheet:
            room = self.app.size.height - _ROWS - len(self._legend.splitlines())
            sheet.styles.margin = (0, 0, max(0, min(self._below, room)), 0)
            yield Static(id="told")
            legend = Static(Content(self._legend), id="legend")
            legend.display = bool(self._legend)
            yield legend
            line = LineInput(self._value, self._longest, chosen=self._chosen)
            line.placeholder = self._example
            yield line

    def on_mount(self) -> None:
        self._tell()

    def on_input_changed(self) -> None:
        self._tell()

    def _tell(self) -> None:
        """Say what the keys do, or how much of a line that is too long will be kept."""
        line = self.query_one(LineInput)
        keys = f"{self._hint}enter keeps it, esc lets it be"
        if line.is_full:
            left_out = f"; {line.left_out} more are left out" if line.left_out else ""
            keys = f"it is full: {self._longest} characters{left_out}; {keys}"
        self.query_one("#told", Static).update(Content.assemble((plain(self._title), "bold $accent"), f"   {keys}"))

    def on_input_submitted(self, message: Input.Submitted) -> None:
        """Answer with the line, or say in the legend's place why it is none."""
        message.stop()
        if not as_typed(message.value, 0):
            self.dismiss("" if self._may_be_empty else None)
            return
        try:
            self.dismiss(self._read(message.value, self.query_one(LineInput).left_out))
        except PlansError as error:
            legend = self.query_one("#legend", Static)
            legend.update(Content.styled(plain(str(error)), "$error"))
            legend.display = True

    def key_escape(self, event: events.Key) -> None:
        """Close it without an answer; the screen below, once on top again, would else take the key as its own."""
        event.stop()
        event.prevent_default()
        self.dismiss(None)
