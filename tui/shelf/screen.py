"""The shelf: what can be gone on with, and the plans at hand."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal
from textual.widgets import Input, OptionList
from textual.widgets.option_list import Option, OptionDoesNotExist

from plans.at_hand import ListedPlan, in_order
from plans.logbook import Progress
from plans.shown import counted
from tui.actions import Place, bindings, keys_of, of
from tui.running import LogList, Maker, OnShelf, Reckoner, going_on, read_shelf, rehearsal_of, sitting_of
from tui.screens import Host, SearchingScreen, Told, host_of, keys_at_foot, says_next
from tui.shelf.rows import name_of, plan_rows, row_of, sitting_rows
from tui.shelf.side import Side
from tui.widgets import Choices, KeyLine, SplitLine

if TYPE_CHECKING:
    from plans.plan import Plan

_SIDE_FROM = 100
_OFFERED = 3
"""So many unfinished sittings stand on the shelf; the others are in the log."""
_SPEED = 10.0
"""Of a rehearsal begun from here."""
_READ = 0.05
"""A plan that is gone to is read after so long [s]."""
_SETTLED = 0.5
"""Files that were only glanced at are read when nobody waits for the shelf any more [s]."""


async def open_shelf(host: Host) -> None:
    """Read what is on the shelf, in a thread, and show it; what is wrong with the log is told."""
    found = await asyncio.to_thread(read_shelf, host.folders, host.logbook)
    await host.push_screen(ShelfScreen(found))
    for text in found.messages:
        host.say_aside(text, wrong=True)


class ShelfScreen(SearchingScreen):
    """The shelf: a list of sittings to go on with and of plans, and beside it what the chosen line is about.

    Args:
        found: what is on the shelf
    """

    PLACE: ClassVar[Place] = Place.SHELF
    BINDINGS: ClassVar[list[BindingType]] = bindings(Place.SHELF)
    SEARCHES: ClassVar[str] = "title, steel, step ..."
    BELOW: ClassVar[str] = "#both"
    DEFAULT_CSS = """
    ShelfScreen #head { text-style: bold; background: $surface; }
    ShelfScreen #list { width: 1fr; height: 1fr; padding: 1 1 0 1; }
    ShelfScreen Side { width: 1fr; height: 1fr; }
    ShelfScreen #keys { background: $surface; }
    ShelfScreen.narrow #both { layout: vertical; }
    ShelfScreen.narrow #list { height: auto; max-height: 60%; }
    ShelfScreen.narrow Side { border-top: solid $panel; }
    ShelfScreen.narrow #about { padding: 0 2; }
    """

    def __init__(self, found: OnShelf) -> None:
        super().__init__()
        self._take(found)
        self._shown: str | None = None
        """The line that the words beside the list and the keys are about; None before there is one."""
        self._written = ""
        """The plan that was written down since it was listed; empty where none was."""
        self._changes = 0
        """How many changes of the logbook were made when its sittings were listed."""

    def _take(self, found: OnShelf) -> None:
        self._plans = {plan.name: plan for plan in found.plans}
        unfinished = [one for one in found.summaries if one.state is Progress.UNFINISHED]
        offered = [one for one in unfinished if not (one.rehearsal or one.label.archived)]
        self._unfinished = {summary.id: summary for summary in offered[:_OFFERED]}
        self._kept = len(found.summaries)

    def compose(self) -> ComposeResult:
        self._fit(self.app.size.width)  # before there is anything to lay out
        host = host_of(self)
        yield SplitLine(id="head")
        with Horizontal(id="both"):
            yield Choices(*self._rows(), id="list", markup=False)
            yield Side(host.settings.units, host.folders.shop, blocks=host.settings.blocks)
        yield Told()
        yield KeyLine(id="keys")

    def on_mount(self) -> None:
        self._changes = host_of(self).logbook.changes
        self._show_head()
        self.listed.focus()
        self.listed.action_first()
        # Before the first paint, rather than when the list tells of it.
        self._show(self._chosen())
        self.set_timer(_SETTLED, lambda: self.run_worker(self.read_all()))

    def show_search(self) -> None:
        """Say at the head and at the foot whether a search goes on."""
        self._show_head()
        self._show_keys()

    def _show_head(self) -> None:
        kept = f"{counted(self._kept, 'sitting')} in the log" if self._kept else "the log is empty"
        self.query_one("#head", SplitLine).show("find a plan" if self.searching else "heatbook", kept)

    def on_resize(self, event: events.Resize) -> None:
        self._fit(event.size.width)

    def _fit(self, width: int) -> None:
        self.set_class(width < _SIDE_FROM, "narrow")

    # What is listed

    def _rows(self) -> list[Option]:
        units = host_of(self).settings.units
        plans = in_order(plan for plan in self._plans.values() if plan.has_words(self.wanted, units))
        sittings = () if self.wanted.strip() else self._unfinished.values()
        return [*sitting_rows(sittings, units), *plan_rows(plans, units)]

    def list_anew(self, choose: str = "") -> None:
        """List what is found; the line that was chosen stays so, if it is still there, unless another is to be."""
        listed, chosen = self.listed, choose or self._chosen()
        listed.clear_options()
        listed.add_options(self._rows())
        try:
            listed.highlighted = listed.get_option_index(chosen)
        except OptionDoesNotExist:
            listed.action_first()
        if choose:  # it may be another plan than the one of this name before
            self._shown = None
        self._show(self._chosen())

    async def read_all(self) -> None:
        """Read the files that were only glanced at, and list all anew where one of them is not what it seemed."""
        glanced = [plan for plan in self._plans.values() if plan.found is None]
        read = await asyncio.to_thread(lambda: [plan.read() for plan in glanced])
        self._plans |= {plan.name: plan for plan in read}
        seemed = [(plan.title, plan.group) for plan in glanced]
        if self.wanted or seemed != [(plan.title, plan.group) for plan in read]:
            self.list_anew()

    def _listed(self, row: str) -> ListedPlan | None:
        """The plan of a row, its file read; None for a row of another kind."""
        plan = self._plans.get(name_of(row) or "")
        if plan is not None and plan.found is None:
            plan = self._plans[plan.name] = plan.read()
        return plan

    def _plan(self, row: str) -> Plan | None:
        """The plan of a row that can be followed."""
        listed = self._listed(row)
        return None if listed is None or listed.found is None else listed.found.plan

    def _chosen(self) -> str:
        chosen = self.listed.highlighted_option
        return (chosen.id or "") if chosen else ""

    def on_option_list_option_highlighted(self, message: OptionList.OptionHighlighted) -> None:
        self._show(message.option.id or "")

    def _show(self, chosen: str) -> None:
        if chosen == self._shown:
            return
        self._shown = chosen
        side = self.query_one(Side)
        if (summary := self._unfinished.get(chosen)) is not None:
            side.show_sitting(summary)
        else:
            listed = self._plans.get(name_of(chosen) or "")
            if listed is not None and listed.found is None:
                side.show_glance(listed)
                # A file takes some milliseconds to read: not before the line that is gone to is seen.
                self.set_timer(_READ, lambda: self._read_chosen(chosen))
            else:
                side.show_plan(None if listed is None else listed.found)
        self._show_keys()

    def _read_chosen(self, chosen: str) -> None:
        """Tell the rest of a plan that only a glance was taken at, if it is still the one that is looked at."""
        if chosen == self._shown and self.is_attached:
            listed = self._listed(chosen)
            self.query_one(Side).show_plan(None if listed is None else listed.found)
            self._show_keys()

    def _show_keys(self) -> None:
        chosen = self._shown or ""
        listed = self._plans.get(name_of(chosen) or "")
        usable = listed is not None and listed.is_usable
        begin = "go on" if chosen in self._unfinished else "begin" if usable else ""
        now = {
            "shelf.begin": begin,
            "shelf.rehearse": "rehearse" if usable else "",
            "shelf.change": "change" if usable else "",
        }
        keys = keys_at_foot(self, Place.SHELF, now)
        self.query_one(KeyLine).show(self.keys_in_search(keys, "begin", "all plans"))

    async def on_input_submitted(self, message: Input.Submitted) -> None:
        message.stop()
        await self.action_begin()

    # What can be done

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
        elif (found := self._plan(chosen)) is not None:
            if self.searching:
                await self.action_end_search()
            await app.open(sitting_of(lambda: found, app.settings.probe))

    async def action_rehearse(self) -> None:
        """Begin a rehearsal of the plan that is chosen."""
        if (found := self._plan(self._chosen())) is not None:
            app = host_of(self)
            # Each rehearsal is another: the moment is its seed.
            await app.open(rehearsal_of(lambda: found, int(app.now().timestamp()), _SPEED))

    async def action_log(self) -> None:
        """Show the log."""
        await host_of(self).open(LogList())

    async def action_reckoner(self) -> None:
        """Show the reckoner."""
        await host_of(self).open(Reckoner())

    async def action_make(self) -> None:
        """Write a plan for what shall be made."""
        await host_of(self).open(Maker(written=self._take_note))

    async def action_change(self) -> None:
        """Change the plan that is chosen."""
        if (listed := self._listed(self._chosen())) is not None:
            await host_of(self).open(Maker(listed.file, self._take_note))

    def _take_note(self, name: str) -> None:
        """A plan was written down: it is to be listed, and chosen."""
        self._written = name
        self.query_one(Side).forget(name)

    async def on_screen_resume(self) -> None:
        """List what was written meanwhile, or done in the log."""
        logbook = host_of(self).logbook
        if not self._written and logbook.changes == self._changes:
            return
        self._changes = logbook.changes
        self._take(await asyncio.to_thread(read_shelf, host_of(self).folders, logbook))
        self.list_anew(row_of(self._written) if self._written else "")
        self._show_head()
        self._written = ""

    def action_pedal(self) -> None:
        """Ask for the pedal, to learn its key."""
        from tui.screens import ask_for_pedal

        ask_for_pedal(host_of(self))

    def action_leave(self) -> None:
        """Close the shelf."""
        host_of(self).leave_screen()

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)
