"""A question with a few answers, each a key."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from plans.text import plain

Answer = tuple[str, str, str]
"""What it is called inside, its key, and what it says."""


class Question(ModalScreen[str | None]):
    """Asks; answers with what the answer is called inside, or None for none."""

    DEFAULT_CSS = """
    Question { align: center middle; background: $background 60%; }
    Question #sheet { width: auto; max-width: 90%; height: auto; background: $surface; padding: 1 2; }
    Question #asked { width: auto; max-width: 70; margin-bottom: 1; text-style: bold; }
    Question OptionList { width: auto; min-width: 40; height: auto; border: none; padding: 0; background: $surface; }
    """

    def __init__(self, asked: str, answers: Sequence[Answer]) -> None:
        super().__init__()
        self._asked, self._answers = asked, answers

    def compose(self) -> ComposeResult:
        options = [
            Option(Content.assemble((f" {key} ", "bold $accent"), " ", plain(text), "  "), id=name)
            for name, key, text in self._answers
        ]
        with Vertical(id="sheet"):
            yield Static(Content(plain(self._asked)), id="asked")
            yield OptionList(*options, markup=False)

    def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        self.dismiss(message.option.id)

    def key_escape(self) -> None:
        self.dismiss(None)

    def on_key(self, event: events.Key) -> None:
        for name, key, _ in self._answers:
            if event.character == key:
                # Or the screen below, once on top again, would take the key as its own.
                event.stop()
                event.prevent_default()
                self.dismiss(name)
                return
