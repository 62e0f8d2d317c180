"""A question with a few answers: all of it is there, however small the screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tui.screens.question import Choice, QuestionScreen

if TYPE_CHECKING:
    from tests.tui.conftest import StageMaker


async def test_no_word_of_it_is_cut(stage: StageMaker) -> None:
    asked = "A drawknife with a laid edge, begun 2026-03-14 09:15, was cut off. Go on with it?"
    choices = [Choice("go on", "g", "go on where it was left"), Choice("anew", "a", "begin anew; it stays in the log")]
    async with stage() as on:
        on.app.push_screen(QuestionScreen(asked, choices))
        for size in ((80, 24), (30, 8)):
            await on.pilot.resize_terminal(*size)
            await on.pilot.pause()
            shown = " ".join("".join(on.rows()).split())
            assert [word for word in f"{asked} {choices[0].text} {choices[1].text}".split() if word not in shown] == []
