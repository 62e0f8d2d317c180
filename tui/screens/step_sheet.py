"""All there is to read about the step, and the plan around it, where the live screen has no room at its side."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from plans.sitting.engine import Sitting
from tui import program
from tui.screens.lines import KeyLine
from tui.screens.step_text import side_text, step_list
from tui.widgets.plain import plain
from tui.widgets.steps import step_lines


class StepSheet(ModalScreen[None]):
    """Goes away by any of the keys that one would try."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("c,escape,q,space,enter", "close", show=False),
        Binding("down,j", "scroll(1)", show=False),
        Binding("up,k", "scroll(-1)", show=False),
        Binding("pagedown", "scroll(10)", show=False),
        Binding("pageup", "scroll(-10)", show=False),
    ]
    DEFAULT_CSS = """
    StepSheet { align: center middle; background: $background 60%; }
    StepSheet #sheet { width: 90%; max-width: 96; height: 90%; background: $surface; padding: 1 2; }
    StepSheet #title { text-style: bold; margin-bottom: 1; }
    StepSheet #list { height: 1fr; }
    StepSheet KeyLine { margin-top: 1; padding: 0; }
    """

    def __init__(self, sitting: Sitting) -> None:
        super().__init__()
        self._sitting = sitting

    def compose(self) -> ComposeResult:
        step = self._sitting.state.current_step
        with Vertical(id="sheet"):
            yield Static(Content(plain(step.title)), id="title")
            with VerticalScroll(id="list", can_focus=False):
                yield Static(side_text(step, _WIDTH))
                yield Static(self._plan_text())
            yield KeyLine()

    def on_mount(self) -> None:
        self.query_one(KeyLine).show([("c", "back to the sitting", "close"), ("↓ ↑", "more", "scroll(5)")])

    def _plan_text(self) -> Content:
        lines, current, working = step_list(self._sitting)
        blocks = program.app_of(self).settings.blocks
        texts = step_lines(lines, current, _WIDTH, len(lines), working=working, blocks=blocks)
        heading = Content.styled("\nThe plan", "bold $accent")
        return Content("\n").join(
            [heading, *(Content.styled(text.rstrip(), _STYLES.get(state, "")) for text, state in texts)]
        )

    def action_close(self) -> None:
        self.dismiss(None)

    def action_scroll(self, lines: int) -> None:
        self.query_one("#list").scroll_relative(y=lines, animate=False)

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)


_WIDTH = 60
"""Of the text, however wide the sheet is [cells]."""
_STYLES = {"done": "$text-muted", "current": "bold"}
