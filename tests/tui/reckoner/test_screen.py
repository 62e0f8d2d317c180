"""The reckoner on the screen: answers as one types, cards, and the way in and out."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from textual.widgets import Input, OptionList, Static, Tabs

from plans.steel.grades import all_grades
from tui.reckoner.question import Question
from tui.reckoner.questions import QUESTIONS
from tui.reckoner.screen import ReckonerScreen
from tui.running.requests import Reckoner, Shelf
from tui.screens.shelf import ShelfScreen
from tui.widgets.glow_map import GlowMap
from tui.widgets.lines import KeyLine, SplitLine
from tui.widgets.trace import TraceView

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker


def words(on: Stage) -> str:
    return str(on.app.screen.query_one("#words", Static).content)


async def ask(on: Stage, name: str) -> None:
    on.app.screen.query_one(Tabs).active = f"tab-{name}"
    await on.pilot.pause()
    await on.pilot.pause()


async def fill(on: Stage, **typed: str) -> None:
    """Type over what stands in the fields."""
    for name, text in typed.items():
        entry = on.app.screen.query_one(f"#field-{name.replace('_', '-')}", Input)
        entry.focus()
        entry.value = text[:-1]
        await on.pilot.press("end", *text[-1:])
    await on.pilot.pause()


async def test_every_question_opens_with_an_answer_and_a_picture(stage: StageMaker) -> None:
    async with stage(first=Reckoner()) as on:
        for name, question in QUESTIONS.items():
            await ask(on, name)
            assert [str(entry.id) for entry in on.app.screen.query(Input)] == [
                f"field-{field.name}" for field in question.fields
            ]
            found = question.ask(question.example())
            assert f"{found.found[0].label}  {found.found[0].text()}" in words(on)
            drawn = [view for kind in (TraceView, GlowMap) for view in on.app.screen.query(kind) if view.display]
            assert drawn, name
            assert any(any(cell not in " " for cell in row) for row in on.rows()[14:22])


async def test_millivolts_by_the_standards_table(stage: StageMaker) -> None:
    """41.276 mV of type K is 1000 degC: NIST Monograph 175, table for type K, reference junction at 0 degC."""
    async with stage(first=Reckoner()) as on:
        await ask(on, "thermocouple")
        await fill(on, cold_junction="", mv="41.276")
        assert "1000.00 degC" in words(on) or "999.99 degC" in words(on) or "1000.01 degC" in words(on)


async def test_answers_follow_what_is_typed_and_faults_name_their_field(stage: StageMaker) -> None:
    async with stage(first=Reckoner()) as on:
        before = words(on)
        await fill(on, section="25.4 x 25.4")
        assert words(on).startswith("section:")
        assert "the unit is missing" in words(on)
        assert on.app.screen.query_one("#field-section", Input).has_class("wrong")
        await on.pilot.press("space", "m", "m")
        await on.pilot.pause()
        assert words(on) == before
        assert not on.app.screen.query(".wrong")
        await fill(on, to="1300 degC")
        assert words(on).startswith("to:")
        await ask(on, "glow")
        await ask(on, "cooling")
        assert on.app.screen.query_one("#field-to", Input).value == "1300 degC", "kept while another was looked at"


async def test_inches_are_answered_in_inches(stage: StageMaker) -> None:
    async with stage(first=Reckoner()) as on:
        await fill(on, section="1 in square", length="4 in", to="1652 degF", **{"from": "2282 degF"})
        assert "degF" in words(on)
        assert "degC" not in words(on).split("\n\n")[0]


async def test_with_inches_set_the_examples_are_answered_in_them(stage: StageMaker) -> None:
    async with stage(first=Reckoner(), settings='units = "inch"') as on:
        assert "degF" in words(on)
        await fill(on, to="800 degC")
        assert "degC" in words(on), "as it was typed"


async def test_another_question_begins_at_its_first_figure(stage: StageMaker) -> None:
    async with stage(first=Reckoner()) as on:
        await on.press("pagedown", "pagedown")
        assert on.app.screen.query_one("#answer").scroll_y > 0
        await on.press("right")
        await on.pilot.pause()
        assert on.app.screen.query_one("#answer").scroll_y == 0
        assert "middle up after" in "\n".join(on.rows())


async def test_turning_the_questions_quickly_leaves_each_its_own_fields(stage: StageMaker) -> None:
    async with stage(first=Reckoner()) as on:
        for _ in range(3):
            for _ in range(8):
                on.app.simulate_key("right")
            await on.pilot.pause()
        for name, question in QUESTIONS.items():
            await ask(on, name)
            shown = {entry.id: entry.value for entry in on.app.screen.query(Input)}
            example = question.example()
            assert shown == {f"field-{field.name}": example.get(field.name, "") for field in question.fields}
            assert found_first(question) in words(on)


def found_first(question: Question) -> str:
    return question.ask(question.example()).found[0].text()


async def test_an_unknown_steel_is_told_with_what_is_close(stage: StageMaker) -> None:
    async with stage(first=Reckoner()) as on:
        await ask(on, "steel")
        await fill(on, grade="1085")
        assert 'no steel is called "1085"' in words(on)
        assert on.app.screen.query_one("#field-grade", Input).has_class("wrong")


async def test_the_steels_as_cards(stage: StageMaker) -> None:
    async with stage(first=Reckoner()) as on:
        await ask(on, "steels")
        listed = on.app.screen.query_one(OptionList)
        assert listed.option_count == len(all_grades()) >= 25
        listed.focus()
        for place, grade in enumerate(all_grades()):
            listed.highlighted = place
            await on.pilot.pause()
            assert grade.name in words(on).splitlines()[0]
            assert "Ac1" in words(on)
        await on.press("right")
        assert on.app.screen.query_one("#answer").scroll_y > 0


async def test_the_way_in_and_out(stage: StageMaker) -> None:
    async with stage(first=Shelf()) as on:
        await on.press("c")
        await on.opened()
        assert isinstance(on.app.screen, ReckonerScreen)
        await on.press("down")
        assert isinstance(on.app.focused, Input)
        assert "section" in on.app.screen.query_one("#hint", SplitLine).left
        await on.press("enter")
        assert on.app.focused is on.app.screen.query_one("#field-from")
        await on.press("up", "up", "q")
        assert isinstance(on.app.screen, ShelfScreen), "up from the first field to the questions, where q leaves"
        await on.press("c")
        await on.opened()
        await on.press("down", "escape")
        assert isinstance(on.app.screen, ReckonerScreen)
        await on.press("escape")
        assert isinstance(on.app.screen, ShelfScreen)


async def test_the_first_of_all_leaves_the_program(stage: StageMaker) -> None:
    async with stage(first=Reckoner()) as on:
        assert on.app.screen.query_one(KeyLine).keys[-1][1] == "back"
        await on.press("escape")
        assert not on.app.is_running


@pytest.mark.parametrize("size", [(20, 5), (63, 24), (200, 55)])
async def test_every_size(stage: StageMaker, size: tuple[int, int]) -> None:
    async with stage(first=Reckoner(), size=size) as on:
        for name in [*QUESTIONS, "steels"]:
            await ask(on, name)
            assert len(on.rows()) == size[1]


async def test_without_colours_heat_is_a_shade(stage: StageMaker, monkeypatch: pytest.MonkeyPatch) -> None:
    """Black heat at the left, white at the right, and never the other way round."""
    async with stage(first=Reckoner()) as on:
        monkeypatch.setattr(on.app, "no_color", True)
        await ask(on, "glow")
        strips = on.app.screen.query_one(GlowMap).draw(60, 6)
        shades = [" ░▒▓█".index(cell) for cell in strips[0].text]
        assert shades == sorted(shades)
        assert shades[0] == 0
        assert shades[-1] >= 3
