"""The log: the sittings that were kept, the newest first."""

from __future__ import annotations

import asyncio
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import Screen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from plans.logbook import Progress, Summary
from plans.shown import counted
from tui.actions import Place, bindings
from tui.running import ReviewRequest, going_on, read_log
from tui.screens.foot_keys import keys_at_foot
from tui.screens.host import Host, host_of
from tui.screens.listing import sitting_row
from tui.widgets import Choices, KeyLine, SplitLine


async def open_log(host: Host, rehearsals: bool = False) -> None:
    """Read the list of the sittings that were kept, in a thread, and show it; what is wrong with the log is told.

    Args:
        host: shows it
        rehearsals: whether those are meant, which are kept apart
    """
    summaries, messages = await asyncio.to_thread(read_log, host.rehearsals if rehearsals else host.logbook)
    await host.push_screen(LogScreen(summaries, rehearsals))
    for text in messages:
        host.say_aside(text, wrong=True)


class LogScreen(Screen[None]):
    """The list of the sittings that were kept.

    Args:
        summaries: the sittings, the newest first
        rehearsals: whether they are those that are kept apart
    """

    PLACE: ClassVar[Place] = Place.LOG
    BINDINGS: ClassVar[list[BindingType]] = bindings(Place.LOG)
    DEFAULT_CSS = """
    LogScreen #head { text-style: bold; background: $surface; }
    LogScreen OptionList { height: 1fr; padding: 1 1 0 1; }
    LogScreen #none { height: 1fr; padding: 1 2; }
    LogScreen #keys { background: $surface; }
    """

    def __init__(self, summaries: list[Summary], rehearsals: bool = False) -> None:
        super().__init__()
        self._rehearsals = rehearsals
        self._summaries = {summary.id: summary for summary in summaries}
        self._listed_for = 0
        """The width that the rows are for [cells]."""

    def compose(self) -> ComposeResult:
        yield SplitLine(id="head")
        if self._summaries:
            yield Choices(markup=False)
        else:
            begin = "Rehearse a plan from the shelf." if self._rehearsals else "Begin a plan on the shelf."
            yield Static(f"Nothing has been kept yet. {begin}", id="none")
        yield KeyLine(id="keys")

    def on_mount(self) -> None:
        self.query_one("#head", SplitLine).show(*self._head(len(self._summaries)))
        self._list(self.app.size.width)

    def _head(self, count: int) -> tuple[str, str]:
        return ("Rehearsals", str(count)) if self._rehearsals else ("The log", counted(count, "sitting"))

    def on_resize(self, event: events.Resize) -> None:
        if event.size.width != self._listed_for:
            self._list(event.size.width)

    def _list(self, width: int) -> None:
        self._listed_for = width
        if not self._summaries:
            self._show_keys(None)
            return
        listed = self.query_one(OptionList)
        at = listed.highlighted or 0
        listed.clear_options()
        units = host_of(self).settings.units
        rows = [Option(sitting_row(one, width - 4, units), id=name) for name, one in self._summaries.items()]
        listed.add_options(rows)
        listed.highlighted = at
        listed.focus()
        self._show_keys(self._chosen())

    def on_option_list_option_highlighted(self, message: OptionList.OptionHighlighted) -> None:
        self._show_keys(self._summaries.get(message.option.id or ""))

    def _show_keys(self, chosen: Summary | None) -> None:
        now = {"log.open": "open" if chosen else "", "log.go-on": "go on" if _can_go_on(chosen) else ""}
        self.query_one(KeyLine).show(keys_at_foot(self, Place.LOG, now))

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

    def action_leave(self) -> None:
        """Close the log."""
        host_of(self).leave_screen()

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)

    def _chosen(self) -> Summary | None:
        if not self._summaries:
            return None
        listed = self.query_one(OptionList)
        return self._summaries.get(listed.highlighted_option.id or "") if listed.highlighted_option else None


def _can_go_on(chosen: Summary | None) -> bool:
    return chosen is not None and chosen.state is Progress.UNFINISHED and not chosen.rehearsal
