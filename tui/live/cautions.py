"""The cautions of a plan, before the first fire; read once a sitting."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from math import inf
from time import monotonic
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.events import Key
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

from plans.plan import Plan
from plans.prose import in_units
from plans.sitting import Word, first_of_all, for_plan
from plans.text import plain
from plans.units import Units
from tui.screens import Sheet, host_of
from tui.widgets import KeyLine

_LEAVING = ("q", "escape")
_SEEN = 4.0
"""How long they stand though a rehearsal's smith has read them [s]."""


class CautionsScreen(Sheet):
    """Gives way to the sitting when the smith has read them all, or the sitting hears so otherwise, as from a
    rehearsal's smith. Where they are read before the sitting runs, it waits for that.

    Args:
        plan: whose cautions they are
    """

    HEARS = True
    """See `tui.terminal.one_by_one`: when all has been read, keys are for the screen that comes."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space,enter", "close", show=False),
        Binding(",".join(_LEAVING), "leave", show=False),
    ]
    DEFAULT_CSS = """
    CautionsScreen { background: $background; }
    /* Whether it is scrolled or not, its lines end in the same place, and need not be laid out twice. */
    CautionsScreen #list { scrollbar-gutter: stable; }
    CautionsScreen #first { text-style: bold; margin-bottom: 1; }
    CautionsScreen.-low #sheet { width: 100%; height: 100%; padding: 0 1; }
    CautionsScreen.-low #title, CautionsScreen.-low #first { display: none; }
    CautionsScreen.-low KeyLine { margin-top: 0; }
    """

    def __init__(self, plan: Plan) -> None:
        super().__init__()
        self.plan = plan
        """Whose cautions they are."""
        self._make_sitting: Callable[[], Screen[None]] | None = None
        self._opened_at = 0.0
        self._stands_since = inf
        """By the clock that keys are timed by [s]."""

    def heading(self) -> Iterable[Widget]:
        """Make the title and the caution that comes before all others."""
        title = Static(Content.styled("Before the first fire", "bold $accent"), id="title")
        return title, Static(Content(plain(first_of_all())), id="first")

    def reading(self) -> Iterable[Widget]:
        """Make the list of cautions that this plan needs, which scrolls."""
        # On a screen too low for it above the list, what comes first of all heads the list.
        units = host_of(self).settings.units
        return Static(Content(plain(first_of_all())), id="first-again"), Static(cautions_text(self.plan, units))

    def on_mount(self) -> None:
        self._opened_at = host_of(self).clock()
        self._fit()  # before the first paint
        self._stands_since = monotonic()
        self.call_after_refresh(self.show_keys)
        self.set_interval(0.25, self.look)

    def look(self) -> None:
        """Nobody need press a key here once the sitting knows; but it stands long enough to be seen."""
        app = host_of(self)
        acknowledged = app.running is not None and app.running.sitting.state.acknowledged_at is not None
        if acknowledged and app.clock() - self._opened_at >= _SEEN:
            self._close()

    def give_way_to(self, make_sitting: Callable[[], Screen[None]]) -> None:
        """The sitting runs: give way to its screen when all has been read, or at once where that was so already.

        Args:
            make_sitting: makes the screen that comes after them
        """
        self._make_sitting = make_sitting
        if not self.HEARS:
            self._close()

    def _close(self) -> None:
        if self._make_sitting is None:
            self.HEARS = False
            self.show_keys()
        elif self.is_current:
            self.app.switch_screen(self._make_sitting())

    @property
    def _all_seen(self) -> bool:
        # Before it is laid out there is nothing to scroll, and nothing has been seen.
        return self.list.size.height > 0 and self.list.scroll_offset.y >= self.list.max_scroll_y

    def show_keys(self) -> None:
        """Say at the foot what space does: it pages on until all has been seen."""
        if not self.HEARS:
            self.query_one(KeyLine).show([("...", "the sitting is being begun", "close")])
            return
        says = "all read" if self._all_seen else "read on"
        keys = [("space", says, "close"), ("↓ ↑", "scroll", "scroll(5)"), ("q", "leave", "leave")]
        self.query_one(KeyLine).show(keys)

    def on_resize(self) -> None:
        self._fit()
        self.call_after_refresh(self.show_keys)

    def _fit(self) -> None:
        low = self.app.size.height < 14
        self.set_class(low, "-low")
        self.query_one("#first-again").display = low

    def on_key(self, event: Key) -> None:
        """What was typed before the first of it stood there reads nothing, be it a key that is still held."""
        if event.time < self._stands_since and event.key not in _LEAVING:
            event.stop()
            return
        super().on_key(event)

    def action_close(self) -> None:
        """Page on until all has been seen; only then it counts as read. A key that is held pages but once."""
        if not (self.HEARS and host_of(self).presses.counts("next")):
            return
        if not self._all_seen:
            self.action_scroll(max(1, self.list.size.height - 1))
            return
        host_of(self).say(Word.ACKNOWLEDGE, sure=True)
        self._close()

    def action_scroll(self, lines: int) -> None:
        super().action_scroll(lines)
        self.call_after_refresh(self.show_keys)

    def action_leave(self) -> None:
        from tui.live.leave import ask_to_leave

        ask_to_leave(host_of(self))


def cautions_text(plan: Plan, units: Units) -> Content:
    """Each caution under what it is about."""
    lines = []
    for caution in for_plan(plan):
        about, text = (plain(in_units(part, units)) for part in (caution.about, caution.text))
        lines.append(Content.assemble((about, "bold"), "  ", text))
    return Content("\n\n").join(lines)
