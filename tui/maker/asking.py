"""One line that is asked for: what a plan's file is called, after how many heats a step is split."""

from __future__ import annotations

from textual import events
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from plans.text import plain

_LONGEST = 60


class LineInput(Input):
    """One line; of what is pasted as much goes in as there is room for."""

    def on_paste(self, event: events.Paste) -> None:
        event.prevent_default()
        event.stop()
        self.replace(plain(event.text)[: _LONGEST - len(self.value) + len(self.selected_text)], *self.selection)


class LineScreen(ModalScreen[str | None]):
    """Asks for a line; None when it was left empty or given up.

    Args:
        asked: the question
        text: what stands in the line to begin with, all of it chosen
        told: what is to be known about it
    """

    DEFAULT_CSS = """
    LineScreen { align: center bottom; background: $background 30%; }
    LineScreen #sheet { height: auto; background: $surface; padding: 0 1 1 1; }
    LineScreen Static { height: auto; }
    LineScreen Input, LineScreen Input:focus { border: none; height: 1; padding: 0; background: $panel; }
    """

    def __init__(self, asked: str, text: str, told: str = "") -> None:
        super().__init__()
        self._asked, self._text, self._told = asked, text, told

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet"):
            yield Static(Content.assemble((plain(self._asked), "bold $accent"), "   enter takes it, esc lets it be"))
            if self._told:
                yield Static(Content.styled(plain(self._told), "$text-muted"))
            yield LineInput(self._text, max_length=_LONGEST)

    def on_mount(self) -> None:
        self.query_one(Input).focus()

    def on_input_submitted(self, message: Input.Submitted) -> None:
        message.stop()
        self.dismiss(plain(message.value).strip() or None)

    def key_escape(self, event: events.Key) -> None:
        """Close it without an answer; the screen below, once on top again, would else take the key as its own."""
        event.stop()
        event.prevent_default()
        self.dismiss(None)
