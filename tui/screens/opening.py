"""What is on the screen before what was asked for is there. It is the first paint: nothing heavy is imported here."""

from __future__ import annotations

from typing import ClassVar, Self

from textual.content import Content
from textual.geometry import Region
from textual.screen import Screen
from textual.widgets import Static

from tui.running import First, Maker, Reckoner, RunRequest, Shelf

_LONG = 0.4
"""What has come by then comes without a word: to lay them out takes a tenth of the time until it does [s]."""


class OpeningScreen(Screen[None]):
    """Nothing at first; where it takes long, the name of the program, and what it is doing before there is more to see.

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

    def on_mount(self) -> None:
        self.set_timer(_LONG, self._say)

    def refresh(self, *regions: Region, repaint: bool = True, layout: bool = False, recompose: bool = False) -> Self:
        """Paint it anew; not while nothing stands on it, as Textual would a moment after it has come."""
        if self.children:
            super().refresh(*regions, repaint=repaint, layout=layout, recompose=recompose)
        return self

    async def _say(self) -> None:
        """Name above, and below it what is going on; nothing any more where another screen is there."""
        if self.is_current:
            doing = Static(Content(f"{_doing(self._first)} ..."), id="doing")
            await self.mount(Static(Content.styled("heatbook", "bold $accent")), doing)


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
