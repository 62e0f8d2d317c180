"""What is on the screen while something is read."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from plans.text import plain


class OpeningScreen(Screen[None]):
    """The name of the program, and what is going on."""

    DEFAULT_CSS = """
    OpeningScreen { align: center middle; }
    OpeningScreen Static { width: auto; text-align: center; }
    OpeningScreen #doing { color: $text-muted; padding-top: 1; }
    """

    def __init__(self, doing: str) -> None:
        super().__init__()
        self._doing = doing

    def compose(self) -> ComposeResult:
        yield Static(Content.styled("heatbook", "bold $accent"))
        yield Static(Content(f"{plain(self._doing)} ..."), id="doing")
