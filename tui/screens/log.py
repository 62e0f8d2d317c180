"""The log: the sittings that were kept, the newest first."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Coroutine
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from plans.logbook import LogbookError, Progress, Search, SearchError, Summary, newest_first, read_search
from plans.logbook.comparing import LETTERS
from plans.shown import counted
from plans.units import Units
from tui.actions import BY_ID, Place, bindings, shown_key
from tui.running import CompareRequest, ReviewRequest, TaughtList, TrendsRequest, going_on, read_log
from tui.screens.foot_keys import keys_at_foot
from tui.screens.host import Host, host_of, logbook_of
from tui.screens.listing import sitting_row
from tui.screens.log_changes import LogChanges
from tui.screens.searching import SearchingScreen
from tui.screens.told import Told
from tui.widgets import Choices, KeyLine, SplitLine


async def open_log(host: Host, rehearsals: bool = False) -> None:
    """Read the list of the sittings that were kept, in a thread, and show it; what is wrong with the log is told.

    Args:
        host: shows it
        rehearsals: whether those are meant, which are kept apart
    """
    summaries, messages = await asyncio.to_thread(read_log, logbook_of(host, rehearsals))
    await host.push_screen(LogScreen(summaries, rehearsals))
    for text in messages:
        host.say_aside(text, wrong=True)


class LogScreen(SearchingScreen):
    """The list of the sittings that were kept.

    Args:
        summaries: the sittings, the newest first
        rehearsals: whether they are those that are kept apart
    """

    PLACE: ClassVar[Place] = Place.LOG
    BINDINGS: ClassVar[list[BindingType]] = bindings(Place.LOG)
    SEARCHES: ClassVar[str] = "words   steel: 1084   since: 2026-03   peak > 1300 degC   too cold > 10 s"
    DEFAULT_CSS = """
    LogScreen #head { text-style: bold; background: $surface; }
    LogScreen #list { height: 1fr; padding: 1 1 0 1; }
    LogScreen #wrong { height: auto; display: none; padding: 0 3; background: $panel; color: $text-muted; }
    LogScreen #none { height: 1fr; padding: 1 2; }
    LogScreen #keys { background: $surface; }
    """

    def __init__(self, summaries: list[Summary], rehearsals: bool = False) -> None:
        super().__init__()
        self._rehearsals = rehearsals
        self._summaries = {summary.id: summary for summary in summaries}
        self._search = Search()
        """What is listed."""
        self._found: list[Summary] = []
        """The sittings that are listed, the newest first."""
        self._beside: list[str] = []
        """Ids of the sittings that are compared, in the order in which they were chosen."""
        self._listed_for = 0
        """The width that the rows are for [cells]."""

    def compose(self) -> ComposeResult:
        yield SplitLine(id="head")
        if self._summaries:
            yield Static(id="wrong", markup=False)
            yield Choices(id="list", markup=False)
        else:
            begin = "Rehearse a plan from the shelf." if self._rehearsals else "Begin a plan on the shelf."
            yield Static(f"Nothing has been kept yet. {begin}", id="none")
        yield Told()
        yield KeyLine(id="keys")

    def on_mount(self) -> None:
        host = host_of(self)
        logbook = logbook_of(host, self._rehearsals)
        self._logbook, self._changes = logbook, LogChanges(host, logbook, self._take, self._read_again)
        self._list(self.app.size.width)
        if self._summaries:
            self.listed.focus()

    # What is listed

    def on_resize(self, event: events.Resize) -> None:
        if event.size.width != self._listed_for:
            self._list(event.size.width)

    def list_anew(self) -> None:
        """List what is found; where what is typed can't be understood yet, that is said, and what goes before found."""
        told = ""
        try:
            self._search = read_search(self.wanted)
        except SearchError as error:
            self._search, told = error.so_far, str(error)
        self._list(self.app.size.width)
        wrong = self.query_one("#wrong", Static)
        wrong.update(told or ("" if self._found else self._search.hint))
        wrong.display = bool(wrong.content)

    def _list(self, width: int) -> None:
        units = host_of(self).settings.units
        found = self._search.found(self._summaries.values(), units)
        if self.query("#list") and (found, width) != (self._found, self._listed_for):
            self._list_found(found, width, units)
        self._found, self._listed_for = found, width
        self.show_search()

    def _list_found(self, found: list[Summary], width: int, units: Units) -> None:
        listed, chosen, at = self.listed, self._chosen(), self.listed.highlighted or 0
        letters = dict(zip(self._beside, LETTERS, strict=False))
        blank = " " if letters else ""
        rows = [Option(sitting_row(one, width - 4, units, letters.get(one.id, blank)), id=one.id) for one in found]
        listed.clear_options()
        listed.add_options(rows or [Option(Content.styled(f"  {self._nothing()}", "$text-muted"), disabled=True)])
        if not found:
            return
        ids = [one.id for one in found]
        listed.highlighted = ids.index(chosen.id) if chosen and chosen.id in ids else min(at, len(ids) - 1)

    def _list_anew_where_it_is(self) -> None:
        self._listed_for = 0
        self._list(self.app.size.width)

    def _nothing(self) -> str:
        if self.wanted.strip():
            return "no sitting is like that"
        return "all are archived; search for is: archived to see them" if self._summaries else "none is left"

    async def read_all(self) -> None:
        """Have figures and notes of sittings that an earlier version kept, and list anew where there were any."""
        if not all(one.is_searchable for one in self._summaries.values()):
            await self._read(self._logbook.searchable)

    async def _read_again(self) -> None:
        """List what is there by now: another heatbook may have been at work."""
        await self._read(self._logbook.summaries)

    async def _read(self, read: Callable[[], list[Summary]]) -> None:
        try:
            found = await asyncio.to_thread(read)
        except LogbookError as error:
            host_of(self).say_aside(str(error), wrong=True)
            return
        self._summaries = {one.id: one for one in found}
        self._beside = [one for one in self._beside if one in self._summaries]
        self.list_anew()

    def _take(self, changed: Summary, kept: bool) -> None:
        """List a sitting as it is now, or without it."""
        if not kept:
            self._summaries.pop(changed.id, None)
            self._beside = [one for one in self._beside if one != changed.id]
        elif changed.id in self._summaries:
            self._summaries[changed.id] = changed
        else:
            self._summaries = {one.id: one for one in newest_first([*self._summaries.values(), changed])}
        self._list(self.app.size.width)
        if changed in self._found:
            self.listed.highlighted = self._found.index(changed)

    def show_search(self) -> None:
        """Say at the head how many are listed of how many, and the keys at the foot."""
        every, found = len(self._summaries), len(self._found)
        count = counted(every, "sitting") if found == every else f"{found} of {counted(every, 'sitting')}"
        name = "Rehearsals" if self._rehearsals else "The log"
        beside = f", {len(self._beside)} to compare" if self._beside else ""
        self.query_one("#head", SplitLine).show("find a sitting" if self.searching else name, f"{count}{beside}")
        self._show_keys(self._chosen())

    def on_option_list_option_highlighted(self, message: OptionList.OptionHighlighted) -> None:
        self._show_keys(self._summaries.get(message.option.id or ""))

    def _show_keys(self, chosen: Summary | None) -> None:
        one = chosen is not None
        now = {f"log.{name}": "" for name in ("open", "beside", "rename", "mark", "archive", "delete") if not one}
        now |= {} if self._compared(chosen) else {"log.compare": ""}
        now |= {"log.beside": "not beside"} if chosen is not None and chosen.id in self._beside else {}
        now |= {} if _can_go_on(chosen) else {"log.go-on": ""}
        now |= {} if self._changes.can_undo else {"log.undo": ""}
        now |= {} if self._summaries else {"log.search": ""}
        now |= {"log.archive": "list again"} if chosen is not None and chosen.label.archived else {}
        keys = self.keys_in_search(keys_at_foot(self, Place.LOG, now), "open", "all sittings")
        self.query_one("#keys", KeyLine).show(keys)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """There is nothing to search where nothing was kept."""
        return (action != "search" or bool(self.query("#list"))) and super().check_action(action, parameters)

    # What can be done

    async def on_input_submitted(self, message: Input.Submitted) -> None:
        message.stop()
        await self.action_open()

    async def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        message.stop()
        await self.action_open()

    async def action_open(self) -> None:
        """Show the whole of the sitting that is chosen."""
        if self.is_current and (chosen := self._chosen()) is not None:
            await host_of(self).open(ReviewRequest(chosen.id, self._rehearsals))

    async def action_go_on(self) -> None:
        """Go on with the sitting that is chosen, if it is unfinished."""
        chosen, app = self._chosen(), host_of(self)
        if chosen is not None and _can_go_on(chosen):
            await app.open(going_on(chosen.id, app.settings.probe))

    def action_beside(self) -> None:
        """Have the sitting that is chosen among those that are compared, or no longer."""
        chosen = self._chosen()
        if not self.is_current or chosen is None:
            return
        if chosen.id in self._beside:
            self._beside.remove(chosen.id)
        elif len(self._beside) == len(LETTERS):
            host_of(self).say_aside(f"{len(LETTERS)} sittings stand beside one another, no more; take one away first")
            return
        else:
            self._beside.append(chosen.id)
        self._list_anew_where_it_is()

    async def action_compare(self) -> None:
        """Show the sittings that were put beside one another; one alone is held against the one that is chosen."""
        if not self.is_current:
            return
        if ids := self._compared(self._chosen()):
            await host_of(self).open(CompareRequest(ids, self._rehearsals))
        else:
            key = shown_key(BY_ID["log.beside"], host_of(self).settings.keys)
            host_of(self).say_aside(f"to compare sittings, put two to {len(LETTERS)} beside one another first: {key}")

    def _compared(self, chosen: Summary | None) -> tuple[str, ...]:
        """The sittings that would be compared; none where they are too few."""
        ids = list(self._beside)
        if len(ids) == 1 and chosen is not None and chosen.id not in ids:
            ids.append(chosen.id)
        return tuple(ids) if len(ids) > 1 else ()

    async def action_trends(self) -> None:
        """Show how figures go over the sittings of the plan of the one that is chosen."""
        if self.is_current and (chosen := self._chosen()) is not None:
            await host_of(self).open(TrendsRequest(chosen.plan, rehearsal=self._rehearsals))

    async def action_taught(self) -> None:
        """Show what all sittings together teach of the shop."""
        if self.is_current:
            await host_of(self).open(TaughtList())

    def action_rename(self) -> None:
        """Give the sitting that is chosen a title of its own."""
        self._change(self._changes.rename)

    def action_mark(self) -> None:
        """Put a word on the sitting that is chosen."""
        self._change(self._changes.mark)

    def action_archive(self) -> None:
        """Leave the sitting that is chosen out of the list, or have it in again."""
        self._change(self._changes.archive)

    def action_delete(self) -> None:
        """Delete the sitting that is chosen."""
        if host_of(self).presses.counts("log.delete"):
            self._change(self._changes.delete)

    def _change(self, change: Callable[[Summary], Coroutine[None, None, None]]) -> None:
        if self.is_current and (chosen := self._chosen()) is not None:
            self.run_worker(change(chosen))

    def action_undo(self) -> None:
        """Take back what was done last to a sitting."""
        if self.is_current:
            self.run_worker(self._changes.undo())

    def action_leave(self) -> None:
        """Close the log."""
        host_of(self).leave_screen()

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)

    def _chosen(self) -> Summary | None:
        chosen = self.listed.highlighted_option if self.query("#list") else None
        return None if chosen is None else self._summaries.get(chosen.id or "")


def _can_go_on(chosen: Summary | None) -> bool:
    return chosen is not None and chosen.state is Progress.UNFINISHED and not chosen.rehearsal
