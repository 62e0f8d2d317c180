"""One sitting that was kept: its curve, its heats, its calls and notes, in one list to walk along."""

from __future__ import annotations

import asyncio
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import Screen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from plans.errors import PlansError
from plans.logbook import KeptSitting, as_said_before
from plans.prose import in_units
from plans.shown import show_clock
from plans.text import clean, plain
from plans.warmth import screen_glow
from tui.actions import BY_ID, Place, bindings, shown_key
from tui.config import read_shop
from tui.review.amended import Amended
from tui.review.ask_to_keep import ask_to_keep
from tui.review.curves import ReviewCurves
from tui.review.review_data import Review, read_review
from tui.review.rows import Stop, review_options
from tui.review.window import Window
from tui.screens import Host, host_of, keys_at_foot, logbook_of, when
from tui.widgets import Choices, Key, KeyLine, SplitLine, TraceView

_MARGIN = 0.08
"""Of a heat's length, shown before and after it when it is looked at closely."""
_AROUND = 120.0
"""Shown before and after a call that is looked at closely [s]."""
_LONGEST_COPY = 500
"""So much of a line is copied [characters]."""
_ZOOM = 2.0
"""How many times longer the stretch is that is seen from one step further off."""
_ALONG = 0.5
"""The share of what is seen by which it moves along, so that half of it can be recognized."""
_EDGE = 4
"""The reading line takes what is seen along by this part of it, once it stands at the edge."""


async def open_review(host: Host, name: str, rehearsal: bool = False) -> None:
    """Read a sitting that was kept, in a thread, and show it.

    Args:
        host: shows it
        name: the sitting's id, the beginning of it, or `last`
        rehearsal: whether it is among the rehearsals, which are kept apart

    Raises:
        PlansError: there is none, or it can't be read.
    """
    found = await asyncio.to_thread(read_review, logbook_of(host, rehearsal), name)
    await host.push_screen(ReviewScreen(found))


