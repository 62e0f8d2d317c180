"""Leaving the maker with a plan that is not written down: nothing hangs, and nothing is lost."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

import pytest

from tui.running.requests import Shelf
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
