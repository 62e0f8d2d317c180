"""What is on the screen while something is read. It is the first paint: nothing heavy is imported here."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from tui.running import First, Maker, Reckoner, RunRequest, Shelf


class OpeningScreen(Screen[None]):
    """The name of the program, and what it is doing before there is more to see.

    It hears nothing: what is typed meanwhile waits where it came in, for the screen that comes.

    Args:
        first: what is being opened
    """

    HEARS: ClassVar[bool] = False
    """See `tui.terminal.one_by_one`."""
    DEFAULT_CSS = """
    OpeningScreen { align: center middle; }
    OpeningScreen Static { width: auto; text-align: center; }
    OpeningScreen #doing { color: $text-muted; padding-top: 1; }
    """

    def __init__(self, first: First) -> None:
        super().__init__()
        self._first = first

    def compose(self) -> ComposeResult:
        """Name above, and below it what is going on."""
        yield Static(Content.styled("heatbook", "bold $accent"))
        yield Static(Content(f"{_doing(self._first)} ..."), id="doing")


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
        case Maker():
            return "opening the maker"
        case _:
            return "opening the logbook"
