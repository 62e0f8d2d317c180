"""Leaving the maker with a plan that is not written down: nothing hangs, and nothing is lost."""

from __future__ import annotations

import asyncio
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from plans.maker import propose, text_of
from plans.making import What
from plans.reader import AnswerKeys, PlanFile, read_plan_file
from tui.maker.questions_room import QuestionsRoom
from tui.running.requests import Maker, Shelf
from tui.screens.question import QuestionScreen
from tui.shelf.screen import ShelfScreen
from tui.widgets.lines import KeyLine

if TYPE_CHECKING:
    from tests.tui.conftest import StageMaker


@pytest.mark.parametrize(("keys", "clicked"), [(("l",), False), (("w", "enter"), False), (("l",), True)])
async def test_the_shelf_is_alive_after_an_unsaved_plan(
    stage: StageMaker, keys: tuple[str, ...], clicked: bool
) -> None:
    async with stage(first=Shelf()) as on:
        await on.press("w")
        await on.opened()
        await on.press("d", "escape")
        if clicked:  # a screen does that itself, and not the app, as with a key
            on.app.screen.post_message(KeyLine.Clicked("leave"))
            await on.settled(lambda: isinstance(on.app.screen, QuestionScreen))
        else:
            await on.press("escape")
        async with asyncio.timeout(5):
            await on.press(*keys)
            await on.settled(lambda: isinstance(on.app.screen, ShelfScreen))
            await on.press("slash", "escape", "ctrl+c")
        assert not on.app.is_running


async def test_a_plan_that_was_changed_on_the_disk_is_not_written_over(stage: StageMaker, tmp_path: Path) -> None:
    path = tmp_path / "plans" / "mine.toml"
    text = text_of(propose(AnswerKeys(what=What.CYCLES)))
    async with stage(plans={"mine": text}, first=Maker(PlanFile("mine", path, True))) as on:
        path.write_text(text.replace("Heat treatment", "Changed elsewhere,"))
        await on.press("escape", "w", "enter")
        assert "changed by somebody else" in "\n".join(on.rows())
        await on.press("escape")
        assert "Changed elsewhere" in path.read_text()
        await on.press("w", "enter", "o")
        await on.settled(lambda: path.read_text() == text)


async def test_ctrl_c_keeps_what_is_not_written_down(stage: StageMaker, tmp_path: Path) -> None:
    async with stage(first=Maker()) as on:
        await on.press("d", "enter", *"Reeds")
        await on.app.workers.wait_for_complete()
        await on.press("ctrl+c")
        assert not on.app.is_running
    assert "reeds-unsaved" in on.app.outcome.said[0]
    kept = tmp_path / "plans" / "reeds-unsaved.toml"
    assert read_plan_file(kept).title == "Reeds"
    async with stage(first=Maker()) as on:
        assert "kept from before" in "\n".join(on.rows())
    async with stage(first=Maker(PlanFile(kept.stem, kept, True))) as on:
        await on.press("escape", "w", "enter")
        await on.press("ctrl+c")
    assert on.app.outcome.said == ()
    assert [one.name for one in (tmp_path / "plans").iterdir()] == ["reeds.toml"], "it is in its place now"


async def test_a_letter_is_taken_from_a_field_that_one_comes_back_to(stage: StageMaker) -> None:
    async with stage(first=Maker()) as on:
        fields = on.app.screen.query_one(QuestionsRoom).fields
        await on.press("down", *"Reeds?", "down", "up", "backspace")
        assert fields.texts[1] == "Reeds"
        await on.press("down", "up", "x")
        assert fields.texts[1] == "x", "what is typed takes the place of all"
