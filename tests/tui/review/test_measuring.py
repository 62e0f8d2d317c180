"""Measuring in the review, days later, by one key: taken down, refused, mended, taken back."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from textual.widgets import Input

from plans.sitting.events import Word
from tests.tui.review.test_afterwards import finished
from tui.review.screen import ReviewScreen
from tui.running.requests import ReviewRequest
from tui.screens.line import LineScreen

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker


async def typed(on: Stage, text: str) -> None:
    await on.press("equals_sign")
    await on.settled(lambda: isinstance(on.app.screen, LineScreen))
    on.app.screen.query_one(Input).value = text
    await on.press("enter")


async def reviewed(on: Stage) -> list[str]:
    await on.settled(lambda: isinstance(on.app.screen, ReviewScreen))
    await on.app.workers.wait_for_complete()
    await on.look()
    later = on.app.logbook.load("last").measured_later
    return [] if later is None else [one.as_word for one in later.standing]


async def test_a_figure_is_measured_mended_and_taken_back(stage: StageMaker, tmp_path: Path) -> None:
    finished(tmp_path / "logbook")
    async with stage(first=ReviewRequest("last", False)) as on:
        await typed(on, "w 31.5 t 180 m")
        # What can't be stands there to be mended.
        await on.settled(lambda: isinstance(on.app.screen, LineScreen) and "is no length" in "".join(on.rows()))
        await on.press("escape")
        assert await reviewed(on) == []
        await typed(on, "w 31.5 t 18 hrc 61")
        assert await reviewed(on) == ["step 1 w 31.5 mm t 18 mm hrc 61"]
        assert "31.5 x 18 mm, HRC 61" in "\n".join(on.rows())
        assert "kept: step 1, at the bench" in "\n".join(on.rows())


async def test_what_is_far_from_the_plan_is_asked_about_once_and_u_takes_the_last_back(
    stage: StageMaker, tmp_path: Path
) -> None:
    finished(tmp_path / "logbook", Word.ACKNOWLEDGE, Word.NEXT)
    async with stage(first=ReviewRequest("last", False)) as on:
        assert "take it back" not in "\n".join(on.rows()[-3:])
        # The plan has 30 x 20 mm there: 300 x 18 mm is 9 times as much.
        await typed(on, "step 2 w 300 t 18")
        await on.settled(lambda: "800 % more section" in "".join(on.rows()))
        assert on.app.logbook.load("last").measured_later is None
        on.app.screen.query_one(Input).value = "step 2 w 30 t 18"
        await on.press("enter")
        assert await reviewed(on) == ["step 2 w 30 mm t 18 mm"]
        assert "u take it back" in "\n".join(" ".join(row.split()) for row in on.rows()[-3:])
        await typed(on, "step 2 l 15")
        await on.press("enter")
        assert await reviewed(on) == ["step 2 w 30 mm t 18 mm", "step 2 l 15 mm"], "said twice, it is so"
        await on.press("u")
        assert await reviewed(on) == ["step 2 w 30 mm t 18 mm"]
        await on.press("u", "u")
        assert await reviewed(on) == []
        await typed(on, "step 2 l 150")
        assert await reviewed(on) == ["step 2 l 150 mm"]
        later = on.app.logbook.load("last").measured_later
        assert later is not None
        assert [one.number for one in later.found] == [1, 2, 3], "no number is given again"
