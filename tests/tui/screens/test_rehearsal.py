"""A rehearsal on the screen: what stands before it, and where it is kept."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, cast

import pytest

from plans.logbook.book import Logbook
from plans.plan import Plan
from tui.live.screen import LiveScreen
from tui.review.screen import ReviewScreen
from tui.running.requests import RunRequest, rehearsal_of
from tui.screens.rehearsal import RehearsalScreen

if TYPE_CHECKING:
    from tests.tui.conftest import StageMaker

STARTED = datetime(2026, 3, 14, 9, 15, 2, tzinfo=UTC)


@pytest.fixture
def request_(plan: Plan) -> RunRequest:
    # So slow that nothing happens while the test looks.
    return rehearsal_of(lambda: plan, 1, 0.5)


@pytest.mark.parametrize("size", [(80, 24), (120, 35)])
async def test_it_says_that_nothing_is_hot_and_what_may_be_done(
    stage: StageMaker, request_: RunRequest, size: tuple[int, int]
) -> None:
    async with stage(first=request_, size=size) as on:
        shown = " ".join(" ".join(on.rows()).split())
        for told in ("Nothing here is hot", "watch", "space", "+ and -", "apart from your log", "0.5 times"):
            assert told in shown
        await on.press("q")
        assert not on.app.is_running
        assert not on.app.rehearsals.summaries()


@pytest.mark.parametrize("by_key", [True, False], ids=["space", "by itself"])
async def test_it_begins_at_the_first_fire(stage: StageMaker, request_: RunRequest, by_key: bool) -> None:
    async with stage(first=request_) as on:
        screen = cast(RehearsalScreen, on.app.screen)
        if by_key:
            await on.press("space")
        else:
            on.real += 19.0
            screen.look()
            assert on.app.screen is screen
            on.real += 1.0
            screen.look()
        await on.settled(lambda: isinstance(on.app.screen, LiveScreen))
        assert on.running.sitting.state.step == 1
        await on.press("ctrl+c")


async def test_it_runs_beside_a_sitting_and_fills_no_log(
    stage: StageMaker, request_: RunRequest, plan: Plan, tmp_path: Path
) -> None:
    other = Logbook(tmp_path / "logbook")
    other.open_sitting(plan, STARTED)
    async with stage(first=request_) as on:
        await on.press("space")
        await on.settled(lambda: isinstance(on.app.screen, LiveScreen))
        await on.press("q", "f")
        await on.press("space")
        await on.settled(lambda: isinstance(on.app.screen, ReviewScreen))
        assert not on.app._notifications
        await on.press("q")
        assert str(tmp_path / "rehearsals") in on.app.outcome.said[0]
    assert len(other.summaries()) == 1
    assert [one.rehearsal for one in Logbook(tmp_path / "rehearsals").summaries()] == [True]
    other.close()
