"""The review of a sitting: heats, calls and notes in one list, and the curve that goes with it."""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from pathlib import Path
from shutil import copytree
from typing import TYPE_CHECKING

import pytest
from textual.events import MouseScrollUp
from textual.widgets import Input, OptionList, Static

from plans.logbook.book import Logbook
from plans.logbook.logged_sitting import LoggedSitting
from plans.phase import PhaseKind
from plans.reader import read_plan_file
from plans.shop import Shop
from plans.sitting.calls import Call
from plans.sitting.events import Said, Tick, Word
from plans.units import Units
from tests.png import png
from tui.review.screen import ReviewScreen
from tui.running.requests import ReviewRequest
from tui.screens.line import LineScreen
from tui.screens.question import QuestionScreen
from tui.widgets.lines import KeyLine, SplitLine, placed
from tui.widgets.trace import TraceView

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker

DRAW = Path(__file__).parents[1] / "draw.toml"


@pytest.fixture(scope="module")
def once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the sitting that all look at is kept, once it has been made."""
    return tmp_path_factory.mktemp("made") / "logbook"


@pytest.fixture(scope="module")
def once_taught(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the sitting that teaches is kept, once it has been made."""
    return tmp_path_factory.mktemp("taught") / "logbook"


@pytest.fixture
async def review(stage: StageMaker, once: Path, tmp_path: Path) -> StageMaker:
    """A stage with a sitting of two weld heats in its log, the second struck too cold."""
    await _kept_once(stage, once, tmp_path, quick=True)
    return stage


@pytest.fixture
async def taught(stage: StageMaker, once_taught: Path, tmp_path: Path) -> StageMaker:
    """The same with both struck too cold, so that they teach how the anvil cools."""
    await _kept_once(stage, once_taught, tmp_path, quick=False)
    return stage


async def _kept_once(stage: StageMaker, once: Path, tmp_path: Path, *, quick: bool) -> None:
    if not once.exists():
        await _two_heats(stage, quick=quick)
        copytree(tmp_path / "logbook", once)
    else:
        copytree(once, tmp_path / "logbook")


async def _two_heats(stage: StageMaker, *, quick: bool) -> None:
    async with stage() as on:
        state = on.running.sitting.state
        await on.say(Word.NEXT)
        for heat in (1, 2):
            await on.press("space")
            await on.until(lambda: state.phase is PhaseKind.SOAK)
            await on.until(lambda: Call.SOAK_DONE in state.alarms)
            await on.press("space")
            if heat == 1 and quick:
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


def heats(on: Stage) -> list[list[str]]:
    """The lines of the weld's heats, each as its words."""
    listed = lines(on)
    first = listed.index("2  Weld the edge to the back") + 1
    return [line.split() for line in listed[first : listed.index("", first)]]


async def to_the_heats(on: Stage) -> None:
    """Walk down past what stands out."""
    while " of step " in chosen(on):
        await on.press("down")


async def test_heats_calls_and_notes_stand_in_one_list(review: StageMaker) -> None:
    async with review(first=ReviewRequest("last")) as on:
        assert isinstance(on.app.screen, ReviewScreen)
        found = lines(on)
        one, two = heats(on)
        assert one[0] == "1"
        assert one[-1] == two[-1] == "measured"
        assert "s" not in one, "the first was not struck too cold"
        cold = int(two[two.index("s") - 1])
        assert 5 <= cold <= 20
        assert found[found.index("Calls") + 1].split()[1:4] == ["♦", "soak", "done,"]
        assert any("▼ too cold, step 2, heat 2" in line for line in found)
        assert found[found.index("Notes") + 1].endswith("seam [31m open")
        first = found.index("Planned beside done") + 1
        assert re.split(r"  +", found[first].strip()) == ["2", "heats", "3", "2"], "the plan has three"
        reached = next(line for line in found[first:] if line.split()[:1] == ["section"])
        assert reached.endswith("not measured, taken as planned")
        assert "in the fire" in found[found.index("All together") + 1]


async def test_the_figures_are_those_of_the_log(review: StageMaker) -> None:
    async with review(first=ReviewRequest("last")) as on:
        screen = on.app.screen
        assert isinstance(screen, ReviewScreen)
        assert screen.review.kept.figures is not None
        heat = screen.review.kept.figures.steps[1].heats[0]
        assert heat.leaving is not None
        row = heats(on)[0]
        minutes, seconds = row[1].split(":")
        assert int(minutes) * 60 + int(seconds) == round(heat.in_fire)
        assert int(row[3]) == round(heat.leaving - 273.15)


