"""One line for the log."""

from __future__ import annotations

from textual import events
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from plans.sitting import LONGEST_NOTE, Word, note_text
from plans.text import plain
from tui.screens import Host

_ROWS = 3
"""Rows that the sheet takes."""


class NoteInput(Input):
    """A line for a note; of what is pasted the beginning goes in, as far as there is room, and the rest is counted."""

    left_out = 0
    """How many characters that were pasted found no room."""

    def __init__(self) -> None:
        super().__init__(max_length=LONGEST_NOTE)

    def on_paste(self, event: events.Paste) -> None:
        # What Input does by itself: take the first line, and nothing at all where that is too long.
        event.prevent_default()
        event.stop()
        room = LONGEST_NOTE - len(self.value) + len(self.selected_text)
        text = plain(event.text)
        before = 0 if self.selected_text else self.left_out
        self.left_out = before + max(0, len(text.rstrip()) - room)
        self.replace(text[:room], *self.selection)
        if self.is_full:  # it may have been so before, and tell of no change
            self.post_message(self.Changed(self, self.value))

    @property
    def is_full(self) -> bool:
        """Whether there is no room for more."""
        return len(self.value) >= LONGEST_NOTE

    def watch_value(self) -> None:
        if not self.is_full:
            # What was pasted is not what stands here any more.
            self.left_out = 0


class NoteScreen(ModalScreen[str | None]):
    """Asks for a line; None when it was left empty or given up.

    Args:
        below: how many rows of what it stands over are left to be seen below it
    """

    DEFAULT_CSS = """
    NoteScreen { align: center bottom; background: $background 30%; }
    NoteScreen #sheet { height: auto; background: $surface; padding: 0 1 1 1; }
    NoteScreen Input, NoteScreen Input:focus { border: none; height: 1; padding: 0; background: $panel; }
    """

    def __init__(self, below: int = 0) -> None:
        super().__init__()
        self._below = below

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet") as sheet:
            sheet.styles.margin = (0, 0, self._below, 0)
            yield Static(id="told")
            yield NoteInput()

    def on_mount(self) -> None:
        self._tell()

    def on_input_changed(self) -> None:
        self._tell()

    def _tell(self) -> None:
        """Say what the keys do, or how much of a note that is too long will be kept."""
        line = self.query_one(NoteInput)
        keys = "enter keeps it, esc lets it be"
        if line.is_full:
            left_out = f"; {line.left_out} more are left out" if line.left_out else ""
            keys = f"it is full: {LONGEST_NOTE} characters{left_out}; {keys}"
        self.query_one("#told", Static).update(Content.assemble(("Note", "bold $accent"), f"   {keys}"))

    def on_input_submitted(self, message: Input.Submitted) -> None:
        self.dismiss(note_text(message.value, self.query_one(NoteInput).left_out) or None)

    def key_escape(self) -> None:
        self.dismiss(None)


def ask_note(app: Host) -> None:
    """Ask for a note and log it."""

    def answered(text: str | None) -> None:
        # Where the log can't be written, whatever is said has been answered so.
        if text is not None and app.say(Word.NOTE, text) and app.running and app.running.logged.trouble is None:
            app.say_aside("noted")

    # A warning that the log can't be written is not to be covered, not even in part.
    warnings = [one for one in app.screen.query("#trouble") if one.display]
    below = app.screen.size.height - warnings[0].region.y if warnings else 0
    app.push_screen(NoteScreen(min(below, app.screen.size.height - _ROWS)), answered)
