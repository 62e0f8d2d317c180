"""Every key, and what it does."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from tui.actions import Place, of, shown_key
from tui.program import DOUBLE, app_of
from tui.screens.lines import KeyLine

_HEADINGS = {
    Place.SITTING: "While a sitting runs",
    Place.FINISHED: "When it is finished",
    Place.SHELF: "On the shelf",
    Place.LOG: "In the log",
    Place.REVIEW: "Looking at a sitting",
    Place.ANYWHERE: "Anywhere",
}


class HelpScreen(ModalScreen[None]):
    """Goes away by any of the keys that one would try."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("question_mark,escape,q,space,enter", "close", show=False),
        Binding("down,j", "scroll(1)", show=False),
        Binding("up,k", "scroll(-1)", show=False),
        Binding("pagedown", "scroll(10)", show=False),
        Binding("pageup", "scroll(-10)", show=False),
    ]
    DEFAULT_CSS = """
    HelpScreen { align: center middle; background: $background 60%; }
    HelpScreen #sheet { width: 90%; max-width: 84; height: 90%; background: $surface; padding: 1 2; }
    HelpScreen #list { height: 1fr; }
    HelpScreen KeyLine { margin-top: 1; padding: 0; }
    """

    def __init__(self, place: Place | None) -> None:
        super().__init__()
        self._place = place

    def compose(self) -> ComposeResult:
        app = app_of(self)
        with Vertical(id="sheet"):
            with VerticalScroll(id="list", can_focus=False):
                yield Static(help_text(self._place, app.settings.keys, str(app.folders.configuration)))
            yield KeyLine()

    def on_mount(self) -> None:
        self.query_one(KeyLine).show([("?", "close", "close"), ("↓ ↑", "more", "scroll(5)")])

    def action_close(self) -> None:
        self.dismiss(None)

    def action_scroll(self, lines: int) -> None:
        self.query_one("#list").scroll_relative(y=lines, animate=False)

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)


def help_text(place: Place | None, keys: Mapping[str, str], file: str) -> Content:
    """All keys, those of the screen that it was asked from first; `file` is where keys can be moved."""
    places = sorted(_HEADINGS, key=lambda other: other is not place)
    lines: list[Content] = []
    for heading in places:
        lines.append(Content.styled(_HEADINGS[heading], "bold $accent"))
        for action in of(heading):
            key = shown_key(action, keys)
            lines.append(Content.assemble((f"  {key:<6}", "bold"), "  ", action.help))
        if heading is Place.ANYWHERE:
            lines.append(Content.assemble(("  ctrl+c", "bold"), "  leave at once, with the log whole"))
        lines.append(Content(""))
    lines += [
        Content(f"The same word twice within {DOUBLE:g} s counts once: a glove or a pedal may bounce."),
        Content("All the keys at the foot of a screen can be clicked."),
        Content(f"To move a key, name its action in {file}:"),
        Content('  [keys]\n  next = "enter"'),
        Content("The actions: " + ", ".join(action.id for heading in places for action in of(heading))),
    ]
    return Content("\n").join(lines)
