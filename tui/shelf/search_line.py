"""The line on the shelf that is searched by."""

from __future__ import annotations

from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.widgets import Input, Static

from plans.text import plain

_LONGEST = 60
"""No plan has a longer word that one would type."""


class SearchInput(Input):
    """What is looked for; the arrows move along what is found."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(key, f"screen.along('{action}')", show=False)
        for key, action in (
            ("down", "cursor_down"),
            ("up", "cursor_up"),
            ("pagedown", "page_down"),
            ("pageup", "page_up"),
        )
    ]

    def on_paste(self, event: events.Paste) -> None:
        event.prevent_default()
        event.stop()
        self.insert_text_at_cursor(plain(event.text)[: _LONGEST - len(self.value)])


class SearchLine(Horizontal):
    """The line that is searched by, with what it looks through while nothing has been typed."""

    DEFAULT_CSS = """
    SearchLine { height: 1; background: $panel; padding: 0 1; }
    SearchLine Static { width: auto; color: $accent; text-style: bold; }
    SearchLine Input, SearchLine Input:focus { border: none; height: 1; padding: 0; background: $panel; width: 1fr; }
    """

    def compose(self) -> ComposeResult:
        yield Static("find  ")
        yield SearchInput(placeholder="title, steel, step ...", max_length=_LONGEST)

    @property
    def text(self) -> str:
        """What is looked for."""
        return self.query_one(SearchInput).value

    def begin(self) -> None:
        """Show the line, empty, and take the keys."""
        self.display = True
        line = self.query_one(SearchInput)
        line.value = ""
        line.focus()
