"""What is on the screen while something is read. It is the first paint: nothing heavy is imported here."""

from __future__ import annotations

from textual import events
from textual.app import ComposeResult
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from tui.running import First, Reckoner, RunRequest, Shelf


class OpeningScreen(Screen[None]):
    """The name of the program, and what it is doing before there is more to see.

    What is typed meanwhile is kept for the screen that comes.

    Args:
        first: what is being opened
    """

    DEFAULT_CSS = """
    OpeningScreen { align: center middle; }
    OpeningScreen Static { width: auto; text-align: center; }
    OpeningScreen #doing { color: $text-muted; padding-top: 1; }
    """

    def __init__(self, first: First) -> None:
        super().__init__()
        self._first = first
        self._typed: list[events.Key | events.Paste] = []

    def compose(self) -> ComposeResult:
        """Name above, and below it what is going on."""
        yield Static(Content.styled("heatbook", "bold $accent"))
        yield Static(Content(f"{_doing(self._first)} ..."), id="doing")

    def on_key(self, event: events.Key) -> None:
        """Keep it; only a key to leave at once is obeyed before this is asked."""
        event.stop()
        self._typed.append(events.Key(event.key, event.character))

    def on_paste(self, event: events.Paste) -> None:
        """Keep it."""
        event.stop()
        self._typed.append(events.Paste(event.text))

    def on_screen_suspend(self) -> None:
        """Another screen stands there now; once it has the focus it is typed to."""
        self.app.call_after_refresh(self._hand_on)

    def _hand_on(self) -> None:
        typed, self._typed = self._typed, []
        for event in typed:
            self.app.post_message(event)


def _doing(first: First) -> str:
    match first:
        case RunRequest(go_on=None):
            return "reading the plan"
        case RunRequest():
            return "taking the sitting up again"
        case Shelf():
            return "reading the shelf"
        case Reckoner():
            return "opening the reckoner"
        case _:
            return "opening the logbook"
