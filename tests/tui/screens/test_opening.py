"""What is typed before the screen that was asked for is there."""

from __future__ import annotations

from threading import Event
from typing import TYPE_CHECKING

import pytest
from textual.events import Key, Paste
from textual.message import Message
from textual.widgets import Input, OptionList

from tui.running.requests import LogList, Reckoner, Shelf
from tui.screens.log import LogScreen
from tui.screens.opening import OpeningScreen
from tui.shelf.screen import ShelfScreen
from tui.terminal.one_by_one import OneByOne

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker
    from tui.running.requests import First


@pytest.fixture(autouse=True)
def held(monkeypatch: pytest.MonkeyPatch) -> Event:
    """What is asked for is read no sooner than this is set."""
    held = Event()

    def wait(_: First) -> None:
        held.wait(5)

    monkeypatch.setattr("tui.app.start.import_screen", wait)
    return held


async def typed(on: Stage, held: Event, *keys: str | Message) -> None:
    """Keys and more as the terminal sends them, before there is more to see than what is being opened."""
    assert isinstance(on.app.screen, OpeningScreen)
    one_by_one = OneByOne(on.app, on.app.post_message)
    for key in keys:
        one_by_one.put(Key(key, key if len(key) == 1 else None) if isinstance(key, str) else key)
    held.set()
    await on.opened()
    await on.settled(lambda: one_by_one._task is None)
    await on.pilot.pause()


async def test_where_it_takes_long_it_is_said_what_is_opened(
    stage: StageMaker, held: Event, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tui.screens.opening._LONG", 0.01)
    async with stage(first=Shelf(), asks_first=True) as on:
        await on.settled(lambda: "reading the shelf ..." in "\n".join(on.rows()))
        held.set()
        await on.opened()
        assert "reading the shelf" not in "\n".join(on.rows())


async def test_keys_wait_for_the_list(stage: StageMaker, held: Event) -> None:
    async with stage(first=Shelf(), asks_first=True) as on:
        await typed(on, held, "down", "down", "up")
        assert isinstance(on.app.screen, ShelfScreen)
        assert on.app.screen.query_one(OptionList).highlighted == 2  # the heading counts


async def test_letters_and_what_is_pasted_wait_for_the_field_that_they_are_meant_for(
    stage: StageMaker, held: Event
) -> None:
    async with stage(first=Reckoner(), asks_first=True) as on:
        await typed(on, held, "down", "backspace", Paste("x"), "7")
        field = on.app.screen.focused
        assert isinstance(field, Input)
        assert field.value.endswith("x7")


@pytest.mark.parametrize("first", [Shelf(), LogList()])
async def test_a_key_to_leave_waits_too(stage: StageMaker, held: Event, first: First) -> None:
    async with stage(first=first, asks_first=True) as on:
        await typed(on, held, "q")
        await on.settled(lambda: not on.app.is_running or len(on.app.screen_stack) == 1)


async def test_help_that_was_asked_for_too_soon_is_that_of_the_screen_that_came(stage: StageMaker, held: Event) -> None:
    async with stage(first=LogList(), asks_first=True) as on:
        await typed(on, held, "question_mark", "escape", "question_mark")
        assert [type(screen).__name__ for screen in on.app.screen_stack[1:]] == [LogScreen.__name__, "HelpScreen"]


@pytest.mark.parametrize("key", ["ctrl+c", "ctrl+q"])
async def test_a_key_to_leave_at_once_waits_for_nothing(stage: StageMaker, key: str) -> None:
    async with stage(first=Shelf(), asks_first=True) as on:
        one_by_one = OneByOne(on.app, on.app.post_message)
        for name in ("down", key):
            one_by_one.put(Key(name, None))
        assert not one_by_one._waiting
        await on.settled(lambda: not on.app.is_running)
