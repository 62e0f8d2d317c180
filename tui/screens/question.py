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

from plans.record import record
from plans.text import plain
from tui.screens.host import host_of, says_next
from tui.widgets import Choices

_SHARE, _BESIDE = 90, 4
"""What the sheet has of the screen's width at most [%], and what of that is left empty [cells]."""
_LOW = 14
"""Below so many rows the sheet has all the room."""
_LEAST, _WIDEST = 40, 70
"""The least that the answers have, and the most that the question has, where there is room [cells]."""
_NARROWEST = 8
"""So much they have on any screen: a list can't be laid out in no columns [cells]."""


@record
class Choice:
    """One answer that can be given to a question."""

    name: str
    """What it is called in the program; the question answers with it."""
    key: str
    """The key that gives it, one character."""
    text: str
    """What it says on the screen."""


class QuestionScreen(ModalScreen[str | None]):
    """Asks, and answers with the `name` of the choice that was taken; None where none was.

    Args:
        asked: the question
        choices: the answers to it; enter, space and the pedal take the chosen one, which is the first to begin with
    """

    DEFAULT_CSS = """
    QuestionScreen { align: center middle; background: $background 60%; }
    QuestionScreen #sheet { width: auto; max-width: 90%; height: auto; background: $surface; padding: 1 2; }
    QuestionScreen #asked { width: auto; margin-bottom: 1; text-style: bold; }
    QuestionScreen.-low #sheet { max-width: 100%; max-height: 100%; padding: 0 1; }
    QuestionScreen.-low #asked { margin-bottom: 0; }
    QuestionScreen OptionList { width: auto; height: auto; border: none; padding: 0; background: $surface; }
    """

    def __init__(self, asked: str, choices: Sequence[Choice]) -> None:
        super().__init__()
        self._asked, self._choices = asked, choices

    def compose(self) -> ComposeResult:
        options = [
            Option(Content.assemble((f" {one.key} ", "bold $accent"), " ", plain(one.text), "  "), id=one.name)
            for one in self._choices
        ]
        with Vertical(id="sheet"):
            yield Static(Content(plain(self._asked)), id="asked")
            yield Choices(*options, markup=False)

    def on_resize(self) -> None:
        # A width that goes by the text is no share of the sheet's: what is too long for the sheet would be cut.
        low = self.app.size.height < _LOW
        self.set_class(low, "-low")
        room = self.app.size.width - 2 if low else self.app.size.width * _SHARE // 100 - _BESIDE
        room = max(_NARROWEST, room)
        self.query_one("#asked").styles.max_width = min(_WIDEST, room)
        answers = self.query_one(OptionList)
        answers.styles.min_width, answers.styles.max_width = min(_LEAST, room), room

    def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        self.dismiss(message.option.id)

    def key_escape(self, event: events.Key) -> None:
        """Close it without an answer."""
        event.stop()
        event.prevent_default()
        self.dismiss(None)

    def on_key(self, event: events.Key) -> None:
        """Take the key of an answer."""
        for one in self._choices:
            if event.character == one.key:
                # Or the screen below, once on top again, would take the key as its own.
                event.stop()
                event.prevent_default()
                self.dismiss(one.name)
                return
        if says_next(host_of(self), event.key):
            event.stop()
            event.prevent_default()
            self.query_one(OptionList).action_select()
