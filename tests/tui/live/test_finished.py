"""The end of a sitting: what undo takes back there, word by word."""

from __future__ import annotations

from typing import TYPE_CHECKING

from plans.sitting.events import Word
from tui.live.finished import FinishedScreen
from tui.live.screen import LiveScreen

if TYPE_CHECKING:
    from tests.tui.conftest import StageMaker


async def test_undo_at_the_end_says_which_word_it_takes_back(stage: StageMaker) -> None:
    async with stage() as on:
        on.app.say(Word.NEXT)
        on.app.say(Word.FINISH)
        await on.settled(lambda: isinstance(on.app.screen, FinishedScreen))
        on.app.say(Word.MEASURED, "w 31.5")
        on.app.say(Word.TICK, "step 1 item 1")
        for what in ("tick", "measured"):
            await on.press("u")
            await on.settled(lambda what=what: f"taken back: {what}" in "\n".join(on.rows()))  # type: ignore[misc]
        await on.press("u")
        await on.settled(lambda: isinstance(on.app.screen, LiveScreen))
