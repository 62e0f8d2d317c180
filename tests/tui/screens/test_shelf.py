"""The shelf and the log: what can be begun, gone on with, and looked at."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from textual.widgets import OptionList, Static

from plans.logbook.book import Logbook
from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reading import Reading
from plans.sitting.events import Word
from plans.units import Units
from tui.live.cautions import CautionsScreen
from tui.live.screen import LiveScreen
from tui.review.screen import ReviewScreen
from tui.running.requests import First, LogList, ReviewRequest, RunRequest, Shelf
from tui.running.sources import ClockSource
from tui.screens.log import LogScreen
from tui.screens.rehearsal import RehearsalScreen
from tui.screens.told import Told
from tui.shelf.screen import ShelfScreen
from tui.widgets.lines import KeyLine

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker

STARTED = datetime(2026, 3, 14, 9, 15, 2, tzinfo=UTC)

OWN = """
heatbook = 1
title = "My [/x] hook"
about = "One step only."

[[step]]
title = "Look"
kind = "bench"
instruction = "Look at it."
"""


def listed(on: Stage) -> list[str]:
    options = on.app.screen.query_one(OptionList)
    return [str(options.get_option_at_index(index).prompt).strip() for index in range(options.option_count)]


def about(on: Stage) -> str:
    return str(on.app.screen.query_one("#words", Static).content)


def foot(on: Stage) -> list[str]:
    return [does for _, does, _ in on.app.screen.query_one(KeyLine).keys]


async def leave_one(stage: StageMaker) -> None:
    """Leave a sitting unfinished."""
    async with stage() as on:
        await on.say(Word.NEXT)
        await on.pass_time(30)
        await on.press("q", "l")


async def test_an_empty_logbook_and_the_plans_that_ship(stage: StageMaker) -> None:
    async with stage(first=Shelf()) as on:
        assert isinstance(on.app.screen, ShelfScreen)
        assert listed(on)[0] == "Welded blades and billets"
        assert "Drawknife with a laid steel edge" in listed(on)
        assert "the log is empty" in on.rows()[0]
        assert foot(on)[:3] == ["begin", "rehearse", "log"]
        await on.press("l")
        await on.opened()
        assert isinstance(on.app.screen, LogScreen)
        assert "Nothing has been kept yet" in "\n".join(on.rows())
        await on.press("q", "q")
        assert not on.app.is_running


async def test_the_smiths_own_plans_and_broken_ones_with_their_error(stage: StageMaker) -> None:
    async with stage(first=Shelf(), plans={"hook": OWN, "wrong": OWN + 'colour = "red"\n'}) as on:
        assert "My [/x] hook  your own" in listed(on)
        # Its title and its steps look well at a glance.
        await on.settled(lambda: "wrong  can't be used" in listed(on))
        assert listed(on)[-2] == "Can't be used"
        await on.press("end")
        assert "wrong.toml:10" in about(on)
        assert "colour" in about(on)
        assert "begin" not in foot(on)
        await on.press("enter")
        assert isinstance(on.app.screen, ShelfScreen)


async def test_a_plan_is_begun_and_left_and_offered_to_be_gone_on_with(stage: StageMaker) -> None:
    async with stage(first=Shelf()) as on:
        await on.press("enter")
        await on.opened()
        assert isinstance(on.app.screen, CautionsScreen)
        await on.read_cautions()
        await on.press("space")
        assert on.running.sitting.state.step == 1
        await on.press("q", "l")
        await on.opened()
        assert isinstance(on.app.screen, ShelfScreen)
        assert listed(on)[0] == "Go on with"
        assert foot(on)[0] == "go on"
        assert "left before its end" in about(on)
        await on.press("enter")
        await on.opened()
        assert isinstance(on.app.screen, LiveScreen), "the cautions were acknowledged before"
        assert on.running.sitting.state.step == 1
        await on.press("q", "f")
        await on.press("q")
        await on.opened()
        assert listed(on)[0] == "Welded blades and billets"


async def test_a_plan_is_rehearsed(stage: StageMaker) -> None:
    async with stage(first=Shelf()) as on:
        await on.press("t")
        assert isinstance(on.app.screen, RehearsalScreen)
        await on.press("space")
        await on.settled(lambda: on.app.running is not None)
        assert on.running.logged.journal.header.rehearsal
        assert on.running.speed == 10.0
        await on.settled(lambda: isinstance(on.app.screen, LiveScreen))
        await on.press("plus")
        assert on.running.speed == 20.0
        await on.press("minus", "minus")
        assert on.running.speed == 5.0
        await on.press("ctrl+q")


@pytest.mark.parametrize(
    ("settings", "key"), [("", "space"), ('pedal.key = "f9"\n', "f9"), ('[keys]\nnext = "z"\n', "z")]
)
async def test_a_plan_is_begun_by_the_pedal(stage: StageMaker, settings: str, key: str) -> None:
    async with stage(first=Shelf(), settings=settings) as on:
        await on.press(key, key)
        # The sitting is begun behind the cautions.
        await on.settled(lambda: isinstance(on.app.screen, CautionsScreen) and on.app.running is not None)
        assert len(on.app.logbook.summaries()) == 1, "twice at once begins once"
        await on.press("ctrl+c")


async def test_a_plan_is_begun_by_the_pedals_switch(stage: StageMaker) -> None:
    async with stage(first=Shelf(), settings='[keys]\n"shelf.begin" = "x"\n') as on:
        on.app.in_hand.deliver(Word.BACK)
        await on.pilot.pause()
        assert isinstance(on.app.screen, ShelfScreen)
        on.app.in_hand.deliver(Word.NEXT)
        await on.settled(lambda: isinstance(on.app.screen, CautionsScreen))
        await on.press("ctrl+c")


async def test_what_is_wrong_with_the_pedal_is_told_on_the_shelf(stage: StageMaker, tmp_path: Path) -> None:
    port = str(tmp_path / "none")
    async with stage(first=Shelf(), settings=f'[pedal]\nline = "cts"\nport = "{port}"\n') as on:
        await on.settled(lambda: port in on.app.screen.query_one(Told).text)


async def test_that_another_sitting_runs_covers_nothing(stage: StageMaker, plan: Plan, tmp_path: Path) -> None:
    other = Logbook(tmp_path / "logbook")
    other.open_sitting(plan, STARTED)
    async with stage(first=Shelf()) as on:
        assert "another heatbook is writing" in on.app.screen.query_one(Told).text
        assert not on.app._notifications
        told = on.app.screen.query_one(Told).region
        assert told.height >= 2
        for other_part in ("#list", "#about", "#keys"):
            assert not on.app.screen.query_one(other_part).region.overlaps(told)
    other.close()


async def test_the_log_lists_opens_and_goes_on(stage: StageMaker) -> None:
    await leave_one(stage)
    async with stage(first=LogList()) as on:
        assert isinstance(on.app.screen, LogScreen)
        assert len(listed(on)) == 1
        assert listed(on)[0].startswith("2026-03-14 09:15  Drawknife with a laid edge")
        assert listed(on)[0].endswith("unfinished, 0 heats")
        await on.press("enter")
        await on.opened()
        assert isinstance(on.app.screen, ReviewScreen)
        await on.press("q", "g")
        await on.opened()
        assert isinstance(on.app.screen, LiveScreen)
        assert on.running.sitting.state.phase is PhaseKind.READY
        await on.press("ctrl+c")


async def test_a_sitting_gone_on_with_keeps_its_clock(stage: StageMaker) -> None:
    await leave_one(stage)
    async with stage(first=LogList()) as on:
        on.later(3600.0)
        await on.press("g")
        await on.opened()
        assert 3595 < on.running.source.clock() < 3645
        await on.press("ctrl+c")


async def test_what_was_cut_off_is_brought_back_and_said(stage: StageMaker) -> None:
    async with stage() as on:
        await on.say(Word.NEXT)
        await on.pass_time(5)
        journal = on.running.logged.journal.path
        content = journal.read_bytes()
        await on.press("q", "l")
    journal.with_suffix(".json").unlink()
    journal.write_bytes(content)
    async with stage(first=Shelf()) as on:
        assert listed(on)[0] == "Go on with"
        assert "brought back after it was cut off" in " ".join("".join(on.rows()).split())


@pytest.mark.parametrize(
    "first",
    [ReviewRequest("nothing"), RunRequest(lambda _: ClockSource(lambda: 0.0), go_on="nothing")],
    ids=["review", "run"],
)
async def test_what_is_not_there_is_told_on_leaving(stage: StageMaker, first: ReviewRequest | RunRequest) -> None:
    async with stage(first=first) as on:
        assert not on.app.is_running
        assert on.app.outcome.status == 1
        assert "sitting" in on.app.outcome.errors[0]


async def test_a_plan_that_can_not_be_used_is_told_on_leaving(stage: StageMaker) -> None:
    async with stage(plan_text='heatbook = 1\ntitle = "x"\n') as on:
        assert on.app.outcome.status == 1
        assert "step" in on.app.outcome.errors[0]


async def test_wrong_settings_are_told_and_the_others_hold(stage: StageMaker) -> None:
    async with stage(first=Shelf(), settings='units = "inch"\n[keys]\nnxt = "x"\n') as on:
        told = " ".join("".join(on.rows()).split())
        assert "there is no action nxt" in told
        assert "? help" in on.rows()[-1], "nothing is covered"
        assert on.app.settings.units is Units.INCH


async def test_what_a_closed_probe_still_had_to_say_does_not_reach_the_next_sitting(stage: StageMaker) -> None:
    async with stage(first=Shelf()) as on:
        on.app.in_hand.deliver(Reading(1.0, 1500.0))
        await on.pilot.pause()
        await on.press("enter")
        await on.opened()
        assert len(on.running.sitting.measured) == 0


@pytest.mark.parametrize("first", [Shelf(), LogList(), ReviewRequest("last")], ids=["shelf", "log", "review"])
async def test_no_size_makes_these_fall_over(stage: StageMaker, first: First) -> None:
    await leave_one(stage)
    for size in ((8, 3), (20, 5), (60, 12)):
        async with stage(first=first, size=size) as on:
            await on.press("down", "down", "up", "right")
            on.app.export_screenshot()
