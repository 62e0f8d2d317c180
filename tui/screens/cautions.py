"""The cautions of a plan, before the first fire; read once a sitting."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from plans.plan import Plan
from plans.sitting.cautions import first_of_all, for_plan
from plans.sitting.events import Word
from tui import program
from tui.screens.lines import KeyLine
from tui.widgets.plain import plain

_SEEN = 4.0
"""How long they stand though a rehearsal's smith has read them [s]."""


class CautionsScreen(ModalScreen[None]):
    """Goes away when the smith says so, or when the sitting hears it otherwise, as from a rehearsal's smith."""

    BINDINGS = [  # noqa: RUF012 - Textual's own type
        Binding("space,enter", "acknowledge", show=False),
        Binding("down,j", "scroll(1)", show=False),
        Binding("up,k", "scroll(-1)", show=False),
        Binding("pagedown", "scroll(10)", show=False),
        Binding("pageup", "scroll(-10)", show=False),
        Binding("q,escape", "leave", show=False),
    ]
    DEFAULT_CSS = """
    CautionsScreen { align: center middle; background: $background 60%; }
    CautionsScreen #sheet { width: 90%; max-width: 100; height: 90%; background: $surface; padding: 1 2; }
    CautionsScreen #first { text-style: bold; margin-bottom: 1; }
    CautionsScreen #list { height: 1fr; }
    CautionsScreen KeyLine { margin-top: 1; padding: 0; }
    """

    def __init__(self, plan: Plan) -> None:
        super().__init__()
        self._plan = plan
        self._opened_at = 0.0

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet"):
            yield Static(Content.styled("Before the first fire", "bold $accent"))
            yield Static(Content(plain(first_of_all())), id="first")
            with VerticalScroll(id="list", can_focus=False):
                yield Static(cautions_text(self._plan))
            yield KeyLine()

    def on_mount(self) -> None:
        self._opened_at = program.app_of(self).clock()
        keys = [
            ("space", "read, and kept in mind", "acknowledge"),
            ("↓ ↑", "more", "scroll(5)"),
            ("q", "leave", "leave"),
        ]
        self.query_one(KeyLine).show(keys)
        self.set_interval(0.25, self.look)

    def look(self) -> None:
        """Nobody need press a key here once the sitting knows; but it stands long enough to be seen."""
        app = program.app_of(self)
        if app.attending is None or (
            app.attending.sitting.state.acknowledged_at is not None and app.clock() - self._opened_at >= _SEEN
        ):
            self._close()

    def _close(self) -> None:
        if self.is_current:
            self.dismiss(None)

    def action_acknowledge(self) -> None:
        program.app_of(self).say(Word.ACKNOWLEDGE, key="next")
        self._close()

    def action_scroll(self, lines: int) -> None:
        self.query_one("#list").scroll_relative(y=lines, animate=False)

    def action_leave(self) -> None:
        from tui.screens.leave import ask_to_leave

        ask_to_leave(program.app_of(self))

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)


def cautions_text(plan: Plan) -> Content:
    """Each caution under what it is about."""
    lines = []
    for caution in for_plan(plan):
        lines.append(Content.assemble((plain(caution.about), "bold"), "  ", plain(caution.text)))
    return Content("\n\n").join(lines)
