"""What is heard while a sitting runs: bells and, by a speech command of our own making, sentences."""

from __future__ import annotations

import stat
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from plans.phase import PhaseKind
from plans.reader import read_plan_file
from plans.sitting.calls import Call
from plans.sitting.events import Word
from tui.running.requests import LogList

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker

Speech = Callable[[], list[str]]


@pytest.fixture
def speech(tmp_path: Path) -> tuple[str, Speech]:
    """A speech command that writes down what it is given, as a setting, and what it has been given so far."""
    heard = tmp_path / "heard.txt"
    script = tmp_path / "speak"
    script.write_text(f'#!/bin/sh\nprintf "%s\\n" "$*" >> "{heard}"\n')
    script.chmod(script.stat().st_mode | stat.S_IXUSR)
    return f'speech = "{script}"\n', lambda: heard.read_text().splitlines() if heard.exists() else []


async def hear(on: Stage, said: Speech, sentence: str) -> None:
    """Wait until the sentence has been spoken; what waits is measured by the stage's clock, which stands still."""
    for _ in range(500):
        if sentence in said():
            return
        await on.pilot.pause(0.01)
    raise AssertionError(f"{sentence!r} was not said, only {said()}")


async def test_the_calls_of_a_heat_are_spoken(stage: StageMaker, speech: tuple[str, Speech]) -> None:
    setting, said = speech
    async with stage(settings=setting) as on:
        state = on.running.sitting.state
        await on.say(Word.NEXT)
        await hear(on, said, "step two, Weld the edge to the back")
        await on.press("space")
        await hear(on, said, "heat one of three")
        await on.until(lambda: Call.SOAK_DONE in state.alarms)
        await hear(on, said, "soak done, take it out")
        await on.press("space")
        await on.until(lambda: Call.TOO_COLD in state.alarms)
        await hear(on, said, "back in the fire, too cold")
        assert any(line.endswith("seconds of hammer time") for line in said())


async def test_few_words_are_only_those_that_call_for_a_hand(stage: StageMaker, speech: tuple[str, Speech]) -> None:
    setting, said = speech
    async with stage(settings=setting + 'talk = "few"\n') as on:
        state = on.running.sitting.state
        await on.say(Word.NEXT, Word.NEXT)
        await on.until(lambda: Call.SOAK_DONE in state.alarms)
        await hear(on, said, "soak done, take it out")
        assert said() == ["soak done, take it out"]


async def test_muted_neither_bell_nor_voice(stage: StageMaker, speech: tuple[str, Speech]) -> None:
    setting, said = speech
    async with stage(settings=setting) as on:
        state = on.running.sitting.state
        await on.press("m")
        assert "bell and voice off" in "\n".join(on.rows())
        before = said()
        await on.say(Word.NEXT, Word.NEXT)
        await on.until(lambda: Call.SOAK_DONE in state.alarms)
        await on.pilot.pause(0.1)
        assert on.bells == []
        assert said() == before
        await on.press("m", "space")
        await on.until(lambda: Call.TOO_COLD in state.alarms)
        await hear(on, said, "back in the fire, too cold")
        assert len(on.bells) >= 1


async def test_how_much_is_said_is_one_key(stage: StageMaker, speech: tuple[str, Speech]) -> None:
    setting, _ = speech
    async with stage(settings=setting) as on:
        for volume in ("few", "nothing", "all", "normal"):
            await on.press("v")
            assert f"said aloud: {volume}" in "\n".join(on.rows())


async def test_without_a_voice_the_key_says_so(stage: StageMaker) -> None:
    async with stage() as on:
        await on.press("v")
        assert "only the bell is heard" in "\n".join(on.rows())


async def test_a_speech_command_that_is_not_there_is_named(stage: StageMaker) -> None:
    async with stage(settings='speech = "no-such-command -x"\n') as on:
        (told,) = (str(note.message) for note in on.app._notifications)
        assert "no-such-command: there is no such speech command" in told


async def test_the_cadence_rings_once_at_each_turn(stage: StageMaker, plan_with_turns: str) -> None:
    async with stage(plan_text=plan_with_turns) as on:
        state = on.running.sitting.state
        await on.say(Word.NEXT, Word.NEXT)
        await on.until(lambda: Call.SOAK_DONE in state.alarms)
        await on.press("space")
        assert state.phase is PhaseKind.STRIKE
        on.bells.clear()
        await on.pass_time(5.5)
        assert on.bells == []
        await on.pass_time(1.0)
        assert len(on.bells) == 1
        await on.pass_time(6.0)
        assert len(on.bells) == 2
        assert all(len(call.row.bell) > 1 for call in Call), "a single ring is the cadence's alone"


@pytest.fixture
def plan_with_turns(tmp_path: Path) -> str:
    """The plan of the stage, its weld with a cadence."""
    text = (Path(__file__).parents[1] / "draw.toml").read_text()
    with_turns = text.replace('kind = "weld"', 'kind = "weld"\nturn_every = "6 s"', 1)
    check = tmp_path / "check.toml"
    check.write_text(with_turns)
    assert read_plan_file(check).steps[1].turn_every == 6.0
    return with_turns


async def test_going_on_is_said(stage: StageMaker, speech: tuple[str, Speech]) -> None:
    setting, said = speech
    async with stage() as on:
        await on.say(Word.NEXT)
        await on.press("q", "l")
    async with stage(first=LogList(), settings=setting) as on:
        await on.press("g")
        await on.opened()
        await hear(on, said, "going on where it was left")
        await on.press("ctrl+c")


async def test_what_still_rang_stops_with_the_sitting(stage: StageMaker) -> None:
    async with stage() as on:
        state = on.running.sitting.state
        await on.say(Word.NEXT, Word.NEXT)
        await on.until(lambda: Call.SOAK_DONE in state.alarms)
        assert len(on.bells) == 1
        on.app.close_sitting()
        await on.pilot.pause(Call.SOAK_DONE.row.bell[-1] + 0.2)
        assert len(on.bells) == 1


async def test_nothing_said_by_setting_can_still_be_turned_up(stage: StageMaker, speech: tuple[str, Speech]) -> None:
    setting, said = speech
    async with stage(settings=setting + 'talk = "nothing"\n') as on:
        await on.say(Word.NEXT)
        await on.press("v")
        assert "said aloud: all" in "\n".join(on.rows())
        await on.press("space")
        await hear(on, said, "heat one of three")
        assert not any("step two" in line for line in said())
