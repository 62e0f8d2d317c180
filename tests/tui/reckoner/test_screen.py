"""The reckoner on the screen: answers as one types, cards, and the way in and out."""

from __future__ import annotations

import asyncio
import re
from math import radians, tan
from typing import TYPE_CHECKING

import pytest
from textual.color import Color
from textual.events import Key, Paste
from textual.widgets import OptionList

from plans.reckoner import Reckoning
from plans.steel.grades import all_grades
from plans.units import Units
from tui.reckoner.answer_pane import AnswerPane
from tui.reckoner.fields import QuestionFields
from tui.reckoner.headline import Headline
from tui.reckoner.pictures import picture
from tui.reckoner.questions import QUESTIONS
from tui.reckoner.screen import ReckonerScreen
from tui.running.requests import Reckoner, Shelf
from tui.shelf.screen import ShelfScreen
from tui.widgets.entry import Entry
from tui.widgets.glow_map import GlowMap
from tui.widgets.lines import KeyLine, SplitLine
from tui.widgets.question_row import QuestionRow
from tui.widgets.to_scale import ScaleView
from tui.widgets.trace import TraceView

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker


def words(on: Stage) -> str:
    """What the answer stands on, or what is wrong."""
    return on.app.screen.query_one(AnswerPane).words.plain


def fields(on: Stage) -> QuestionFields:
    """Those of the question that is asked."""
    assert isinstance(on.app.screen, ReckonerScreen)
    assert on.app.screen.fields is not None
    return on.app.screen.fields


async def go_to(on: Stage, name: str) -> Entry:
    """Put the cursor into a field."""
    of = fields(on)
    return await of.go_to(list(of.typed).index(name))


def wrong(on: Stage) -> list[str]:
    """The texts that are marked on the screen as what is wrong."""
    error = Color.parse(on.app.theme_variables["text-error"]).rich_color
    strips = on.app.screen._compositor.render_strips()
    marked = (part.text.strip() for strip in strips for part in strip if part.style and part.style.color == error)
    return [text for text in marked if text]


def large(on: Stage) -> list[tuple[str, str]]:
    """Every figure that is shown large, with its unit; a word has none."""
    return [(one.figure, one.unit) for one in on.app.screen.query_one(Headline).asked]


def answer(found: Reckoning) -> list[tuple[str, str]]:
    return [(one.large().figure, one.large().unit) for one in found.answer]


async def ask(on: Stage, name: str) -> None:
    on.app.screen.query_one(QuestionRow).post_message(QuestionRow.Turned(name))
    for _ in range(3):
        await on.pilot.pause()


async def fill(on: Stage, **typed: str) -> None:
    """Type over what stands in the fields."""
    for name, text in typed.items():
        field = await go_to(on, name.replace("_", "-"))
        field.value = text[:-1]
        await on.pilot.press("end", *text[-1:])
    await on.pilot.pause()


async def test_every_question_has_fields_an_answer_and_its_picture_however_fast_one_turns(
    stage: StageMaker,
) -> None:
    async with stage(first=Reckoner()) as on:
        for _ in range(3):
            for _ in range(8):
                on.app.simulate_key("right")
            await on.pilot.pause()
        for name, question in QUESTIONS.items():
            await ask(on, name)
            example = question.example()
            assert fields(on).typed == {field.name: example.get(field.name, "") for field in question.fields}
            found = question.ask(example)
            assert large(on) == answer(found)
            assert f"{found.answer[0].label}  {found.answer[0].text()}" in words(on)
            await on.press("pagedown")
            kinds = (TraceView, GlowMap, ScaleView)
            drawn = [view for kind in kinds for view in on.app.screen.query(kind) if view.is_on_screen]
            pictured = picture(name, question.read(example), found, Units.METRIC) is not None
            assert bool(drawn) == pictured, name
            assert any(any(cell not in " " for cell in row) for row in on.rows()[14:22])


async def test_answers_follow_what_is_typed_and_faults_name_their_field(
    stage: StageMaker, monkeypatch: pytest.MonkeyPatch
) -> None:
    """41.276 mV of type K is 1000 degC: NIST Monograph 175, table for type K, reference junction at 0 degC."""
    async with stage(first=Reckoner()) as on:
        before = words(on)
        await fill(on, section="25.4 x 25.4")
        assert words(on).startswith("section:")
        assert "the unit is missing" in words(on)
        assert wrong(on) == ["25.4 x 25.4"]
        await on.pilot.press("space", "m", "m")
        await on.pilot.pause()
        assert words(on) == before
        assert wrong(on) == []
        await fill(on, to="1300 degC")
        await go_to(on, "from")
        await on.pilot.pause()
        assert wrong(on) == ["1300 degC"], "marked while another field is typed into"
        assert words(on).startswith("to:")
        await ask(on, "glow")
        await on.press("pagedown")
        monkeypatch.setattr(on.app, "no_color", True)
        assert_heat_is_a_shade(on)
        await ask(on, "cooling")
        assert fields(on).typed["to"] == "1300 degC", "kept while another was looked at"
        await fill(on, section="1 in square", length="4 in", to="1652 degF", **{"from": "2282 degF"})
        assert "degF" in words(on), "inches are answered in inches"
        assert "degC" not in words(on)
        assert large(on)[-1][1] == "degF"
        await ask(on, "thermocouple")
        await fill(on, cold_junction="", mv="41.276")
        assert "1000.00 degC" in words(on) or "999.99 degC" in words(on) or "1000.01 degC" in words(on)
        await ask(on, "steel")
        await fill(on, grade="1085")
        assert 'no steel is called "1085"' in words(on)
        assert wrong(on) == ["1085"]


