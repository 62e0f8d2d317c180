"""The line over a list that is searched by."""

from __future__ import annotations

from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.widgets import Input

from plans.text import plain

_LONGEST = 200
"""Characters of what is looked for; several figures with their units have some hundred."""


class SearchLine(Input):
    """What is looked for; the arrows move along what is found.

    Args:
        placeholder: what stands there while nothing has been typed
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(key, f"screen.along('{action}')", show=False)
        for key, action in (
            ("down", "cursor_down"),
            ("up", "cursor_up"),
            ("pagedown", "page_down"),
            ("pageup", "page_up"),
        )
    ]
    DEFAULT_CSS = """
    SearchLine, SearchLine:focus { border: none; height: 1; padding: 0 3; background: $panel; }
    """

    def __init__(self, placeholder: str) -> None:
        super().__init__(placeholder=placeholder, max_length=_LONGEST)

    def begin(self) -> None:
        """Show the line, empty, and take the keys."""
        self.display = True
        self.value = ""
        self.screen.set_focus(self)  # at once; `focus` leaves the next key to whatever has had it

    def on_paste(self, event: events.Paste) -> None:
        # What Input does by itself: take the first line, and nothing at all where that is too long.
        event.prevent_default()
        event.stop()
        self.insert_text_at_cursor(plain(event.text)[: _LONGEST - len(self.value)])
