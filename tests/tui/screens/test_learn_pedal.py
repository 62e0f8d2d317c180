"""A pedal: the key that it sends is learned by pressing it, and a switch says what the key says."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from textual.widgets import Input

from plans.phase import PhaseKind
from plans.sitting.events import Said, Word
from tui.config.errors import UsageError
from tui.config.pedal_key import keep_pedal_key
from tui.config.settings import PedalSetting
from tui.config.settings_reader import read_settings
from tui.live.finished import FinishedScreen
from tui.live.screen import LiveScreen
from tui.review.screen import ReviewScreen
from tui.running.requests import Shelf
from tui.screens.learn_pedal import PedalScreen
from tui.shelf.screen import ShelfScreen

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker


def shown(on: Stage) -> str:
    return " ".join("\n".join(on.rows()).replace("▌", " ").split())


async def tread(on: Stage, word: Word) -> None:
    """The switch says a word: from its thread to the app, from there to the screen as a key, and what comes of it."""
    on.real += 1.0
    on.app.in_hand.deliver(word)
    for _ in range(4):
        await on.pilot.pause()


async def test_the_key_of_a_pedal_is_learned_kept_and_says_next(stage: StageMaker, tmp_path: Path) -> None:
    async with stage(first=Shelf(), settings='# mine\nunits = "inch"\n') as on:
        await on.press("d")
        assert isinstance(on.app.screen, PedalScreen)
        await on.press("u")
        assert "which is the key of undo" in shown(on)
        await on.press("space")
        assert 'which says "next" already' in shown(on)
        await on.press("f9")
        assert not isinstance(on.app.screen, PedalScreen)
        assert (tmp_path / "heatbook.toml").read_text() == '# mine\nunits = "inch"\n\n[pedal]\nkey = "f9"\n'
        await on.press("enter")
        await on.opened()
        state = on.running.sitting.state
        for _ in range(30):
            if isinstance(on.app.screen, LiveScreen):
                break
            await on.press("f9")
        assert isinstance(on.app.screen, LiveScreen), "the cautions, too, are read by the pedal"
        await on.press("f9")
        assert state.step == 1
        await on.press("space")
        assert state.step == 2, "the key that it was before still serves"
        await on.press("ctrl+q")


async def test_a_burst_of_keys_is_one_press(stage: StageMaker, tmp_path: Path) -> None:
    async with stage(first=Shelf()) as on:
        await on.press("d")
        for _ in range(3):
            on.app.simulate_key("f9")
        await on.settled(lambda: isinstance(on.app.screen, ShelfScreen))
        assert read_settings(tmp_path / "heatbook.toml")[0].pedal == PedalSetting("f9")


async def test_a_pedal_can_be_let_be(stage: StageMaker, tmp_path: Path) -> None:
    async with stage(first=Shelf()) as on:
        await on.press("d", "escape")
        assert not isinstance(on.app.screen, PedalScreen)
        assert (tmp_path / "heatbook.toml").read_text() == ""


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("", '\n[pedal]\nkey = "f5"\n'),
        ('[pedal]\nline = "cts"\n', '[pedal]\nkey = "f5"\nline = "cts"\n'),
        ('[pedal]\nline = "cts"\nkey = "a"  # old\n[keys]\n', '[pedal]\nline = "cts"\nkey = "f5"\n[keys]\n'),
        ("[keys]\nundo = 'x'", "[keys]\nundo = 'x'\n\n[pedal]\nkey = \"f5\"\n"),
        ("pedal = {line = 'cts'}  # mine\n", "pedal = {line = 'cts',key = \"f5\"}  # mine\n"),
        ("pedal.line = 'cts'\nmute = true\n", "pedal.line = 'cts'\npedal.key = \"f5\"\nmute = true\n"),
    ],
)
def test_all_else_in_the_settings_stays(tmp_path: Path, before: str, after: str) -> None:
    path = tmp_path / "sub" / "heatbook.toml"
    if before:
        path.parent.mkdir()
        path.write_text(before)
    keep_pedal_key(path, "f5")
    assert path.read_text() == after
    pedal = read_settings(path)[0].pedal
    assert pedal is not None
    assert pedal.key == "f5"


@pytest.mark.parametrize("text", ["pedal = 'f4'\n", "[[pedal]]\nline = 'cts'\n", "pedal.key.x = 1\n", "not toml"])
def test_what_can_not_be_replaced_stays_as_it_is(tmp_path: Path, text: str) -> None:
    path = tmp_path / "heatbook.toml"
    path.write_text(text)
    with pytest.raises(UsageError, match=r"heatbook\.toml"):
        keep_pedal_key(path, "f5")
    assert path.read_text() == text


async def test_a_switch_says_what_the_key_says_on_every_screen(stage: StageMaker) -> None:
    async with stage(acknowledged=False) as on:
        state = on.running.sitting.state
        for _ in range(30):
            if isinstance(on.app.screen, LiveScreen):
                break
            await tread(on, Word.NEXT)
        assert state.acknowledged_at is not None
        assert isinstance(on.app.screen, LiveScreen)
        for word in (Word.NEXT, Word.NEXT, Word.BACK):
            await tread(on, word)
        logged = [event.word for event in on.running.logged.journal.log.events if isinstance(event, Said)]
        assert logged == [Word.ACKNOWLEDGE, Word.NEXT, Word.NEXT, Word.BACK]


async def test_a_switch_is_heard_while_a_note_is_written_and_writes_nothing_into_it(stage: StageMaker) -> None:
    async with stage() as on:
        await on.press("n", "x")
        await tread(on, Word.NEXT)
        assert on.running.sitting.state.step == 1
        assert on.app.screen.query_one(Input).value == "x"


async def test_a_switch_has_stopped_bouncing_and_counts_each_time(stage: StageMaker) -> None:
    async with stage() as on:
        for _ in range(2):
            on.real += 0.5
            on.app.in_hand.deliver(Word.NEXT)
            await on.pilot.pause()
        assert on.running.sitting.state.phase is PhaseKind.FIRE


@pytest.mark.parametrize("by", ["key", "switch"])
async def test_the_end_is_answered_by_the_pedal_too(stage: StageMaker, by: str) -> None:
    async with stage(settings='pedal.key = "f9"\n') as on:
        await on.say(Word.FINISH)
        assert isinstance(on.app.screen, FinishedScreen)
        if by == "key":
            await on.press("f9")
        else:
            await tread(on, Word.NEXT)
        await on.opened()
        assert isinstance(on.app.screen, ReviewScreen)


async def test_a_pedal_that_hangs_on_no_port_is_told_and_the_sitting_goes_on(stage: StageMaker) -> None:
    async with stage(settings='pedal.line = "cts"\n', probe_on=None) as on:
        assert "it names no port, and there is no probe" in shown(on)
        await on.press("space")
        assert on.running.sitting.state.step == 1