def assert_heat_is_a_shade(on: Stage) -> None:
    """Without colours, black heat at the left, white at the right, and never the other way round."""
    strips = on.app.screen.query_one(GlowMap).draw(60, 6)
    shades = [" ░▒▓█".index(cell) for cell in strips[0].text]
    assert shades == sorted(shades)
    assert shades[0] == 0
    assert shades[-1] >= 3


async def test_with_inches_set_the_examples_are_answered_in_them(stage: StageMaker) -> None:
    async with stage(first=Reckoner(), settings='units = "inch"') as on:
        assert "degF" in words(on)
        await fill(on, to="800 degC")
        assert "degC" in words(on), "as it was typed"


async def test_what_the_answer_stands_on_is_a_key_away(stage: StageMaker) -> None:
    async with stage(first=Reckoner()) as on:
        assert "EN 1993" not in "\n".join(on.rows())
        before = on.rows()
        await on.press("pagedown", "pagedown")
        assert on.app.screen.query_one("#answer").scroll_y > 0
        assert "emissivities from" in "\n".join(on.rows())
        await on.press("pageup")
        assert on.app.screen.query_one("#answer").scroll_y == 0
        assert "Biot number" in "\n".join(on.rows())
        await on.press("pageup")
        assert on.rows() == before
        await on.press("pagedown", "right")
        await on.pilot.pause()
        assert "middle up after" in "\n".join(on.rows())
        assert not on.app.screen.query_one("#answer").display, "another question begins with its large figures"


def burst(on: Stage, typed: str) -> None:
    """Put all keys into the app's queue at once; a word in angle brackets is one key, all else is typed as it is."""
    for key in re.findall(r"<.+?>|.", typed):
        on.app.post_message(Key(key[1:-1], None) if len(key) > 1 else Key(key, key))


async def test_what_is_typed_takes_the_place_of_what_stood_in_the_field(stage: StageMaker) -> None:
    async with stage(first=Reckoner()) as on:
        await on.press("down", "4", "0", "down", "end", "backspace", "C")
        await on.pilot.pause()
        assert fields(on).typed["section"] == "40"
        assert fields(on).typed["from"] == "1250 degC", "at its end, the rest of it stays"
        assert "questions" in on.rows()[-1]
        assert "← →" not in on.rows()[-1], "which move the cursor there"


async def test_fast_keys_keep_their_place(stage: StageMaker) -> None:
    async with stage(first=Reckoner()) as on:
        burst(on, "<right><down><ctrl+u>40 x 40 mm<down><ctrl+u>1300 degC<enter><ctrl+u>1210 degC<tab><ctrl+u>")
        burst(on, "3<backspace>40 degC<up><shift+tab><home><delete>2<escape><right><right><right><right><right>")
        burst(on, "<down><ctrl+u>1100 degC<down><ctrl+u>7 min<down>round 30 mm")
        await on.pilot.pause()
        await on.pilot.pause()
        assert fields(on).typed == {"at": "1100 degC", "for": "7 min", "section": "round 30 mm"}
        assert large(on) == answer(QUESTIONS["scale"].ask(fields(on).typed))
        await ask(on, "soak")
        typed = fields(on).typed
        assert typed["section"] == "40 x 40 mm"
        assert typed["fire"] == "2300 degC", "two fields up again, and its first digit typed anew"
        assert (typed["middle"], typed["from"]) == ("1210 degC", "40 degC")
        await ask(on, "cooling")
        assert fields(on).typed == {**dict.fromkeys(fields(on).typed, ""), **QUESTIONS["cooling"].example()}


async def test_the_mouse_chooses_a_question_and_a_field_and_marks_what_is_typed_over(stage: StageMaker) -> None:
    async with stage(first=Reckoner()) as on:
        await on.pilot.click(offset=(12, 1))  # "2 steel"
        await on.pilot.click(offset=(14, 2))  # "carbon", beside "steel"
        await on.pilot.pause()
        assert on.rows()[0].startswith(" How deep the skin loses its carbon")
        names = list(fields(on).typed)
        for name in ("at", "for"):  # one that is drawn, and then, beside its text, one that is marked in it
            row = 3 + names.index(name)
            await on.pilot.mouse_down(offset=(15, row))
            await on.pilot.hover(offset=(17, row))
            await on.pilot.mouse_up(offset=(17, row))
            await on.press("9")
            assert names[fields(on).place] == name
        await on.pilot.pause()
        assert fields(on).typed == {**fields(on).typed, "at": "900 degC", "for": "9 min"}


