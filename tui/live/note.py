"""One line for the log."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from plans.sitting import LONGEST_NOTE, Word
from plans.text import plain
from tui.screens import Host


class NoteScreen(ModalScreen[str | None]):
    """Asks for a line; None when it was left empty or given up."""

    DEFAULT_CSS = """
    NoteScreen { align: center bottom; background: $background 30%; }
    NoteScreen #sheet { height: auto; background: $surface; padding: 0 1 1 1; }
    NoteScreen Input, NoteScreen Input:focus { border: none; height: 1; padding: 0; background: $panel; }
    """

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet"):
            yield Static(Content.assemble(("Note", "bold $accent"), "   enter keeps it, esc lets it be"))
            yield Input(max_length=LONGEST_NOTE)

    def on_input_submitted(self, message: Input.Submitted) -> None:
        self.dismiss(plain(message.value).strip() or None)

    def key_escape(self) -> None:
        self.dismiss(None)


def ask_note(app: Host) -> None:
    """Ask for a note and log it."""

    def answered(text: str | None) -> None:
        if text is not None and app.say(Word.NOTE, text):
            app.say_aside("noted")

    app.push_screen(NoteScreen(), answered)
