"""The review of a sitting: heats, calls and notes in one list, and the curve that goes with it."""

from __future__ import annotations

from pathlib import Path
from shutil import copytree
from typing import TYPE_CHECKING

import pytest
from textual.widgets import OptionList

from plans.plan import PhaseKind
from plans.sitting.events import Call, Word
from tui.request import Review
from tui.screens.lines import KeyLine, SplitLine
from tui.screens.review import ReviewScreen
from tui.widgets.trace import TraceView

if TYPE_CHECKING:
    from tests.tui.screens.conftest import Stage, StageMaker


@pytest.fixture(scope="module")
def once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the sitting that all look at is kept, once it has been made."""
    return tmp_path_factory.mktemp("made") / "logbook"


@pytest.fixture
async def review(stage: StageMaker, once: Path, tmp_path: Path) -> StageMaker:
    """A stage with a sitting of two weld heats in its log, the second struck too cold."""
    if not once.exists():
        await _two_heats(stage)
        copytree(tmp_path / "logbook", once)
    else:
        copytree(once, tmp_path / "logbook")
    return stage


async def _two_heats(stage: StageMaker) -> None:
    async with stage() as on:
        state = on.attending.sitting.state
        await on.say(Word.NEXT)
        for heat in (1, 2):
            await on.press("space")
            await on.until(lambda: state.phase is PhaseKind.SOAK)
            await on.until(lambda: Call.SOAK_DONE in state.alarms)
            await on.press("space")
            if heat == 1:
                await on.pass_time(15)
            else:
                await on.until(lambda: Call.TOO_COLD in state.alarms)
                await on.pass_time(10)
        on.app.say(Word.NOTE, "seam \x1b[31m open")
        await on.say(Word.FINISH)
        await on.press("q")


def lines(on: Stage) -> list[str]:
    options = on.app.screen.query_one(OptionList)
    return [str(options.get_option_at_index(index).prompt) for index in range(options.option_count)]


def chosen(on: Stage) -> str:
    option = on.app.screen.query_one(OptionList).highlighted_option
    return "" if option is None else str(option.prompt)


async def test_heats_calls_and_notes_stand_in_one_list(review: StageMaker) -> None:
    async with review(first=Review("last")) as on:
        assert isinstance(on.app.screen, ReviewScreen)
        found = lines(on)
        assert found[0] == "2  Weld the edge to the back"
        one, two = found[1].split(), found[2].split()
        assert one[0] == "1"
        assert one[-1] == two[-1] == "measured"
        assert "s" not in one, "the first was not struck too cold"
        cold = int(two[two.index("s") - 1])
        assert 5 <= cold <= 20
        assert found[found.index("Calls") + 1].split()[1:4] == ["♦", "soak", "done,"]
        assert any("▼ too cold, step 2, heat 2" in line for line in found)
        assert found[found.index("Notes") + 1].endswith("seam [31m open")


async def test_the_figures_are_those_of_the_log(review: StageMaker) -> None:
    async with review(first=Review("last")) as on:
        screen = on.app.screen
        assert isinstance(screen, ReviewScreen)
        heat = screen.review.kept.figures["steps"][1]["heats"][0]
        row = lines(on)[1].split()
        minutes, seconds = row[1].split(":")
        assert int(minutes) * 60 + int(seconds) == round(heat["in_fire_seconds"])
        assert int(row[3]) == round(heat["leaving_celsius"])


async def test_up_and_down_walk_along_heats_left_and_right_move_the_reading_line(review: StageMaker) -> None:
    async with review(first=Review("last")) as on:
        trace = on.app.screen.query_one(TraceView)
        first = trace.cursor_at
        assert chosen(on).split()[0] == "1"
        await on.press("down")
        assert chosen(on).split()[0] == "2"
        second = trace.cursor_at
        assert first is not None
        assert second is not None
        assert second > first
        await on.press("left", "left")
        assert trace.cursor_at is not None
        assert trace.cursor_at < second
        reading = on.app.screen.query_one("#reading", SplitLine)
        assert "measured 1" in reading.left
        assert "heat 2" in str(reading.right)


async def test_enter_looks_closer_and_back_at_the_whole(review: StageMaker) -> None:
    async with review(first=Review("last")) as on:
        trace = on.app.screen.query_one(TraceView)
        whole = (trace.data.begin, trace.data.end)
        assert len(trace.data.spans) == 2
        await on.press("down", "enter")
        assert trace.data.begin > whole[0]
        assert on.app.screen.query_one(KeyLine).keys[0][1] == "whole sitting"
        await on.press("enter")
        assert (trace.data.begin, trace.data.end) == whole


async def test_a_sitting_in_which_nothing_was_done(stage: StageMaker) -> None:
    async with stage() as on:
        await on.press("ctrl+c")
    async with stage(first=Review("last")) as on:
        assert "nothing was noted" in lines(on)[0]
        await on.press("left", "enter", "down")


async def test_a_sitting_whose_plan_can_not_be_read_still_shows_its_curve(review: StageMaker) -> None:
    async with review(
        first=Review("last"), edit_log=lambda text: text.replace('kind = \\"weld\\"', 'kind = \\"wild\\"')
    ) as on:
        assert on.app.screen.query_one(TraceView).data.measured.at
        assert "kind" in "\n".join(on.rows())


@pytest.mark.parametrize(("settings", "unit"), [("", "mm"), ('units = "inch"', "in")])
async def test_what_it_cost_the_steel_with_what_it_may_be(review: StageMaker, settings: str, unit: str) -> None:
    async with review(first=Review("last"), settings=settings) as on:
        listed = [line.strip() for line in lines(on)]
        place = listed.index("What it cost the steel, modelled")
        carbon, scale = listed[place + 1 : place + 3]
        for line, begins in ((carbon, "carbon lost to a depth of"), (scale, "metal lost to scale, each face")):
            assert line.startswith(begins)
            value, least, most = (
                float(word) for word in line.replace("(", " ").replace(")", " ").split() if _number(word)
            )
            assert least < value < most
            assert f" {unit} (between" in line


def _number(word: str) -> bool:
    return word.replace(".", "", 1).isdigit()