async def test_the_first_line_of_what_is_pasted_is_typed_into_one_field_and_seen_as_far_as_there_is_room(
    stage: StageMaker,
) -> None:
    path = "/home/smith/刃物/a blade with a long name.toml"
    async with stage(first=Reckoner()) as on:
        burst(on, "<down><ctrl+u>")
        on.app.post_message(Paste(f"{path}\n1300 degC"))
        burst(on, "<down><ctrl+u>")
        on.app.post_message(Paste("12.7,25.4,12.7 mm"))
        await on.pilot.pause()
        await on.pilot.pause()
        assert list(fields(on).typed.values())[:3] == [path, "12.7,25.4,12.7 mm", "900 degC"]
        assert on.rows()[3][15:].startswith("/home/smith/…")
        assert on.rows()[4][15:].startswith(",25.4,12.7 mm ")
        await on.press("up")
        assert on.rows()[3][15:].startswith("ong name.toml ")
        await on.press("home")
        assert on.rows()[3][15:].startswith("/home/smith/刃")


async def test_more_fields_than_rows_are_scrolled_to(stage: StageMaker) -> None:
    async with stage(first=Reckoner(), size=(80, 12)) as on:
        await ask(on, "steel")
        await on.press("up")
        assert on.rows()[2 + 7].split()[0] == list(fields(on).typed)[-1]
        await on.press("down", "down")
        assert on.rows()[3].split()[0] == "grade"


async def test_the_steels_as_cards(stage: StageMaker) -> None:
    async with stage(first=Reckoner()) as on:
        await ask(on, "steels")
        listed = on.app.screen.query_one(OptionList)
        assert listed.option_count == len(all_grades()) >= 25
        listed.focus()
        for place, grade in list(enumerate(all_grades()))[::9]:
            listed.highlighted = place
            await on.pilot.pause()
            assert grade.name in on.rows()[3]
            assert "Ac1" in words(on)
        await on.press("right", "right")
        assert on.app.screen.query_one("#answer").scroll_y > 0
        await on.press("down")
        assert "steels" in on.rows()[2], "the arrows turn the list"


async def test_the_way_in_and_out(stage: StageMaker) -> None:
    async with stage(first=Shelf()) as on:
        await on.press("k")
        await on.opened()
        assert isinstance(on.app.screen, ReckonerScreen)
        await on.press("down")
        assert isinstance(on.app.focused, Entry)
        assert "section" in on.app.screen.query_one("#hint", SplitLine).left
        await on.press("enter")
        assert fields(on).place == 1
        assert on.app.screen.query_one("#hint", SplitLine).left.startswith("from:")
        await on.press("up", "up", "q")
        assert isinstance(on.app.screen, ShelfScreen), "up from the first field to the questions, where q leaves"
        await on.press("k")
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


async def test_every_size(stage: StageMaker) -> None:
    """All is drawn at any, and where there is room every figure of an answer is read from two metres.

    On a screen 20 cm high, for eyes that take in 20 minutes of arc with ease (ISO 9241-303, from memory).
    """
    needed = 2000 * tan(radians(20 / 60))
    all_of_them = (*QUESTIONS, "steels")
    looked_at = {(20, 5): all_of_them, (80, 24): ("steel", "glow"), (120, 35): ("carbon",), (200, 55): all_of_them}
    async with stage(first=Reckoner(), size=(20, 5)) as on:
        for size, names in looked_at.items():
            await on.pilot.resize_terminal(*size)
            for name in names:
                await ask(on, name)
                assert len(on.rows()) == size[1]
                if size < (80, 24) or name == "steels":
                    continue
                headline = on.app.screen.query_one(Headline)
                assert headline.is_on_screen
                assert len(headline.asked) >= 2 or name == "soak"
                rows = [strip.text for strip in headline.draw(*headline.size)]
                for one, taken in headline.placed(headline.size.height):
                    inked = [row for row in rows[: taken - 1] if set(row) & set("█▀▄")]
                    assert len(inked) * 200 / size[1] > needed, (size, name, one)
                    rows = rows[taken:]


@pytest.mark.parametrize("turns", [0, 1, 2])
async def test_left_while_it_is_on_its_way_in_it_tells_of_no_fault(stage: StageMaker, turns: int) -> None:
    async with stage(first=Reckoner()) as on:
        on.app.push_screen(ReckonerScreen())
        for _ in range(turns):
            await asyncio.sleep(0)  # lets the loop turn once
        on.app.leave()
    assert on.app.outcome.errors == ()
