"""What is said of a sitting when it is over, by keys, and where it stands in the next one of another plan."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from textual.widgets import Input, OptionList

from plans.logbook import Flaw, Logbook, Outcome, WorkedOut
from plans.phase import PhaseKind
from plans.reader import read_plan_file
from plans.reading import Reading
from plans.sitting.engine import Sitting
from plans.sitting.events import Said, Word
from tui.live.lessons import LessonSheet
from tui.review.afterwards import AfterwardsScreen
from tui.review.screen import ReviewScreen
from tui.running.requests import ReviewRequest
from tui.screens.lesson_to_plan import ChangeSheet
from tui.screens.line import LineScreen
from tui.screens.question import QuestionScreen

if TYPE_CHECKING:
    from plans.logbook import KeptSitting
    from tests.tui.conftest import Stage, StageMaker

DRAW = Path(__file__).parents[1] / "draw.toml"
OTHER = """
heatbook = 1
title = "Another"

[[step]]
title = "Close it"
kind = "weld"
fire = "1290 degC"
heat_to = "1250 degC"
keep_above = "1150 degC"
heats = 1
section = "30 x 20 mm"
instruction = "As it says here."
"""


def finished(folder: Path, *words: Word) -> Logbook:
    """A logbook with one sitting that was finished, after these words, five seconds between them."""
    plan, book = read_plan_file(DRAW), Logbook(folder)
    journal = book.open_sitting(plan, datetime(2026, 3, 13, 9, 0, tzinfo=UTC))
    sitting = Sitting(plan)
    said = [Said(5.0 * number, word) for number, word in enumerate((*words, Word.FINISH))]
    for event in (*sitting.open(), *(event for one in said for event in sitting.take(one))):
        assert not isinstance(event, Reading)
        journal.event(event)
    book.fold(journal, lambda *_: WorkedOut(None))
    book.close()
    return book


async def choose(on: Stage, name: str) -> None:
    """Choose a line of the sheet, and wait for its question."""
    listed = on.app.screen.query_one(OptionList)
    listed.highlighted = next(n for n in range(listed.option_count) if listed.get_option_at_index(n).id == name)
    await on.press("enter")
    await on.settled(lambda: isinstance(on.app.screen, QuestionScreen | LineScreen))


async def kept(on: Stage) -> KeptSitting:
    await on.settled(lambda: isinstance(on.app.screen, AfterwardsScreen))
    await on.app.workers.wait_for_complete()
    return on.app.logbook.load("last")


async def test_what_is_said_by_keys_stands_in_another_plan(stage: StageMaker, tmp_path: Path) -> None:
    finished(tmp_path / "logbook")
    async with stage(first=ReviewRequest("last", False)) as on:
        await on.press("l")
        await choose(on, "weld:1")
        await on.press("c")
        outcome = (await kept(on)).outcome
        assert outcome is not None
        assert [(weld.step, weld.flaws) for weld in outcome.welds] == [(1, (Flaw.COLD_SHUT,))]
        await choose(on, "part:warp")
        on.app.screen.query_one(Input).value = "3 m"
        await on.press("enter")
        # What can't be is asked for again, and stands there to be mended.
        await on.settled(lambda: isinstance(on.app.screen, LineScreen) and "more than any work" in "".join(on.rows()))
        await on.press("backspace", "m", "m", "enter")
        assert (await kept(on)).outcome.warp == 0.003  # type: ignore[union-attr]
        await choose(on, "add:1")
        on.app.screen.query_one(Input).value = "hotter"
        await on.press("enter")
        await on.settled(lambda: isinstance(on.app.screen, QuestionScreen))
        await on.press("b")
        lessons = (await kept(on)).lessons
        assert lessons is not None
        assert [(one.text, one.step, one.tie.about) for one in lessons.written] == [("hotter", 1, "every weld step")]
        # Into a copy of the plan, and out again: nothing is left of it.
        for press, screen in (("w", QuestionScreen), ("i", ChangeSheet), ("y", AfterwardsScreen)):
            await on.press(press)
            await on.settled(lambda screen=screen: isinstance(on.app.screen, screen))  # type: ignore[misc]
        assert (await kept(on)).lessons.written[0].put_into == ("draw-2",)  # type: ignore[union-attr]
        copy = tmp_path / "plans" / "draw-2.toml"
        assert read_plan_file(copy).steps[1].instruction.startswith("hotter")
        await on.press("u")
        assert (await kept(on)).lessons == lessons
        assert not copy.exists()
        await on.press("q")
        assert isinstance(on.app.screen, ReviewScreen)
        assert any("hotter (every weld step)" in row for row in on.rows())
    async with stage(plan_text=OTHER, probe_on=None) as on:
        # Before the step starts it stands above the instruction; while it runs, on the line of calls.
        assert on.running.sitting.state.phase is PhaseKind.READY
        below = next(n for n, row in enumerate(on.rows()) if "As it says here." in row)
        assert "lesson: hotter" in on.rows()[below - 1]
        await on.press("space")
        assert on.running.sitting.state.phase is PhaseKind.FIRE
        await on.pass_time(26)
        assert any("lesson: hotter" in row for row in on.rows())
        await on.press("l")
        assert isinstance(on.app.screen, LessonSheet)
        assert any("every weld step" in row for row in on.rows())
        await on.press("l")


async def test_what_is_said_afterwards_is_taken_back_by_one_key(stage: StageMaker, tmp_path: Path) -> None:
    finished(tmp_path / "logbook")
    async with stage(first=ReviewRequest("last", False)) as on:
        await on.press("l")
        await choose(on, "weld:1")
        await on.press("c")
        said = (await kept(on)).outcome
        await choose(on, "part:rating")
        await on.settled(lambda: isinstance(on.app.screen, LineScreen | QuestionScreen))
        await on.press("4")
        if isinstance(on.app.screen, LineScreen):
            await on.press("enter")
        assert (await kept(on)).outcome != said
        await on.press("u")
        assert (await kept(on)).outcome == said
        await on.press("u", "u")
        assert (await kept(on)).outcome == Outcome()
        assert "cold shut" not in "\n".join(on.rows())


async def test_from_the_end_of_a_sitting_to_its_lessons(stage: StageMaker) -> None:
    async with stage(plan_text=OTHER, probe_on=None) as on:
        await on.press("l")
        assert any("no lesson of an earlier sitting" in row for row in on.rows())
        await on.say(Word.NEXT, Word.FINISH)
        await on.press("l")
        await on.settled(lambda: isinstance(on.app.screen, AfterwardsScreen))
        assert on.app.running is None
        assert [one.state.value for one in on.app.logbook.summaries()] == ["finished"]
