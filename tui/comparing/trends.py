"""Trends: how heats, times and sound welds go over all sittings of a plan or a kind of step, and habits and flaws."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator
from textwrap import wrap
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from plans.logbook import Logbook
from plans.logbook.comparing import (
    MEDIANS,
    Occasion,
    Table,
    habit_table,
    habits_heading,
    habits_told,
    habits_verdict,
    occasions,
    of_kind,
    points_of,
    trend_table,
)
from plans.plan import StepKind
from plans.shown import counted
from tui.actions import BY_ID, Place, bindings, shown_key
from tui.running import ReviewRequest, TrendsRequest, news_of
from tui.screens import Host, TellingScreen, Told, gap, heading, host_of, keys_at_foot, logbook_of, row
from tui.widgets import Choices, KeyLine, SplitLine


async def open_trends(host: Host, what: TrendsRequest) -> None:
    """Read the figures of all sittings, in a thread, and show how they go.

    Raises:
        LogbookError: the folder can't be read.
    """
    found, messages = await asyncio.to_thread(_read, logbook_of(host, what.rehearsal))
    await host.push_screen(TrendsScreen(found, what))
    for text in messages:
        host.say_aside(text, wrong=True)


def _read(logbook: Logbook) -> tuple[list[Occasion], tuple[str, ...]]:
    return list(occasions(logbook)), news_of(logbook)


class TrendsScreen(TellingScreen):
    """A line for each sitting, or for several that followed one another, and what goes with flawed welds.

    Args:
        found: the sittings of all plans, with all their steps
        what: which of them are shown first
    """

    PLACE: ClassVar[Place] = Place.TRENDS
    BINDINGS: ClassVar[list[BindingType]] = bindings(Place.TRENDS)
    DEFAULT_CSS = """
    TrendsScreen #head { text-style: bold; background: $surface; }
    TrendsScreen #columns { text-style: bold; color: $text-muted; padding: 1 1 0 1; height: 2; }
    TrendsScreen OptionList { height: 1fr; padding: 0 0 0 1; }
    TrendsScreen #keys { background: $surface; }
    """

    def __init__(self, found: list[Occasion], what: TrendsRequest) -> None:
        super().__init__()
        self._all, self._what = found, what
        self._plan: str | None = what.plan
        self._kind = what.kind
        self._rows: tuple[tuple[str, ...], ...] = ()
        """The ids of the sittings behind each row of the table."""

    def compose(self) -> ComposeResult:
        yield SplitLine(id="head")
        yield Static(id="columns", markup=False)
        yield Choices(markup=False)
        yield Told()
        yield KeyLine(id="keys")

    def on_mount(self) -> None:
        self._show()
        self.query_one(OptionList).focus()

    def on_resize(self) -> None:
        at = self.query_one(OptionList).highlighted
        self._show()
        if at is not None:
            self.query_one(OptionList).highlighted = at

    def action_before(self) -> None:
        """Show steps of the kind before this one."""
        self._go(-1)

    def action_after(self) -> None:
        """Show steps of the kind after this one."""
        self._go(1)

    def action_plans(self) -> None:
        """Show the sittings of all plans, or of the one plan again."""
        self._plan = self._what.plan if self._plan is None else None
        if self._kind not in self._kinds():
            self._kind = None
        self._show()

    async def action_open(self) -> None:
        """Show the whole of the chosen sitting, or of the newest of those in its row."""
        at = self.query_one(OptionList).highlighted_option
        what, _, number = ((at.id if at is not None else "") or "").partition(":")
        if what == "row":
            await host_of(self).open(ReviewRequest(self._rows[int(number)][-1], self._what.rehearsal))

    async def on_option_list_option_selected(self, message: OptionList.OptionSelected) -> None:
        message.stop()
        await self.action_open()

    def action_leave(self) -> None:
        """Go back to where you came from."""
        host_of(self).leave_screen()

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)

    def _of_plan(self) -> list[Occasion]:
        return [one for one in self._all if self._plan in (None, one.plan)]

    def _kinds(self) -> list[StepKind | None]:
        """All that can be shown: every step, or those of each kind that there is."""
        there = {step.kind for one in self._of_plan() for step in one.steps}
        return [None, *(kind for kind in StepKind if kind in there)]

    def _go(self, kinds: int) -> None:
        known = self._kinds()
        at = known.index(self._kind) if self._kind in known else 0
        self._kind = known[(at + kinds) % len(known)]
        self._show()

    def _show(self) -> None:
        found = list(of_kind(self._of_plan(), self._kind))
        steps = "every step" if self._kind is None else f"{self._kind.value} steps"
        plan = "all plans" if self._plan is None else self._plan
        self.query_one("#head", SplitLine).show(f"Trends: {plan}, {steps}", counted(len(found), "sitting"))
        table = trend_table(points_of(found), host_of(self).settings.units)
        self._rows = table.of
        widths = _widths(table, self.app.size.width - 3)
        self.query_one("#columns", Static).update(row(table.heading, widths) if found else "")
        listed = self.query_one(OptionList)
        listed.clear_options()
        listed.add_options(self._options(found, table, widths))
        listed.action_first()
        self._show_keys()

    def _options(self, found: list[Occasion], table: Table, widths: list[int]) -> Iterator[Option]:
        if not found:
            yield Option("no sitting like that is finished yet, nor was an outcome said of one", id="none")
            return
        for number, cells in enumerate(table.rows):
            yield Option(Content(row(cells, widths)), id=f"row:{number}")
        room = self.app.size.width - 3
        if len(table.rows) < len(found):
            yield Option(Content.styled("\n".join(wrap(MEDIANS, room)), "$text-muted"), id="medians")
        if not any(step.kind is StepKind.WELD for one in found for step in one.steps):
            return
        told = habits_told(found)
        yield gap()
        if told.habits:
            yield heading(habits_heading(told))
            habits = habit_table(told, host_of(self).settings.units)
            across = _widths(habits, room)
            yield Option(Content.styled(row(habits.heading, across), "$text-muted"), disabled=True)
            for number, cells in enumerate(habits.rows):
                yield Option(Content(row(cells, across)), id=f"habit:{number}")
        yield Option(Content("\n".join(wrap(habits_verdict(told), room))), id="verdict")

    def _show_keys(self) -> None:
        keys = host_of(self).settings.keys
        plans = (
            "" if {one.plan for one in self._all} <= {self._what.plan} else "all plans" if self._plan else "one plan"
        )
        first, *others = keys_at_foot(self, Place.TRENDS, {"trends.plans": plans})
        pair = " ".join(shown_key(BY_ID[f"trends.{one}"], keys) for one in ("before", "after"))
        self.query_one("#keys", KeyLine).show([first, (pair, "kind of step", "after"), *others])


def _widths(table: Table, room: int) -> list[int]:
    """As wide as their longest texts, and as far apart as there is room for."""
    longest = [max(map(len, column)) for column in zip(table.heading, *table.rows, strict=True)]
    apart = next((apart for apart in (3, 2, 1) if sum(longest) + apart * (len(longest) - 1) <= room), 1)
    return [longest[0], *(width + apart for width in longest[1:])]
