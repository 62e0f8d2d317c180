"""The first start: what there is, and three questions."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from plans.sitting.saying import Volume
from plans.units import Units
from tui.config.first_settings import keep_first_settings
from tui.config.settings import ProbeSetting, Settings
from tui.config.settings_reader import read_settings
from tui.running.requests import First, LogList, Reckoner, Shelf
from tui.screens.first_start import FirstStartScreen, answered, first_questions
from tui.screens.told import Told
from tui.shelf.screen import ShelfScreen

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker


@pytest.fixture(autouse=True)
def no_ports(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever is plugged into this machine is not asked about."""
    monkeypatch.setattr("tui.screens.first_start.find_ports", list)


async def asked(on: Stage) -> FirstStartScreen:
    await on.settled(lambda: isinstance(on.app.screen, FirstStartScreen) and on.app.screen.is_mounted)
    await on.pilot.pause()
    assert isinstance(on.app.screen, FirstStartScreen)
    return on.app.screen


async def on_shelf(on: Stage) -> str:
    """What is told on the shelf, once it is there."""
    await on.settled(lambda: isinstance(on.app.screen, ShelfScreen))
    await on.settled(lambda: bool(on.app.screen.query_one(Told).text))
    return on.app.screen.query_one(Told).text


@pytest.mark.parametrize("size", [(80, 24), (120, 35)])
async def test_it_fits_says_what_there_is_and_keeps_what_was_answered(
    stage: StageMaker, tmp_path: Path, size: tuple[int, int]
) -> None:
    async with stage(first=Shelf(), settings=None, size=size, asks_first=True) as on:
        await asked(on)
        shown = "\n".join(on.rows())
        for word in ("plans", "rehearsal", "log", "reckoner", "Units", "Probe", "Sound", "question 1 of 3"):
            assert word in shown
        await on.press("2", "space", "2")
        assert str(tmp_path / "heatbook.toml") in (await on_shelf(on)).replace("\n", "")
        assert (on.app.settings.units, on.app.settings.mute) == (Units.INCH, True)
    settings, wrong = read_settings(tmp_path / "heatbook.toml")
    assert wrong == []
    assert settings == Settings(units=Units.INCH, mute=True)


async def test_on_a_small_screen_each_question_stands_with_all_its_answers(stage: StageMaker) -> None:
    async with stage(first=Shelf(), settings=None, size=(30, 8), asks_first=True) as on:
        screen = await asked(on)
        for question in screen._questions:
            shown = "\n".join(on.rows())
            assert all(part in shown for part in (question.about, *(choice.text for choice in question.choices)))
            await on.press("1")


async def test_left_with_a_key_it_stays_as_it_ships_and_is_not_asked_again(stage: StageMaker, tmp_path: Path) -> None:
    async with stage(first=Shelf(), settings=None, asks_first=True) as on:
        await asked(on)
        await on.press("q")
        await on_shelf(on)
    assert read_settings(tmp_path / "heatbook.toml")[0].units is Units.METRIC
    async with stage(first=Shelf(), settings=None) as on:
        assert isinstance(on.app.screen, ShelfScreen)


async def test_an_answer_is_taken_back(stage: StageMaker, tmp_path: Path) -> None:
    async with stage(first=Shelf(), settings=None, asks_first=True) as on:
        await asked(on)
        await on.press("2", "u", "1", "q")
        await on_shelf(on)
    assert read_settings(tmp_path / "heatbook.toml")[0].units is Units.METRIC


@pytest.mark.parametrize("first", [None, LogList(), Reckoner()], ids=["a sitting", "log", "reckoner"])
async def test_nobody_else_is_held_up(stage: StageMaker, tmp_path: Path, first: First | None) -> None:
    async with stage(first=first, settings=None, acknowledged=False) as on:
        assert not isinstance(on.app.screen, FirstStartScreen)
        await on.press("ctrl+c")
    assert not (tmp_path / "heatbook.toml").exists()


async def test_settings_that_can_not_be_written_hold_and_it_is_told(stage: StageMaker, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    async with stage(first=Shelf(), settings=None, asks_first=True) as on:
        await asked(on)
        on.app.folders = type(on.app.folders)(
            on.folders.logbook, on.folders.plans, on.folders.probes, tmp_path / "file" / "heatbook.toml"
        )
        await on.press("2", "q")
        assert "can't be written" in await on_shelf(on)
        assert on.app.settings.units is Units.INCH


def test_what_is_written_is_what_was_answered(tmp_path: Path) -> None:
    path = tmp_path / "new" / "heatbook.toml"
    units, probe, sound = first_questions(["/dev/ttyUSB0"], speaks=True)
    for answers in (
        [asked.choices[number].name for asked, number in zip((units, probe, sound), numbers, strict=True)]
        for numbers in ((0, 0, 0), (1, 1, 1), (0, 1, 2))
    ):
        path.unlink(missing_ok=True)
        settings = answered(Settings(), answers)
        keep_first_settings(path, settings)
        assert read_settings(path) == (settings, [])
    assert settings.probe == ProbeSetting("/dev/ttyUSB0")
    assert answered(Settings(), ["metric", "none", "bell"]).talk is None
    assert answered(Settings(), ["metric", "none", "voice"]).talk is Volume.NORMAL


def test_a_voice_is_offered_where_there_is_one_and_a_probe_for_later_where_none_is() -> None:
    *_, probe, sound = first_questions([], speaks=False)
    assert [choice.name for choice in probe.choices] == ["none", "later"]
    assert [choice.name for choice in sound.choices] == ["bell", "silent"]
