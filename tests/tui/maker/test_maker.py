"""The maker on the screen: from the shelf to a plan that can be followed, and a plan that is changed."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

from plans.maker import doubts_on, propose, text_of
from plans.making import Build, What
from plans.plan import StepKind
from plans.reader import AnswerKeys, PlanFile, read_plan, read_plan_file
from plans.shop import Shop
from plans.times import plan_times
from plans.units import Units, kelvin
from tui.maker.plan_room import PlanRoom
from tui.maker.questions_room import QuestionsRoom
from tui.maker.screen import MakerScreen
from tui.maker.sheets import RemadeScreen, WhySheet
from tui.running.requests import Maker, Shelf
from tui.screens.help import HelpScreen
from tui.screens.question import QuestionScreen
from tui.shelf.screen import ShelfScreen

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker


def screen(on: Stage) -> MakerScreen:
    assert isinstance(on.app.screen, MakerScreen)
    return on.app.screen


async def figured(on: Stage) -> None:
    """Wait until what was typed has been worked out."""
    await on.app.workers.wait_for_complete()
    await on.pilot.pause()


def seen(on: Stage) -> str:
    return "\n".join(on.rows())


async def sees(on: Stage, *texts: str) -> None:
    """Wait until all of these stand on the screen."""
    await on.settled(lambda: all(text in seen(on) for text in texts))


async def chosen(on: Stage, step: int) -> PlanRoom:
    """Choose a step of the plan, by its number from 0."""
    room = on.app.screen.query_one(PlanRoom)
    room.steps.highlighted = room.steps.get_option_index(f"step {step}")
    await on.pilot.pause()
    return room


async def typed(on: Stage, room: PlanRoom, name: str, text: str) -> None:
    """Type over a key of the chosen step."""
    names = [row.name for row in room._rows]
    (await room.keys.go_to(names.index(name))).value = text[:-1]
    await on.press("end", text[-1], "enter")


def own(path: Path, text: str) -> Maker:
    path.write_text(text)
    return Maker(PlanFile(path.stem, path, True))


async def test_a_plan_is_made_from_nothing_by_keys_alone_and_stands_on_the_shelf(stage: StageMaker) -> None:
    async with stage(first=Shelf()) as on:
        await on.press("w")
        await on.opened()
        await sees(on, "single-edged", "150 mm", "of one steel", "steps", "heats", "25 x 8 mm", "← → another")
        await on.press("d", "enter", *"Reeds", "enter", *"9 in")  # d: double-edged
        await on.press("escape", "right", "down", "l", "l")  # how it is built: laid edge, then laminate
        await figured(on)
        await sees(on, "laminate")
        await on.press("escape", "w")
        await on.pilot.press("enter")
        await on.settled(lambda: isinstance(on.app.screen, MakerScreen))
        await on.press("q")
        await on.settled(lambda: isinstance(on.app.screen, ShelfScreen) and "Reeds" in seen(on))
        plan = read_plan_file(on.folders.plans / "reeds.toml")
        assert (plan.title, {bar.steel for bar in plan.bars}) == ("Reeds", {"1084", "1018"})
        assert any(step.kind is StepKind.HARDEN for step in plan.steps)
        assert 'length = "228.6 mm"' in plan.source, "nine inches"
        await on.press("enter")
        await on.opened()
        assert on.running.sitting.plan.title == "Reeds", "enter on the shelf begins it"


async def test_a_contradiction_is_said_at_its_answer_and_the_last_good_plan_stays(stage: StageMaker) -> None:
    async with stage(first=Maker()) as on:
        room = on.app.screen.query_one(QuestionsRoom)
        (await room.fields.go_to(4)).value = "20 m"
        await on.press("end", "m")
        await figured(on)
        # half of the 30 mm of width is the most
        await on.settled(lambda: room.wrong.startswith("thickness: 20 mm (25/32 in) is too thick"))
        assert [field.name for field in room.fields._fields if field.wrong] == ["thickness"]
        await sees(on, "15 mm", "as it was before", "25 x 8 mm")
        await on.press("escape", "w")
        await sees(on, "nothing is written down before")
        await room.fields.go_to(4)
        await on.press("delete")
        await figured(on)
        await on.settled(lambda: not room.wrong)
        await on.press("pagedown")
        await on.settled(lambda: isinstance(on.app.screen, WhySheet))
        await sees(on, "common practice")


async def test_a_doubt_leads_to_the_answer_that_would_mend_it(stage: StageMaker) -> None:
    async with stage(first=Maker()) as on:
        room = on.app.screen.query_one(QuestionsRoom)
        room.post_message(QuestionsRoom.Answered({"build": "twisted", "twist": "10 mm"}))
        await on.pilot.pause()
        await figured(on)
        await sees(on, "tighter than is safe")
        await on.press("escape", "exclamation_mark", "enter")
        assert room.fields.has_cursor
        assert room.fields.texts[room.fields.place] == "10 mm"


async def test_a_figure_is_typed_over_and_taken_back(stage: StageMaker, tmp_path: Path) -> None:
    text = text_of(propose(AnswerKeys(build=Build.LAMINATE)))
    async with stage(first=own(tmp_path / "laminate.toml", text)) as on:
        await on.press("escape", "h")
        room = await chosen(on, 2)
        await sees(on, "Set the weld", "heats", "degC", "time", "steel", "take out", "redo", "fire", "common practice")
        await on.press("enter")
        await typed(on, room, "fire", "1100 degC")
        # said while it waits for the other figure
        await on.settled(lambda: "hotter than the fire" in room.wrong)
        await typed(on, room, "heat_to", "1090 degC")
        await typed(on, room, "keep_above", "1000 degC")
        await on.settled(lambda: room.wrong == "")
        work = screen(on)._work
        assert work.plan.steps[2].targets[0].fire == kelvin(1100)
        assert re.search(r'^fire = "1100 degC"$', work.text, re.MULTILINE), "what it was for is gone with it"
        assert re.search(r'^fire = "\d+ degC"  # common practice', text, re.MULTILINE)
        await on.press("escape", "u", "u")
        await on.settled(lambda: work.text == text)
        await on.press("y")
        await on.settled(lambda: work.plan.steps[2].targets[0].fire == kelvin(1100))
        steps = len(work.plan.steps)
        await chosen(on, 3)
        await on.press("r", "greater_than_sign", "delete", "j", "n")
        assert [step.kind for step in work.plan.steps].count(StepKind.NORMALIZE) == 2
        assert len(work.plan.steps) == steps + 1


async def test_a_plan_made_anew_keeps_what_was_changed_by_hand(stage: StageMaker, tmp_path: Path) -> None:
    text = text_of(propose(AnswerKeys(what=What.CYCLES)))
    mine = text.replace('title = "Heat treatment of 1084"', 'title = "Mine"')
    async with stage(first=own(tmp_path / "cycles.toml", mine)) as on:
        assert screen(on)._work.is_changed_by_hand
        on.app.screen.query_one(QuestionsRoom).post_message(
            QuestionsRoom.Answered({"what": "cycles", "temper": "230 degC"})
        )
        await on.pilot.pause()
        await figured(on)
        await on.press("escape", "2")
        await on.settled(lambda: isinstance(on.app.screen, RemadeScreen))
        await sees(on, "Follows", "200 degC -> 230 degC", "Stays", "Mine")
        await on.press("enter")
        await on.settled(lambda: isinstance(on.app.screen, MakerScreen))
        plan = screen(on)._work.plan
        assert plan.title == "Mine"
        assert any(phase.at == kelvin(230) for step in plan.steps for phase in step.phases)
        await on.press("escape", "q")
        await sees(on, "not written down")
        await on.press("escape", "ctrl+q")
        await on.settled(lambda: isinstance(on.app.screen, QuestionScreen))


async def test_what_does_not_add_up_is_said_on_every_page_as_on_the_command_line(
    stage: StageMaker, tmp_path: Path
) -> None:
    text = text_of(propose(AnswerKeys(build=Build.LAMINATE)))
    plan = read_plan(text, "laminate", "laminate.toml")
    times = plan_times(plan, Shop())
    (doubt, *_) = doubts_on(plan, times, None)
    said = Units.METRIC.text(doubt.what)[:30]
    async with stage(size=(120, 40), first=own(tmp_path / "laminate.toml", text)) as on:
        await on.settled(lambda: said in seen(on))
        await on.press("escape", "2", "exclamation_mark")
        await on.settled(lambda: isinstance(on.app.screen, WhySheet) and said in seen(on))


async def test_answers_that_were_changed_in_the_file_are_seen_and_the_plan_can_follow(
    stage: StageMaker, tmp_path: Path
) -> None:
    text = text_of(propose(AnswerKeys(length=0.2)))
    other = text.replace('[made_from]\nlength = "200 mm"', '[made_from]\nlength = "240 mm"')
    assert other != text
    async with stage(first=own(tmp_path / "other.toml", other)) as on:
        await on.settled(lambda: isinstance(on.app.screen, RemadeScreen))
        await on.press("escape")
        await sees(on, "the plan is another")
        assert screen(on)._work.text == other
    async with stage(first=own(tmp_path / "other.toml", other)) as on:
        await on.press("enter")
        anew = text_of(propose(AnswerKeys(length=0.24)))
        await on.settled(lambda: screen(on)._work.text == anew)
        assert "the plan is another" not in seen(on)


async def test_pages_are_turned_and_keys_obeyed_from_inside_a_field(stage: StageMaker) -> None:
    async with stage(first=Maker()) as on:
        room = on.app.screen.query_one(QuestionsRoom)
        await room.fields.go_to(1)
        await on.press(*"Why?!", "down", "question_mark")
        assert room.fields.texts[1:3] == ("Why?!", ""), "a title may hold them, a length not"
        await on.settled(lambda: isinstance(on.app.screen, HelpScreen))
        await on.press("escape", "f4")
        assert room._page == "built"
        assert room.fields.has_cursor
        await on.press("f3", "f3")
        assert screen(on)._pages.page == "step by step"
