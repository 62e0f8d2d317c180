"""Beside the list: what a plan takes and its sections, once it was looked at for a while."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from textual.widgets import OptionList, Static

from plans.reader import find_plan
from plans.shop import Shop
from plans.times import plan_times
from tui.running.requests import Shelf
from tui.widgets import ScaleView

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker


def words(on: Stage) -> str:
    return str(on.app.screen.query_one("#words", Static).content)


async def test_what_is_looked_at_for_a_while_is_worked_out(stage: StageMaker, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tui.shelf.side._RESTS", 0.001)
    minutes = round(plan_times(find_plan("drawknife", None), Shop()).in_the_fire / 60)
    async with stage(first=Shelf(), size=(120, 35)) as on:
        plans = on.app.screen.query_one(OptionList)
        plans.highlighted = plans.get_option_index("plan drawknife")
        await on.settled(lambda: "from edge" in words(on) and "in the fire" in words(on))
        hours, left = divmod(minutes, 60)
        assert f"24 heats, about {hours} h {left} min in the fire" in words(on)
        assert "from edge: 1084, 30 x 8 mm, 150 mm" in words(on)
        (picture,) = on.app.screen.query(ScaleView)
        await on.pilot.pause()
        assert picture.display
        assert "30 x 20 mm" in "\n".join(on.rows())
        await on.pilot.resize_terminal(80, 24)
        await on.pilot.pause()
        assert not picture.display, "there is no room for it"
        assert "about 1 h" in "\n".join(on.rows())


async def test_forty_plans_are_gone_along_without_working_any_out(
    stage: StageMaker, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tui.shelf.side._RESTS", 60.0)
    step = '[[step]]\ntitle = "{}"\nkind = "etch"\n[step.dip]\nfor = "90 s"\nmedium = "acid"\n'
    plans = {f"p{n:02}": f'heatbook = 1\ntitle = "Plan {n}"\n' + step.format(f"Dip {n}") for n in range(40)}
    async with stage(first=Shelf(), plans=plans) as on:
        listed = on.app.screen.query_one(OptionList)
        await on.press("end")
        assert "Plan 39" in words(on)
        assert "Plan 39" in "\n".join(on.rows()[:14]), "the list has gone along"
        await on.press("pageup", "up")
        assert "Plan 39" not in words(on)
        assert listed.scroll_y > 10
        assert "in the bath" not in words(on)
