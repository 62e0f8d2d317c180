"""The pictures that the README shows, and that nobody has to look at again while they stay the same.

They are compared byte for byte. When a screen was changed on purpose, look at it, then write them anew:

    HEATBOOK_PICTURES=write pytest tests/tui/screens/test_pictures.py
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from textual.widgets import Static

from plans.phase import PhaseKind
from plans.sitting.calls import Call
from plans.sitting.events import Word
from tui.running.requests import Maker, Reckoner

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker

PICTURES = Path(__file__).parents[1] / "pictures"
SIZES = [(80, 24), (120, 35), (200, 55)]


def _compare(on: Stage, name: str) -> None:
    width, height = on.app.size
    path = PICTURES / f"{name}-{width}x{height}.svg"
    drawn = on.app.export_screenshot(title="heatbook")
    if os.environ.get("HEATBOOK_PICTURES") == "write":
        path.write_text(drawn, encoding="utf-8", newline="\n")
        return
    assert path.exists(), f"there is no {path.name}; HEATBOOK_PICTURES=write makes it"
    same = drawn == path.read_text(encoding="utf-8")
    assert same, f"{path.name} is no longer what is drawn; see how to write it anew at the head of this test"


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
async def test_pictures(stage: StageMaker, size: tuple[int, int]) -> None:
    """A weld heat struck in time, one struck too cold, and the review of both."""
    async with stage(size=size) as on:
        on.slowness = 95.0
        state = on.running.sitting.state
        await on.say(Word.NEXT)
        await on.pass_time(20)
        await on.press("space")
        await on.until(lambda: state.phase is PhaseKind.SOAK)
        await on.pass_time(40)
        _compare(on, "soak")
        await on.until(lambda: Call.SOAK_DONE in state.alarms)
        await on.pass_time(4)
        await on.press("space")
        await on.pass_time(9)
        _compare(on, "strike")
        await on.pass_time(9)
        await on.press("space")
        await on.until(lambda: Call.SOAK_DONE in state.alarms)
        await on.press("space")
        await on.until(lambda: Call.TOO_COLD in state.alarms)
        await on.pass_time(2)
        _compare(on, "too-cold")
        await on.press("space")
        await on.pass_time(30)
        on.app.say(Word.NOTE, "left corner runs ahead")
        await on.say(Word.FINISH)
        await on.press("space")
        await on.opened()
        await on.press("down")
        _compare(on, "review")


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
async def test_pictures_of_the_reckoner(stage: StageMaker, size: tuple[int, int]) -> None:
    """A round bar that warms through."""
    async with stage(size=size, first=Reckoner()) as on:
        await on.press("right", "down")
        _compare(on, "reckoner")


async def test_a_picture_of_the_maker(stage: StageMaker) -> None:
    """A core between two jackets, as it is built."""
    async with stage(size=(120, 35), first=Maker()) as on:
        await on.press("d", "escape", "right", "down", "c")
        words = on.app.screen.query_one("#words", Static)
        await on.settled(lambda: all(one in str(words.content) for one in ("a patterned core", "in the fire")))
        await on.press("escape")  # a cursor would blink
        _compare(on, "maker")