async def test_up_and_down_walk_along_heats_left_and_right_move_the_reading_line(review: StageMaker) -> None:
    async with review(first=ReviewRequest("last")) as on:
        trace = on.app.screen.query_one(TraceView)
        await to_the_heats(on)
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
    async with review(first=ReviewRequest("last")) as on:
        trace = on.app.screen.query_one(TraceView)
        whole = (trace.data.begin, trace.data.end)
        assert len(trace.data.spans) == 2
        await to_the_heats(on)
        await on.press("down", "enter")
        assert trace.data.begin > whole[0]
        assert on.app.screen.query_one(KeyLine).keys[0][1] == "whole sitting"
        await on.press("enter")
        assert (trace.data.begin, trace.data.end) == whole


async def test_what_stands_out_leads_to_its_moment_and_enter_looks_closer_there(review: StageMaker) -> None:
    async with review(first=ReviewRequest("last")) as on:
        screen = on.app.screen
        assert isinstance(screen, ReviewScreen)
        assert lines(on)[0] == "What stands out, the most costly first"
        worst = screen.review.looked_back.findings[0]
        assert chosen(on).endswith(worst.text(Units.METRIC))
        assert "may not hold" in str(screen.query_one("#columns", Static).render())
        trace = screen.query_one(TraceView)
        assert trace.cursor_at == worst.at, "no break lies before it"
        call = next(call for call in screen.review.calls if call.call is Call.TOO_COLD)
        assert 0 <= call.at - worst.at < 3, "it is called once it has held, and the line stands where it began"
        await on.press("enter")
        assert trace.data.begin < worst.at < trace.data.end
        assert trace.data.end - trace.data.begin <= 240


async def test_the_curve_is_zoomed_and_moved_along_by_keys_and_mouse(review: StageMaker) -> None:
    async with review(first=ReviewRequest("last")) as on:
        screen = on.app.screen
        assert isinstance(screen, ReviewScreen)
        trace, whole, at = screen.query_one(TraceView), screen.review.end, screen.query_one(TraceView).cursor_at

        def seen() -> tuple[float, float]:
            return trace.data.begin, trace.data.end

        await on.press("plus", "plus")
        assert seen()[1] - seen()[0] == pytest.approx(whole / 4)
        assert trace.cursor_at == at, "the reading line stays"
        begin = seen()[0]
        await on.press("comma")
        assert seen()[0] == pytest.approx(begin - whole / 8)
        await on.press("full_stop")
        assert seen()[0] == pytest.approx(begin)
        columns = trace._columns
        await on.pilot.mouse_down(trace, offset=(20, 2))
        await on.pilot.hover(trace, offset=(30, 2))
        await on.pilot.mouse_up(trace, offset=(30, 2))
        assert seen()[0] == pytest.approx(begin - 10 / columns * whole / 4), "what was taken hold of goes along"
        assert trace.cursor_at == at
        trace.post_message(wheel(trace, 0))
        await on.pilot.pause()
        assert seen()[1] - seen()[0] == pytest.approx(whole / 8)
        await on.press("minus", "minus", "minus", "comma")
        assert seen() == (0, whole), "no further than there is a sitting"


def wheel(trace: TraceView, x: int) -> MouseScrollUp:
    """The wheel turned away from the hand over a column of the trace."""
    return MouseScrollUp(trace, x, 2, 0, -1, 0, False, False, False)


async def test_a_sitting_in_which_nothing_was_done(stage: StageMaker) -> None:
    async with stage() as on:
        await on.press("ctrl+c")
    async with stage(first=ReviewRequest("last")) as on:
        assert "nothing was noted" in lines(on)[0]
        await on.press("left", "enter", "down")


async def test_a_sitting_whose_plan_can_not_be_read_still_shows_its_curve(review: StageMaker) -> None:
    async with review(
        first=ReviewRequest("last"), edit_log=lambda text: text.replace('kind = \\"weld\\"', 'kind = \\"wild\\"')
    ) as on:
        assert on.app.screen.query_one(TraceView).data.measured.at
        assert "kind" in "\n".join(on.rows())


