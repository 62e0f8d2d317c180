"""The shelf: what can be gone on with, and the plans at hand."""

from __future__ import annotations

import asyncio
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from plans.logbook import Progress, Summary
from plans.prose import in_units
from plans.reader import ShelfPlan
from plans.shown import counted
from plans.text import plain
from plans.units import Units
from tui.actions import Place, bindings, keys_of, of
from tui.running import LogList, OnShelf, Reckoner, going_on, read_shelf, rehearsal_of, sitting_of
from tui.screens.foot_keys import keys_at_foot
from tui.screens.host import Host, host_of, says_next
from tui.screens.listing import gap, heading, title, when
from tui.screens.plan_text import plan_text
from tui.screens.told import TellingScreen, Told
from tui.widgets import Choices, KeyLine, SplitLine

_SIDE_FROM = 100
_OFFERED = 3
"""So many unfinished sittings stand on the shelf; the others are in the log."""
_SPEED = 10.0
"""Of a rehearsal begun from here."""


async def open_shelf(host: Host) -> None:
    """Read what is on the shelf, in a thread, and show it; what is wrong with the log is told."""
    found = await asyncio.to_thread(read_shelf, host.folders, host.logbook)
    await host.push_screen(ShelfScreen(found))
    for text in found.messages:
        host.say_aside(text, wrong=True)


