"""One sitting that was kept: its curve, its heats, its calls and notes, in one list to walk along."""

from __future__ import annotations

import asyncio
from dataclasses import replace
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import Screen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from plans.logbook import KeptSitting
from plans.phase import PhaseKind
from plans.prose import in_units
from plans.shown import show_clock
from plans.sitting import limits_of
from plans.text import plain
from plans.warmth import screen_glow
from tui.actions import BY_ID, Place, bindings
from tui.config import read_shop
from tui.review.ask_to_keep import ask_to_keep
from tui.review.review_data import Review, read_review
from tui.review.rows import Stop, column_heads, review_options
from tui.screens import Host, host_of, keys_at_foot, when
from tui.widgets import (
    CLEAR,
    Choices,
    KeyLine,
    SplitLine,
    TraceData,
    TraceView,
    above,
    flags,
    floor_of,
    lines_of,
    shades,
    temperature,
)

_MARGIN = 0.08
"""Of a heat's length, shown before and after it when it is looked at closely."""
_AROUND = 120.0
"""Shown before and after a call that is looked at closely [s]."""


async def open_review(host: Host, name: str, rehearsal: bool = False) -> None:
    """Read a sitting that was kept, in a thread, and show it.

    Args:
        host: shows it
        name: the sitting's id, the beginning of it, or `last`
        rehearsal: whether it is among the rehearsals, which are kept apart

    Raises:
        PlansError: there is none, or it can't be read.
    """
    found = await asyncio.to_thread(read_review, host.rehearsals if rehearsal else host.logbook, name)
    await host.push_screen(ReviewScreen(found))


class ReviewScreen(Screen[None]):
    """Up and down walk along heats, calls and notes; left and right move the reading line."""

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
        floors = [floor_of(step) for step in review.plan.steps] if review.plan is not None else []
        self._low = min((floor for floor in floors if floor is not None), default=None)
        self._measured, self._modelled = above(self._low, review.measured), above(self._low, review.modelled)
        self._closer = False

    def compose(self) -> ComposeResult:
        app = host_of(self)
        yield SplitLine(id="head")
        yield TraceView(id="trace", cursor=True, glow=screen_glow, blocks=app.settings.blocks)
        yield SplitLine(id="reading")
        yield Static(column_heads(self.review, app.settings.units), id="columns", markup=False)
        yield Choices(*self._options(), markup=False)
        yield KeyLine(id="keys")

    def _options(self) -> list[Option]:
        app = host_of(self)
        shop, _ = read_shop(app.folders.shop)
        options, self._stops = review_options(self.review, app.settings.units, shop)
        return options

    def on_mount(self) -> None:
        kept = self.review.kept
        rehearsal = ", rehearsal" if kept.header.rehearsal else ""
        took = show_clock(self.review.timeline.seconds)
        right = f"{when(kept.header.started)}, {took}, {kept.state.value}{rehearsal}"
        self.query_one("#head", SplitLine).show(in_units(kept.header.title, host_of(self).settings.units), right)
        self._draw(None)
        self._show_keys()
        listed = self.query_one(OptionList)
        listed.focus()
        listed.action_first()
        for message in self.review.messages:
            self.notify(plain(message), severity="warning", markup=False)

    def on_option_list_option_highlighted(self, message: OptionList.OptionHighlighted) -> None:
        self._draw(self._stops.get(message.option.id or ""))

    def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        message.stop()
        self.action_zoom()

    def on_trace_view_moved(self, message: TraceView.Moved) -> None:
        self._read(message.at)

    def action_zoom(self) -> None:
        """Look at what the list stands on closely, or at the whole sitting again."""
        self._closer = not self._closer
        self._draw(self._stop())
        self._show_keys()

    def action_earlier(self) -> None:
        """Move the reading line to the left."""
        self.query_one(TraceView).action_move(-1)

    def action_later(self) -> None:
        """Move the reading line to the right."""
        self.query_one(TraceView).action_move(1)

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

        stop = self._stop()

        def said(kept: KeptSitting | None) -> None:
            if kept is not None:
                self.review = replace(self.review, timeline=replace(self.review.timeline, kept=kept))
                self._show_options()

        step = stop.step if stop is not None else 0
        await self.app.push_screen(AfterwardsScreen(self.review.kept, self.review.plan, step), said)

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
        zoom = "whole sitting" if self._closer else "closer"
        figures = self.review.kept.figures
        learned = None if figures is None else figures.learned
        keep = BY_ID["review.keep-factor"].short if learned is not None and learned.found else ""
        heats = BY_ID["review.keep-heats"].short if self.review.heats_as_done else ""
        now = {"review.zoom": zoom, "review.keep-factor": keep, "review.keep-heats": heats}
        keys = keys_at_foot(self, Place.REVIEW, now)
        self.query_one(KeyLine).show([keys[0], ("↑ ↓", "along", "zoom"), ("← →", "reading line", "later"), *keys[1:]])

    def _stop(self) -> Stop | None:
        option = self.query_one(OptionList).highlighted_option
        return self._stops.get(option.id or "") if option is not None else None

    def _draw(self, stop: Stop | None) -> None:
        """Draw the curve, with the limits of what the list stands on, and the reading line there."""
        review = self.review
        begin, end = 0.0, review.end
        if self._closer and stop is not None:
            around = max(_AROUND if stop.ended == stop.began else 10.0, _MARGIN * (stop.ended - stop.began))
            begin, end = max(0.0, stop.began - around), min(review.end, stop.ended + around)
        step = review.plan.steps[stop.step] if review.plan is not None and stop is not None else None
        trace = self.query_one(TraceView)
        trace.data = TraceData(
            begin=begin,
            end=max(end, begin + 1.0),
            measured=self._measured,
            modelled=self._modelled,
            low=self._low,
            spans=shades(review.spans, begin, end, CLEAR * (end - begin) / max(1, trace.size.width)),
            limits=lines_of(limits_of(step, stop.heat, PhaseKind.STRIKE))
            if step is not None and stop is not None
            else (),
            flags=flags(review.calls, begin, end),
            up=temperature(host_of(self).settings.units),
        )
        trace.cursor_at = stop.at if stop is not None else None
        self._read(stop.at if stop is not None else 0.0)

    def _read(self, at: float) -> None:
        """Say what the curves are at a time."""
        review, units = self.review, host_of(self).settings.units
        values = []
        for name, curve in (("measured", review.measured), ("modelled", review.modelled)):
            if curve.at:
                kelvin = curve.near(at)
                values.append(f"{name} {units.temperature(kelvin)}")
        part = next((part for part in reversed(review.spans) if part.began < at <= part.ended), None)
        doing = ""
        if part is not None and review.plan is not None:
            step = review.plan.steps[part.step]
            doing = f"{part.phase.value}, {step.counts} {part.heat}"
        self.query_one("#reading", SplitLine).show(f"{show_clock(at)}  {', '.join(values)}", doing)