async def test_a_night_between_two_halves_is_in_no_time_and_told(stage: StageMaker, tmp_path: Path) -> None:
    """Left at 5:00 in the fire of the weld, gone on with 11 h later: 10 s of pause, and out a minute after that."""
    started = datetime(2026, 11, 25, 20, 0, tzinfo=UTC)
    logbook = Logbook(tmp_path / "logbook")
    running = LoggedSitting.begin(logbook, read_plan_file(DRAW), started)
    for word in (Word.NEXT, Word.NEXT):
        running.take(Said(0.0, word))
    running.take(Tick(300.0))
    running.put_away()
    running = LoggedSitting.go_on(logbook, "last", started + timedelta(hours=11, minutes=5))
    at = running.sitting.now
    running.take(Said(at + 10.0, Word.IN))
    running.take(Said(at + 70.0, Word.OUT))
    running.take(Said(at + 80.0, Word.NOTE, "cold tongs"))
    running.take(Said(at + 90.0, Word.FINISH))
    running.put_away()
    logbook.close()
    async with stage(first=ReviewRequest("last")) as on:
        screen = on.app.screen
        assert isinstance(screen, ReviewScreen)
        listed = [line.strip() for line in lines(on)]
        assert heats(on)[0][1] == "6:00", "in the fire for five minutes and one"
        assert listed[listed.index("Notes") + 1] == "6:20  cold tongs"
        told = "5:00  gone on with after 11 h, on 2026-11-26 at 07:05"
        assert listed[listed.index("Breaks") + 1] == told
        assert screen.review.end == 390.0
        assert "6:30, finished" in "\n".join(on.rows())
        at_all = screen.review.modelled.at
        assert all(earlier <= later for earlier, later in pairwise(at_all))
        assert 389.0 <= at_all[-1] <= 390.0


@pytest.mark.parametrize(("settings", "unit"), [("", "mm"), ('units = "inch"', "in")])
async def test_what_it_cost_the_steel_with_what_it_may_be(review: StageMaker, settings: str, unit: str) -> None:
    async with review(first=ReviewRequest("last"), settings=settings) as on:
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


async def test_forecast_and_what_happened(review: StageMaker) -> None:
    async with review(first=ReviewRequest("last")) as on:
        listed = [line.strip() for line in lines(on)]
        place = listed.index("How the skin cooled: forecast modelled, what came of it measured")
        one, two, after = listed[place + 1 : place + 4]
        range_ = r"\d+ s \(\d+ to \d+\)"
        assert re.fullmatch(rf"hammer time, step 2, heat 1: forecast {range_}, went back before", one)
        assert re.fullmatch(rf"hammer time, step 2, heat 2: forecast {range_}, was \d+ s", two)
        assert after == "", "one heat that was felt for long enough tells no factor"


async def test_the_factor_that_was_learned_stands_beside_the_shop_file(taught: StageMaker) -> None:
    async with taught(first=ReviewRequest("last")) as on:
        factor = next(line.strip() for line in lines(on) if "factor" in line)
        assert re.fullmatch(r"contact factor \d\.\d\d \+- \d\.\d\d from 2 stays; the shop file says 1\.00", factor)


async def test_a_key_and_a_word_keep_the_factor(taught: StageMaker) -> None:
    async with taught(first=ReviewRequest("last")) as on:
        path = on.folders.shop
        screen = on.app.screen
        assert isinstance(screen, ReviewScreen)
        figures = screen.review.kept.figures
        assert figures is not None
        assert figures.learned is not None
        found = figures.learned.contact
        assert found is not None
        assert found.value is not None
        assert found.spread is not None
        factor, spread = found.value, found.spread
        for answer in ("n", "escape", "enter"):
            await on.press("a")
            assert isinstance(on.app.screen, QuestionScreen)
            assert f"Contact factor {factor:.2f}" in "\n".join(on.rows())
            await on.press(answer)
            assert on.app.screen is screen
            assert not path.exists()
        await to_the_heats(on)
        await on.press("down", "a", "y")
        await on.settled(path.exists)
        text = path.read_text()
        assert f"contact_factor = {factor:g}\ncontact_standard_error = {spread:g}\n" in text
        assert "cooling" not in text, "nothing cooled in the air"
        assert screen.review.kept.header.id in path.read_text()
        await on.settled(lambda: any(f"went by 1.00, shop file now {factor:.2f}" in line for line in lines(on)))
        assert chosen(on).split()[0] == "2", "the list stands where it stood"
        assert any(f"kept in {path}" in note.message for note in on.app._notifications)