class ReviewScreen(Screen[None]):
    """Up and down walk along what stands out, heats, calls and notes; left and right move the reading line."""

    PLACE: ClassVar[Place] = Place.REVIEW
    BINDINGS: ClassVar[list[BindingType]] = bindings(Place.REVIEW)
    DEFAULT_CSS = """
    ReviewScreen #head { text-style: bold; background: $surface; }
    ReviewScreen #trace { height: 2fr; min-height: 5; margin: 0 1; }
    ReviewScreen #reading { color: $text-muted; }
    ReviewScreen #columns { text-style: bold; color: $text-muted; padding: 0 1; height: 1; }
    ReviewScreen OptionList { height: 3fr; padding: 0 0 0 1; scrollbar-size-vertical: 1; }
    ReviewScreen #keys { background: $surface; }
    """

    def __init__(self, review: Review) -> None:
        super().__init__()
        self.review = review
        self._stops: dict[str, Stop] = {}
        self._window = Window.of(0.0, review.end, review.end)
        self._closer = False
        """Whether the window goes along with what is chosen in the list, to show it closely."""
        self._back: list[Amended] = []
        """What was measured or photographed here, to be taken back, the last one last."""
        self._taking_back = asyncio.Lock()

    def compose(self) -> ComposeResult:
        app = host_of(self)
        self._curves = ReviewCurves(self.review, app.settings.units)
        yield SplitLine(id="head")
        yield TraceView(id="trace", cursor=True, glow=screen_glow, blocks=app.settings.blocks)
        yield SplitLine(id="reading")
        yield Static(id="columns", markup=False)
        yield Choices(*self._options(), markup=False)
        yield KeyLine(id="keys")

    def _options(self) -> list[Option]:
        app = host_of(self)
        shop, _ = read_shop(app.folders.shop)
        options, self._stops = review_options(self.review, app.settings.units, shop, self.app.size.width - 2)
        return options

    def on_mount(self) -> None:
        kept = self.review.kept
        rehearsal = ", rehearsal" if kept.header.rehearsal else ""
        took = show_clock(self.review.timeline.seconds)
        right = f"{when(kept.header.started)}, {took}, {kept.state.value}{rehearsal}"
        self.query_one("#head", SplitLine).show(in_units(kept.called, host_of(self).settings.units), right)
        self._draw()
        self._show_keys()
        listed = self.query_one(OptionList)
        listed.focus()
        listed.action_first()
        for message in self.review.messages:
            self.notify(plain(message), severity="warning", markup=False)

    def on_option_list_option_highlighted(self, message: OptionList.OptionHighlighted) -> None:
        del message
        self._show_chosen()

    def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        message.stop()
        self.action_zoom()

    def on_trace_view_moved(self, message: TraceView.Moved) -> None:
        self._read(message.at)

    def on_trace_view_wheeled(self, message: TraceView.Wheeled) -> None:
        self._look(self._window.zoomed(1 / _ZOOM if message.closer else _ZOOM, message.at))

    def on_trace_view_dragged(self, message: TraceView.Dragged) -> None:
        self._look(self._window.moved(message.seconds))

    def action_zoom(self) -> None:
        """Look at what the list stands on closely, or at the whole sitting again."""
        self._closer = self._window.is_whole
        if self._closer:
            self._show_chosen()
            self._show_keys()
        else:
            self._look(Window.of(0.0, self.review.end, self.review.end))

    def action_zoom_in(self) -> None:
        """Show half as long a stretch, with the reading line where it is."""
        self._look(self._window.zoomed(1 / _ZOOM, self._reading_at))

    def action_zoom_out(self) -> None:
        """Show twice as long a stretch."""
        self._look(self._window.zoomed(_ZOOM, self._reading_at))

    def action_before(self) -> None:
        """Show the stretch before this one."""
        self._look(self._window.moved(-_ALONG * self._window.length))

    def action_after(self) -> None:
        """Show the stretch after this one."""
        self._look(self._window.moved(_ALONG * self._window.length))

    def action_earlier(self) -> None:
        """Move the reading line to the left."""
        self._move_reading(-1)

    def action_later(self) -> None:
        """Move the reading line to the right."""
        self._move_reading(1)

    async def action_keep_factor(self) -> None:
        """Ask whether the factors that were learned go into the shop file."""
        await ask_to_keep(host_of(self), self.review.kept, self._show_options)

    def action_keep_heats(self) -> None:
        """Put the heats that were done into a copy of the plan."""
        from tui.screens import keep_heats

        if self.review.plan is None:
            host_of(self).say_aside("the plan of this sitting can't be read by this version: no copy can be made of it")
        else:
            self.run_worker(keep_heats(host_of(self), self.review.plan, self.review.heats_as_done))

    async def action_lessons(self) -> None:
        """Say what came of it, and what shall be said next time."""
        from tui.review.afterwards import AfterwardsScreen

        step, _ = self._looked_at()
        await self.app.push_screen(AfterwardsScreen(self.review.kept, self.review.plan, step), self._take)

    def action_measured(self) -> None:
        """Say what was measured since of the step that is looked at, or mend what was said of it."""
        self.run_worker(self._measure(), exclusive=True)

    async def _measure(self) -> None:
        from tui.review.measuring import ask_measured_later

        step, stop = self._looked_at()
        number = None if stop is None else stop.measured_later
        self._take_done(await ask_measured_later(host_of(self), self.review.kept, step, number))

    def action_photograph(self) -> None:
        """Add a photograph of the step that is looked at, or say what shall become of the one in the list."""
        self.run_worker(self._photograph(), exclusive=True)

    async def _photograph(self) -> None:
        from tui.review.photographing import ask_photograph

        step, stop = self._looked_at()
        of = step if self.review.timeline.state.begins else None
        number = None if stop is None else stop.photograph
        self._take_done(await ask_photograph(host_of(self), self.review.kept, of, number))

    def _looked_at(self) -> tuple[int, Stop | None]:
        """The step that is looked at, from 0: where the reading line was moved to, else where the list stands, which
        is there as well then."""
        stop, at = self._stop(), self.query_one(TraceView).cursor_at
        if at is not None and (stop is None or at != stop.at) and (part := self.review.part_at(at)) is not None:
            return part.step, None
        return (0 if stop is None else stop.step), stop

    def action_undo(self) -> None:
        """Take back what was measured or photographed last in this review."""
        self.run_worker(self._take_back())

    async def _take_back(self) -> None:
        host = host_of(self)
        async with self._taking_back:  # the key is faster than the disk
            if not self._back:
                return
            last, its = self._back.pop(), self.review.kept.header
            change = as_said_before(last.before, last.after, host.now().replace(microsecond=0))
            logbook = logbook_of(host, its.rehearsal)
            try:
                self._take(await asyncio.to_thread(logbook.amend, its.id, change))
                host.say_aside("taken back")
            except PlansError as error:
                host.say_aside(f"not taken back: {error}", wrong=True)
            self._show_keys()

    def _take_done(self, said: Amended | None) -> None:
        """Show the sitting as it is kept now, which can be taken back; None where it is as it was."""
        if said is not None:
            self._back.append(said)
            self._take(said.after)
            self._show_keys()

    def _take(self, kept: KeptSitting | None) -> None:
        """Show the sitting as it is kept now; None where it is as it was."""
        if kept is not None:
            self.review = self.review.with_said(kept)
            self._show_options()

    def action_copy(self) -> None:
        """Have the terminal copy the chosen line (OSC 52), be it one that is far away."""
        option, stop = self.query_one(OptionList).highlighted_option, self._stop()
        if option is None or stop is None:
            return
        line = stop.copied or " ".join(plain(str(option.prompt)).split())
        text = clean(plain(line), _LONGEST_COPY)  # one line: where it is pasted into a shell nothing of it is run
        self.app.copy_to_clipboard(text)
        host_of(self).say_aside(f"copied, where the terminal lets programs do that: {clean(text)}")

    def _show_options(self) -> None:
        """The list anew, standing where it stood."""
        listed = self.query_one(OptionList)
        at = listed.highlighted
        listed.clear_options()
        listed.add_options(self._options())
        listed.highlighted = at

    def action_leave(self) -> None:
        """Go back to where the review was opened."""
        host_of(self).leave_screen()

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)

    def _show_keys(self) -> None:
        zoom = "closer" if self._window.is_whole else "whole sitting"
        figures = self.review.kept.figures
        learned = None if figures is None else figures.learned
        keep = BY_ID["review.keep-factor"].short if learned is not None and learned.found else ""
        heats = BY_ID["review.keep-heats"].short if self.review.heats_as_done else ""
        undo = "take it back" if self._back else ""
        now = {"review.zoom": zoom, "review.undo": undo, "review.keep-factor": keep, "review.keep-heats": heats}
        first, *others = keys_at_foot(self, Place.REVIEW, now)
        zooms = self._pair("zoom", "review.zoom-in", "review.zoom-out")
        moves = self._pair("along the curve", "review.before", "review.after")
        # What is said here has no other sign on the screen; along a list and a curve one tries the arrows anyway.
        walk: list[Key] = [zooms, ("← →", "reading line", "later"), ("↑ ↓", "along", "zoom"), moves]
        self.query_one(KeyLine).show([first, *others[:-1], *walk, others[-1]])

    def _pair(self, does: str, one: str, other: str) -> Key:
        """Two actions as one entry at the foot; a click runs the first."""
        keys = host_of(self).settings.keys
        return f"{shown_key(BY_ID[one], keys)} {shown_key(BY_ID[other], keys)}", does, BY_ID[one].method

    def _stop(self) -> Stop | None:
        option = self.query_one(OptionList).highlighted_option
        return self._stops.get(option.id or "") if option is not None else None

    @property
    def _reading_at(self) -> float:
        """Where the reading line stands [s]; in the middle of what is seen where there is none."""
        at = self.query_one(TraceView).cursor_at
        return (self._window.begin + self._window.end) / 2 if at is None else at

    def _move_reading(self, columns: int) -> None:
        """Move the reading line by columns, and at the edge what is seen along with it."""
        trace = self.query_one(TraceView)
        before = trace.cursor_at
        trace.action_move(columns)
        if trace.cursor_at == before:
            self._look(self._window.moved(columns * self._window.length / _EDGE))
            trace.action_move(columns)

    def _look(self, window: Window) -> None:
        """Show another stretch, which the list no longer leads."""
        self._closer = False
        self._window = window
        self._draw()
        self._show_keys()

    def _show_chosen(self) -> None:
        """Lead the reading line, the limits and what is seen to what the list stands on."""
        stop = self._stop()
        if self._closer and stop is not None:
            around = max(_AROUND if stop.ended == stop.began else 10.0, _MARGIN * (stop.ended - stop.began))
            self._window = Window.of(
                max(0.0, stop.began - around), min(self.review.end, stop.ended + around), self.review.end
            )
        elif stop is not None:
            self._window = self._window.holding(stop.at)
        self.query_one("#columns", Static).update("" if stop is None else stop.above)
        self._draw()
        self.query_one(TraceView).cursor_at = None if stop is None else stop.at
        self._read(0.0 if stop is None else stop.at)

    def _draw(self) -> None:
        """Draw the curve, with the limits of what the list stands on."""
        trace = self.query_one(TraceView)
        trace.data = self._curves.seen(self._window, self._stop(), trace.size.width)

    def _read(self, at: float) -> None:
        """Say what the curves are at a time."""
        curves = self._curves
        self.query_one("#reading", SplitLine).show(f"{show_clock(at)}  {curves.values(at)}", curves.doing(at))
