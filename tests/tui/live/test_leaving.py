"""A sitting on the screen that is left or finished."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from plans.phase import PhaseKind
from plans.reader import SHELF
from plans.sitting.calls import Call
from plans.sitting.events import Word
from tests.tui.live.seen import to_soak
from tui.live.finished import FinishedScreen
from tui.live.screen import LiveScreen
from tui.widgets.lines import KeyLine

if TYPE_CHECKING:
    from tests.tui.conftest import StageMaker


async def test_leaving_a_sitting_that_runs_asks_first(stage: StageMaker) -> None:
    async with stage() as on:
        await on.press("q", "s")
        assert isinstance(on.app.screen, LiveScreen)
        await on.press("q", "l")
        assert on.app.outcome.status == 0
        assert "go on with it: heatbook run --go-on 20260314-091502-draw" in on.app.outcome.said[0]
    assert on.source.closed
    assert [path.suffix for path in (on.folders.logbook / "sittings").iterdir()] == [".json"]


async def test_finishing_shows_what_was_done_and_can_be_taken_back(stage: StageMaker) -> None:
    async with stage() as on:
        await to_soak(on)
        await on.press("q", "f")
        assert isinstance(on.app.screen, FinishedScreen)
        await on.press("u")
        assert isinstance(on.app.screen, LiveScreen)
        assert on.running.sitting.state.phase is PhaseKind.SOAK
        await on.pass_time(3)
        assert Call.PROBE_LOST not in on.running.sitting.state.called
        await on.say(Word.FINISH)
        assert isinstance(on.app.screen, FinishedScreen)
        await on.press("q")
        assert "heatbook log show 20260314-091502-draw" in on.app.outcome.said[0]


@pytest.mark.parametrize("size", [(80, 24), (40, 12), (20, 5)])
async def test_the_keys_stand_below_the_longest_summary(stage: StageMaker, size: tuple[int, int]) -> None:
    async with stage(size=size, plan=SHELF / "drawknife.toml") as on:
        for _ in range(11):
            await on.say(Word.ON)
        await on.say(Word.FINISH)
        await on.pilot.pause()
        assert isinstance(on.app.screen, FinishedScreen)
        keys = on.app.screen.query_one(KeyLine).region
        assert keys.height >= 1
        assert on.app.screen.region.contains_region(keys)


async def test_ctrl_c_leaves_at_once_with_the_log_whole(stage: StageMaker) -> None:
    async with stage() as on:
        await to_soak(on)
        await on.press("n", "ctrl+c")
        assert "go on with it" in on.app.outcome.said[0]
    assert [path.suffix for path in (on.folders.logbook / "sittings").iterdir()] == [".json"]
