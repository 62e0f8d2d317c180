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
_LOW, _LOWEST = 30, 14
"""Below so many rows what comes first of all heads the list, and the list has all the room; below fewer even the
title's."""
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
    CautionsScreen.-low #first, CautionsScreen.-lowest #title { display: none; }
    CautionsScreen.-low #first-again { text-style: bold; margin-bottom: 1; }
    CautionsScreen.-lowest KeyLine { margin-top: 0; }
    """

    def __init__(self, plan: Plan) -> None:
        super().__init__()
        self.plan = plan
        """Whose cautions they are."""
        self._make_sitting: Callable[[], Screen[None]] | None = None
        self._opened_at = 0.0
        self._stands_since = inf
        """Since when that stands there which is to be read, by the clock that keys are timed by [s]."""
        self._seen_to = 0
        """How many lines have been seen, from the first on and with none left out."""
        self._laid_out_for: tuple[int, bool] = (0, False)
        """The columns of the screen, and whether what comes first of all heads the list."""

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
        self.watch(self.list, "scroll_y", self._moved, init=False)
        self._moved()
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

    def _moved(self) -> None:
        """Other lines come to stand there, and what was typed before does not read them."""
        self._stands_since = monotonic()
        self.call_after_refresh(self._stand)

    def _stand(self) -> None:
        """Lines stand there, and are seen; what was scrolled past is not."""
        top = self.list.scroll_offset.y
        if top <= self._seen_to:
            self._seen_to = max(self._seen_to, top + self.list.size.height)
        self.show_keys()

    @property
    def _all_seen(self) -> bool:
        # Before it is laid out there is nothing to scroll, and nothing has been seen.
        return self._seen_to > 0 and self._seen_to >= self.list.max_scroll_y + self.list.size.height

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
        laid_out_for = self.app.size.width, self.app.size.height < _LOW
        if laid_out_for != self._laid_out_for:
            # Laid out anew, each line stands elsewhere.
            self._laid_out_for, self._seen_to = laid_out_for, 0
            self.list.scroll_home(animate=False, immediate=True)
        self._moved()

    def _fit(self) -> None:
        height = self.app.size.height
        self.set_class(height < _LOW, "-low")
        self.set_class(height < _LOWEST, "-lowest")
        self.query_one("#first-again").display = height < _LOW

    def on_key(self, event: Key) -> None:
        """What was typed before that stood there which it is to read reads nothing, be it a key that is still held."""
        if event.time < self._stands_since and event.key not in _LEAVING:
            event.stop()
            event.prevent_default()  # or the sheet would hear it all the same

    def action_close(self) -> None:
        """Page on until all has been seen; only then it counts as read. A key that is held pages but once."""
        host_of(self).presses.briskly(self._read, self.set_timer)

    def _read(self) -> None:
        if not (self.HEARS and self.is_current):
            return
        if not self._all_seen:
            self.list.scroll_to(y=max(0, self._seen_to - 1), animate=False, immediate=True)
            return
        host_of(self).presses.counts("next")  # the same key says that on the screen that comes
        host_of(self).say(Word.ACKNOWLEDGE, sure=True)
        self._close()

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
