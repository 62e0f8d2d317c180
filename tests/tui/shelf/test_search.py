"""The shelf is searched as one types; no key typed into the search does anything else."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import events
from textual.widgets import OptionList

from tui.live.cautions import CautionsScreen
from tui.running.requests import Shelf
from tui.shelf.screen import ShelfScreen
from tui.widgets.search_line import SearchLine

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker


NAMES = {"/": "slash", " ": "space"}


def listed(on: Stage) -> list[str]:
    options = on.app.screen.query_one(OptionList)
    return [str(options.get_option_at_index(index).prompt).strip() for index in range(options.option_count)]


async def type_fast(on: Stage, text: str) -> None:
    """Keys that come before the ones ahead of them have been obeyed."""
    for character in text:
        key = events.Key(NAMES.get(character, character), character)
        key.set_sender(on.app)  # as the terminal's driver does
        on.app.post_message(key)
    await on.settled(lambda: [line.value for line in on.app.screen.query(SearchLine)] == [text[1:]])


async def test_the_shelf_is_searched_as_one_types(stage: StageMaker) -> None:
    async with stage(first=Shelf()) as on:
        everything = listed(on)
        await type_fast(on, "/kitchen q/log")
        assert isinstance(on.app.screen, ShelfScreen), "neither log nor reckoner, and the shelf is not left"
        await on.settled(lambda: listed(on) == ["no plan has these words"])
        await on.press("enter")
        assert isinstance(on.app.screen, ShelfScreen)
        await on.press(*["backspace"] * 5)
        kitchen = [row for row in everything if "kitchen" in row.lower()]
        assert len(kitchen) == 3
        assert listed(on) == [everything[0], *kitchen], "a heading, and what is for a kitchen"
        await on.press("down")
        assert "24 heats" in "\n".join(on.rows()), "the one that is chosen stands beside the list"
        await on.press("escape")
        assert listed(on) == everything
        chosen = on.app.screen.query_one(OptionList).highlighted_option
        assert chosen is not None
        assert chosen.id == "plan kitchen-billet"
        await on.press("slash")
        on.app.post_message(events.Paste("tangs\x1b\n"))
        await on.settled(lambda: on.app.screen.query_one(SearchLine).value == "tangs ")
        await on.settled(lambda: listed(on) == [everything[0], "Drawknife with a laid steel edge"])
        await on.press("enter")
        await on.settled(lambda: isinstance(on.app.screen, CautionsScreen))
        await on.press("ctrl+c")