class ShelfScreen(TellingScreen):
    """The shelf: a list of sittings to go on with and of plans, and beside it what the chosen line is about.

    Args:
        found: what is on the shelf
    """

    PLACE: ClassVar[Place] = Place.SHELF
    BINDINGS: ClassVar[list[BindingType]] = bindings(Place.SHELF)
    DEFAULT_CSS = """
    ShelfScreen #head { text-style: bold; background: $surface; }
    ShelfScreen #list { width: 1fr; height: 1fr; padding: 1 1 0 1; }
    ShelfScreen #about { width: 1fr; height: 1fr; padding: 1 2 0 2; }
    ShelfScreen #keys { background: $surface; }
    ShelfScreen.narrow #both { layout: vertical; }
    ShelfScreen.narrow #list { height: auto; max-height: 60%; }
    ShelfScreen.narrow #about { border-top: solid $panel; padding: 0 2; }
    """

    def __init__(self, found: OnShelf) -> None:
        super().__init__()
        self._plans = {plan.name: plan for plan in found.plans}
        unfinished = [one for one in found.summaries if one.state is Progress.UNFINISHED and not one.rehearsal]
        self._unfinished = {summary.id: summary for summary in unfinished[:_OFFERED]}
        self._kept = len(found.summaries)
        self._shown = ""
        """The line that the words beside the list and the keys are about."""

    def compose(self) -> ComposeResult:
        self._fit(self.app.size.width)  # before there is anything to lay out
        yield SplitLine(id="head")
        with Horizontal(id="both"):
            yield Choices(*self._options(), id="list", markup=False)
            with VerticalScroll(id="about", can_focus=False):
                yield Static(id="words", markup=False)
        yield Told()
        yield KeyLine(id="keys")

    def on_mount(self) -> None:
        kept = f"{counted(self._kept, 'sitting')} in the log" if self._kept else "the log is empty"
        self.query_one("#head", SplitLine).show("heatbook", kept)
        listed = self.query_one(OptionList)
        listed.focus()
        listed.action_first()
        # Before the first paint, rather than when the list tells of it.
        self._show(self._chosen())

    def on_resize(self, event: events.Resize) -> None:
        self._fit(event.size.width)

    def _fit(self, width: int) -> None:
        self.set_class(width < _SIDE_FROM, "narrow")

    def on_option_list_option_highlighted(self, message: OptionList.OptionHighlighted) -> None:
        self._show(message.option.id or "")

    def _show(self, chosen: str) -> None:
        if chosen == self._shown:
            return
        self._shown = chosen
        self.query_one("#words", Static).update(self._about(chosen))
        plan = self._plan(chosen)
        begin = "go on" if chosen in self._unfinished else "begin" if plan and plan.plan else ""
        rehearse = "rehearse" if plan and plan.plan else ""
        now = {"shelf.begin": begin, "shelf.rehearse": rehearse}
        self.query_one(KeyLine).show(keys_at_foot(self, Place.SHELF, now))

    async def on_key(self, event: events.Key) -> None:
        """A key that says "next", as that of a pedal, begins, unless the shelf has another use for it."""
        keys = host_of(self).settings.keys
        if says_next(host_of(self), event.key) and not any(event.key in keys_of(one, keys) for one in of(Place.SHELF)):
            event.stop()
            await self.action_begin()

    async def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        message.stop()
        await self.action_begin()

    async def action_begin(self) -> None:
        """Begin the plan that is chosen, or go on with the sitting that is; a press that comes twice begins once."""
        chosen, app = self._chosen(), host_of(self)
        if not (self.is_current and app.presses.counts("shelf.begin")):
            return
        if chosen in self._unfinished:
            await app.open(going_on(chosen, app.settings.probe))
        elif (plan := self._plan(chosen)) is not None and (found := plan.plan) is not None:
            await app.open(sitting_of(lambda: found, app.settings.probe))

    async def action_rehearse(self) -> None:
        """Begin a rehearsal of the plan that is chosen."""
        plan = self._plan(self._chosen())
        if plan is not None and (found := plan.plan) is not None:
            app = host_of(self)
            # Each rehearsal is another: the moment is its seed.
            await app.open(rehearsal_of(lambda: found, int(app.now().timestamp()), _SPEED))

    async def action_log(self) -> None:
        """Show the log."""
        await host_of(self).open(LogList())

    async def action_reckoner(self) -> None:
        """Show the reckoner."""
        await host_of(self).open(Reckoner())

    def action_pedal(self) -> None:
        """Ask for the pedal, to learn its key."""
        from tui.screens.learn_pedal import learn_pedal

        learn_pedal(host_of(self))

    async def action_leave(self) -> None:
        """Close the shelf."""
        await host_of(self).leave_screen()

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)

    def _chosen(self) -> str:
        listed = self.query_one(OptionList)
        return (listed.highlighted_option.id or "") if listed.highlighted_option else ""

    def _plan(self, chosen: str) -> ShelfPlan | None:
        return self._plans.get(chosen.removeprefix("plan "))

    def _options(self) -> list[Option]:
        options: list[Option] = []
        units = host_of(self).settings.units
        if self._unfinished:
            options.append(heading("Go on with"))
            options += [
                Option(Content.assemble("  ", title(one, units), ("  " + when(one.started), "$text-muted")), id=one.id)
                for one in self._unfinished.values()
            ]
            options.append(gap())
        options.append(heading("Plans"))
        options += [Option(_plan_row(plan, units), id=f"plan {plan.name}") for plan in self._plans.values()]
        return options

    def _about(self, chosen: str) -> Content:
        units = host_of(self).settings.units
        if (summary := self._unfinished.get(chosen)) is not None:
            return _left(summary, units)
        plan = self._plan(chosen)
        if plan is None:
            return Content("")
        return plan_text(plan, units)


def _plan_row(plan: ShelfPlan, units: Units) -> Content:
    if plan.plan is None:
        return Content.assemble("  ", plain(plan.name), ("  can't be used", "$error"))
    named = plain(in_units(plan.plan.title, units))
    return Content.assemble("  ", named, ("  your own" if plan.own else "", "$text-muted"))


def _left(summary: Summary, units: Units) -> Content:
    heats = ""
    if summary.heats is not None:
        heats = f"{counted(summary.heats, 'heat')} done; heatbook called {counted(summary.calls or 0, 'time')}\n"
    return Content.assemble(
        (title(summary, units), "bold"),
        f"\n\nbegun {when(summary.started)}, left before its end\n{heats}\n",
        (summary.id, "$text-muted"),
    )
