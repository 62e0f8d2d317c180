"""No size makes the live screen fall over, from one cell up."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from plans.sitting.calls import Call
from plans.sitting.events import Word
from tests.tui.live.seen import hero, line, to_soak
from tui.live.arrangement import arrange

if TYPE_CHECKING:
    from tests.tui.conftest import StageMaker


@pytest.mark.parametrize("size", [(1, 1), (39, 40), (80, 18), (240, 70)])
async def test_no_size_makes_it_fall_over(stage: StageMaker, size: tuple[int, int]) -> None:
    async with stage(size=size) as on:
        await to_soak(on)
        await on.until(lambda: Call.SOAK_DONE in on.running.sitting.state.alarms)
        await on.press("f", "f", "n", "escape", "q", "escape")
        if size >= (20, 5):
            await on.press("c", "escape", "question_mark", "escape")
        await on.press("space")
        await on.until(lambda: Call.TOO_COLD in on.running.sitting.state.alarms)
        await on.say(Word.FINISH)
        on.app.export_screenshot()


async def test_a_tiny_terminal_has_word_figure_and_what_space_means(stage: StageMaker) -> None:
    async with stage(size=(20, 5)) as on:
        await on.say(Word.NEXT)
        await on.press("space")
        await on.pass_time(30)
        assert line(on, "#small-word") == "HEAT | modelled"
        assert hero(on).region.height == 3
        assert on.rows()[-1].strip() == "space skin is at he…"


async def test_the_size_may_change_at_any_time(stage: StageMaker) -> None:
    async with stage(size=(120, 35)) as on:
        await to_soak(on)
        for size in ((80, 24), (20, 5), (200, 55), (80, 24)):
            await on.pilot.resize_terminal(*size)
            await on.pilot.pause()
            room = arrange(*size)
            assert hero(on).size.height == room.figure + (room.word if room.word > 1 else 0)
