"""One line for the log."""

from __future__ import annotations

from plans.sitting import LONGEST_NOTE, Word, note_text
from tui.screens import LINE_ROWS, Host, LineScreen


class NoteScreen(LineScreen):
    """Asks for a note; one that is too long says so at its end.

    Args:
        below: how many rows of what it stands over are left to be seen below it
    """

    def __init__(self, below: int = 0) -> None:
        super().__init__("Note", longest=LONGEST_NOTE, below=below)

    def said(self, text: str, left_out: int) -> str:
        """The note as it is logged."""
        return note_text(text, left_out)


def ask_note(app: Host) -> None:
    """Ask for a note and log it."""

    def answered(text: str | None) -> None:
        # Where the log can't be written, whatever is said has been answered so.
        if text is not None and app.say(Word.NOTE, text) and app.running and app.running.logged.trouble is None:
            app.say_aside("noted")

    # A warning that the log can't be written is not to be covered, not even in part.
    warnings = [one for one in app.screen.query("#trouble") if one.display]
    below = app.screen.size.height - warnings[0].region.y if warnings else 0
    app.push_screen(NoteScreen(min(below, app.screen.size.height - LINE_ROWS)), answered)
