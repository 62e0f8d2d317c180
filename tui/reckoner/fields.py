"""The fields of one question, with what was typed into them; they stay while another question is looked at."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import VerticalScroll
from textual.widgets import Input, Static

from tui.reckoner.question import Question


class Entry(Input):
    """A field that obeys the keys of editing in the order in which they and the letters were typed.

    Left to the bindings, such a key makes its way up to the app, which asks the field that has the focus by then.
    """

    _EDITS: ClassVar[dict[str, str]] = {
        key: binding.action
        for binding in Input.BINDINGS
        if isinstance(binding, Binding) and binding.action != "submit"
        for key in binding.key.split(",")
    }

    async def on_key(self, event: events.Key) -> None:
        if (action := self._EDITS.get(event.key)) is not None:
            event.stop()
            await self.run_action(action)


class Fields(VerticalScroll, can_focus=False):
    """A row for each thing that can be given."""

    DEFAULT_CSS = """
    Fields { width: 30; height: 1fr; padding: 0 1; }
    Fields Static { position: absolute; width: 14; color: $text-muted; }
    Fields Entry { width: 1fr; margin-left: 14; background: $panel; }
    Fields Entry:focus { background: $block-cursor-background; }
    Fields Entry.wrong { color: $text-error; text-style: bold; }
    """

    def __init__(self, question: Question, typed: Mapping[str, str]) -> None:
        super().__init__(id=f"fields-{question.name}")
        self.question = question
        """Whose fields these are."""
        self._entries = {
            field.name: Entry(
                typed.get(field.name, ""),
                id=f"field-{field.name}",
                compact=True,
                select_on_focus=False,
                validate_on=(),  # what is wrong is found out when it is answered
            )
            for field in question.fields
        }

    def compose(self) -> ComposeResult:
        # All names are one text, beside the fields: a widget each, and one for each row, would take longer to come.
        yield Static("\n".join(self._entries), markup=False)
        yield from self._entries.values()

    @property
    def entries(self) -> tuple[Entry, ...]:
        """What can be typed into, from the top down."""
        return tuple(self._entries.values())

    @property
    def typed(self) -> dict[str, str]:
        """What stands in the fields, by their names."""
        return {name: entry.value for name, entry in self._entries.items()}

    def name_of(self, entry: object) -> str:
        """The name of the field that is typed into there; empty for what is none of these."""
        return next((name for name, one in self._entries.items() if one is entry), "")

    def blame(self, wrong: str) -> None:
        """Mark the field of this name as the one at fault, and no other."""
        for name, entry in self._entries.items():
            entry.set_class(name == wrong, "wrong")
