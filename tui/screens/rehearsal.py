"""What stands before a rehearsal: what it is, and what one may do in it."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from plans.text import plain
from tui.actions import BY_ID, shown_key
from tui.screens.host import host_of, says_next
from tui.widgets import KeyLine, SplitLine

if TYPE_CHECKING:
    from collections.abc import Mapping

_STANDS = 20.0
"""So long it stands where nobody presses a key: who only watches gets to see something [s]."""


class RehearsalScreen(Screen[bool]):
    """Answers whether the rehearsal is to begin; by itself it does so after a while.

    Args:
        speed: of the rehearsal: its seconds in one second; None for as fast as it can
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space,enter", "begin", show=False),
        Binding("q,escape", "leave", show=False),
    ]
    DEFAULT_CSS = """
    RehearsalScreen #head { text-style: bold; background: $surface; }
    RehearsalScreen #all { height: 1fr; padding: 1 1 0 1; }
    RehearsalScreen #keys { background: $surface; }
    """

    def __init__(self, speed: float | None) -> None:
        super().__init__()
        self._speed = speed
        self._opened_at = 0.0

    def compose(self) -> ComposeResult:
        host = host_of(self)
        yield SplitLine(id="head")
        with VerticalScroll(id="all"):
            yield Static(rehearsal_text(self._speed, host.settings.keys, str(host.folders.rehearsals)))
        yield KeyLine(id="keys")

    def on_mount(self) -> None:
        self._opened_at = host_of(self).clock()
        next_ = shown_key(BY_ID["next"], host_of(self).settings.keys)
        self.query_one(KeyLine).show([(next_, "begin", "begin"), ("q", "leave", "leave")])
        self.look()
        self.set_interval(0.5, self.look)

    def look(self) -> None:
        """Begin without a key, once it has stood long enough to be read."""
        left = self._opened_at + _STANDS - host_of(self).clock()
        self.query_one("#head", SplitLine).show("A rehearsal", f"begins by itself in {max(0.0, left):.0f} s")
        if left <= 0:
            self._answer(True)

    def on_key(self, event: events.Key) -> None:
        """A key that says "next" begins, as space does."""
        if says_next(host_of(self), event.key):
            event.stop()
            self.action_begin()

    def action_begin(self) -> None:
        """Begin; a key that bounces is not the sitting's first word as well."""
        host_of(self).presses.counts("next")
        self._answer(True)

    def action_leave(self) -> None:
        """Let it be."""
        self._answer(False)

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)

    def _answer(self, begin: bool) -> None:
        if self.is_current:
            self.dismiss(begin)


def rehearsal_text(speed: float | None, keys: Mapping[str, str], folder: str) -> Content:
    """What a rehearsal is.

    Args:
        speed: its seconds in one second; None for as fast as it can
        keys: keys that were moved, by the action's id
        folder: where rehearsals are kept
    """
    pace = "as fast as this machine can" if speed is None else f"{speed:g} times as fast as the clock"
    rows = [
        ("watch", "the simulated smith says every word; he is not always quick"),
        (_key("next", keys), "or say his words yourself: in the fire, out, done; both may speak"),
        (f"{_key('faster', keys)} and {_key('slower', keys)}", "twice as fast, half as fast"),
        (_key("undo", keys), "take the last word back"),
        (_key("help", keys), "every key, and what the words on the screen mean"),
        (_key("leave", keys), "leave"),
    ]
    lines = [
        Content.styled("Nothing here is hot.", "bold $accent"),
        Content(
            f"Forge, bar, probe and smith are simulated, and go {pace}; long waits, as in an oven, go by in seconds. "
            "It begins at the first fire, oven or bath: what is done at the bench before it counts as done."
        ),
        Content(""),
        *(Content.assemble((f"  {key:<9}", "bold"), "  ", what) for key, what in rows),
        Content(""),
        Content(f"It is kept in {plain(folder)}, apart from your log. A real sitting begins with its cautions."),
    ]
    return Content("\n").join(lines)


def _key(action: str, keys: Mapping[str, str]) -> str:
    return shown_key(BY_ID[action], keys)
