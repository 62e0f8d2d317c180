"""Messages on a screen that has rows for them, where they cover nothing."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.screen import Screen
from textual.timer import Timer
from textual.widget import Widget
from textual.widgets import Static

from plans.text import plain

_STANDS = 12.0
"""How long a message stands that tells of nothing wrong [s]."""
_MOST = 4
"""So many messages stand at once; older ones go."""


class Told(Widget):
    """The rows of messages, none while nothing is told; what is wrong stands until the screen is left."""

    DEFAULT_CSS = """
    Told { height: auto; max-height: 40%; display: none; background: $panel; padding: 0 1; overflow: hidden auto; }
    Told.wrong { border-left: outer $warning; }
    Told Static { height: auto; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._lines: list[tuple[str, bool]] = []
        self._timer: Timer | None = None

    def compose(self) -> ComposeResult:
        yield Static(markup=False)

    @property
    def text(self) -> str:
        """All that is told now, a line a message; empty where nothing is."""
        return "\n".join(text for text, _ in self._lines)

    def tell(self, text: str, wrong: bool) -> None:
        """Show a message more, the newest first.

        Args:
            text: what it says
            wrong: whether something has to be mended, so that it stands
        """
        line = (plain(text), wrong)
        self._lines = [line, *(other for other in self._lines if other != line)][:_MOST]
        if not wrong:
            if self._timer is not None:
                self._timer.stop()
            self._timer = self.set_timer(_STANDS, self._forget)
        self._show()

    def _forget(self) -> None:
        self._lines = [line for line in self._lines if line[1]]
        self._show()

    def _show(self) -> None:
        self.display = bool(self._lines)
        self.set_class(any(wrong for _, wrong in self._lines), "wrong")
        self.query_one(Static).update(self.text)


class TellingScreen(Screen[None]):
    """A screen that has a `Told` in it."""

    def tell(self, text: str, wrong: bool) -> None:
        """Show a message where it covers nothing; see `Told.tell`."""
        self.query_one(Told).tell(text, wrong)
