"""The cautions of a plan, before the first fire; read once a sitting."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.events import Key
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
    CautionsScreen.-low #sheet { width: 100%; height: 100%; padding: 0 1; }
    CautionsScreen.-low #title, CautionsScreen.-low #first { display: none; }
    CautionsScreen.-low KeyLine { margin-top: 0; }
    CautionsScreen #list { height: 1fr; }
    CautionsScreen KeyLine { margin-top: 1; padding: 0; }
    """

    def __init__(self, plan: Plan) -> None:
        super().__init__()
        self._plan = plan
        self._opened_at = 0.0

    def compose(self) -> ComposeResult:
        with Vertical(id="sheet"):
            yield Static(Content.styled("Before the first fire", "bold $accent"), id="title")
            yield Static(Content(plain(first_of_all())), id="first")
            with VerticalScroll(id="list", can_focus=False):
                # On a screen too low for it above the list, what comes first of all heads the list.
                yield Static(Content(plain(first_of_all())), id="first-again")
                yield Static(cautions_text(self._plan))
            yield KeyLine()

    def on_mount(self) -> None:
        self._opened_at = program.app_of(self).clock()
        self.call_after_refresh(self._show_keys)
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

    @property
    def _list(self) -> VerticalScroll:
        return self.query_one("#list", VerticalScroll)

    @property
    def _all_seen(self) -> bool:
        return self._list.scroll_offset.y >= self._list.max_scroll_y

    def _show_keys(self) -> None:
        says = "all read" if self._all_seen else "read on"
        self.query_one(KeyLine).show(
            [("space", says, "acknowledge"), ("↓ ↑", "scroll", "scroll(5)"), ("q", "leave", "leave")]
        )

    def on_resize(self) -> None:
        low = self.app.size.height < 14
        self.set_class(low, "-low")
        self.query_one("#first-again").display = low
        self.call_after_refresh(self._show_keys)

    def on_key(self, event: Key) -> None:
        """The key that says "next", be it a pedal, serves here too."""
        if event.key in key_names(program.app_of(self).settings.keys.get("next", "")):
            event.stop()
            self.action_acknowledge()

    def action_acknowledge(self) -> None:
        """Page on until all has been seen; only then it counts as read."""
        if not self._all_seen:
            self._list.scroll_relative(y=max(1, self._list.size.height - 1), animate=False)
            self.call_after_refresh(self._show_keys)
            return
        program.app_of(self).say(Word.ACKNOWLEDGE, key="next")
        self._close()

    def action_scroll(self, lines: int) -> None:
        self._list.scroll_relative(y=lines, animate=False)
        self.call_after_refresh(self._show_keys)

    def action_leave(self) -> None:
        from tui.screens.leave import ask_to_leave

        ask_to_leave(program.app_of(self))

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)


def key_names(keys: str) -> frozenset[str]:
    """The keys of a setting, as Textual calls them."""
    return frozenset(filter(None, map(str.strip, keys.split(","))))


def cautions_text(plan: Plan) -> Content:
    """Each caution under what it is about."""
    lines = []
    for caution in for_plan(plan):
        lines.append(Content.assemble((plain(caution.about), "bold"), "  ", plain(caution.text)))
    return Content("\n\n").join(lines)