async def test_the_foot_has_what_is_said_of_a_sitting_that_is_over(review: StageMaker) -> None:
    async with review(first=ReviewRequest("last"), size=(80, 24)) as on:
        foot = on.app.screen.query_one(KeyLine)
        said = {"l": "lessons", "=": "measured", "I": "photo", "q": "back", "?": "help"}
        for does in ("closer", "whole sitting"):
            there = {key: text for _, _, (key, text, _) in placed(foot.keys, *foot.content_size)}
            assert there.items() >= ({"enter": does} | said).items()
            await on.press("plus")


async def test_a_shop_file_that_can_not_be_written_is_told(taught: StageMaker) -> None:
    async with taught(first=ReviewRequest("last")) as on:
        on.folders.shop.mkdir()
        await on.press("a", "y")
        await on.settled(lambda: any("can't be read" in note.message for note in on.app._notifications))


async def test_where_nothing_was_learned_the_key_says_why(stage: StageMaker) -> None:
    async with stage() as on:
        await on.press("ctrl+c")
    async with stage(first=ReviewRequest("last")) as on:
        assert "keep" not in [text for _, text, _ in on.app.screen.query_one(KeyLine).keys]
        await on.press("a")
        await on.settled(lambda: any("tells nothing of the shop" in note.message for note in on.app._notifications))
        assert not on.folders.shop.exists()


async def test_the_next_sitting_goes_by_what_is_kept(stage: StageMaker, tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text("cooling_factor = 1.3\n")
    async with stage() as on:
        assert on.running.sitting.shop == Shop(1.3)
        await on.press("ctrl+c")
    (tmp_path / "shop.toml").write_text("cooling_factor = 9\n")
    async with stage() as on:
        # The sitting before was left, and is asked about.
        await on.press("a")
        await on.settled(lambda: on.app.running is not None)
        assert on.running.sitting.shop == Shop()
        assert any("cooling_factor is 9" in note.message for note in on.app._notifications)
        await on.press("ctrl+c")


def _number(word: str) -> bool:
    return word.replace(".", "", 1).isdigit()


async def test_a_photograph_is_added_of_the_step_that_one_stands_on_and_taken_back(
    review: StageMaker, tmp_path: Path
) -> None:
    (tmp_path / "the edge.png").write_bytes(png(9))
    async with review(first=ReviewRequest("last")) as on:
        await on.press("I")
        await on.until(lambda: isinstance(on.app.screen, LineScreen))
        on.app.screen.query_one(Input).value = str(tmp_path / "nothing.png")
        await on.press("enter")
        await on.until(lambda: "is not there" in str(on.app.screen.query("#legend").first(Static).render()))
        on.app.screen.query_one(Input).value = f"'{tmp_path / 'the edge.png'}'"  # as a terminal writes what is dragged
        await on.press("enter")
        await on.until(lambda: isinstance(on.app.screen, QuestionScreen))
        await on.press("c")
        await on.until(lambda: isinstance(on.app.screen, LineScreen))
        await on.press("o", "k", "enter")
        await on.until(lambda: "  step 2: the edge.png, ok; copied" in lines(on))
        await on.press("end", "C")
        assert Path(on.app.clipboard).read_bytes() == png(9)
        await on.press("I")
        await on.until(lambda: isinstance(on.app.screen, QuestionScreen))
        await on.press("t")
        await on.until(lambda: "Photographs" not in lines(on))


async def test_a_line_is_copied_with_words_for_its_figures_and_as_one_line(review: StageMaker) -> None:
    async with review(first=ReviewRequest("last")) as on:
        await to_the_heats(on)
        await on.press("down", "C")
        screen = on.app.screen
        assert isinstance(screen, ReviewScreen)
        assert screen.review.kept.figures is not None
        heat = screen.review.kept.figures.steps[1].heats[1]
        assert heat.leaving is not None
        copied = on.app.clipboard
        assert copied.startswith("Weld the edge to the back: heat 2, in fire ")
        assert f"leaving {heat.leaving - 273.15:.0f} degC" in copied
        while "seam" not in chosen(on):
            await on.press("down")
        await on.press("C")
        assert on.app.clipboard.endswith("seam [31m open")
        assert on.app.clipboard.isprintable()
