"""The keys of the live screen: each is a word, or opens and closes what lies over it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from textual.events import Paste
from textual.widgets import Input

from devices.debounce import BOUNCE, REPEAT
from plans.phase import PhaseKind
from plans.reading import Reading
from plans.sitting.events import Word
from tests.plans.sitting.bench_between import BENCH_BETWEEN
from tests.tui.live.seen import big, hero, line, live, to_soak, words
from tui.live.screen import LiveScreen
from tui.live.step_sheet import StepSheet
from tui.screens.help import HelpScreen
from tui.widgets.lines import KeyLine

if TYPE_CHECKING:
    from tests.tui.conftest import StageMaker


async def test_space_says_the_next_thing_and_undo_takes_it_back(stage: StageMaker) -> None:
    async with stage() as on:
        state = on.running.sitting.state
        await on.press("space")
        assert (state.step, state.phase) == (1, PhaseKind.READY)
        await on.press("space")
        assert state.phase is PhaseKind.FIRE
        await on.press("u")
        assert state.phase is PhaseKind.READY
        assert "taken back" in line(on, "#call")


async def test_the_same_key_twice_at_once_counts_once(stage: StageMaker) -> None:
    async with stage() as on:
        on.real += 1.0
        for _ in range(4):
            await on.pilot.press("space")
            on.real += BOUNCE - 0.05
        assert words(on) == [Word.ACKNOWLEDGE, Word.NEXT]
        on.real += REPEAT
        await on.pilot.press("space")
        on.real += REPEAT - 0.05
        await on.pilot.press("space")
        assert words(on) == [Word.ACKNOWLEDGE, Word.NEXT, Word.NEXT]


async def test_each_brisk_press_of_undo_counts(stage: StageMaker) -> None:
    async with stage() as on:
        await on.say(Word.NEXT)
        await on.press(*"irrr")
        for wait in (1.0, 0.2, 0.2, 0.5, 1.0):
            on.real += wait
            await on.pilot.press("u")
        assert words(on)[-6:] == [Word.REPEAT] + [Word.UNDO] * 5


async def test_each_word_has_its_key(stage: StageMaker) -> None:
    async with stage() as on:
        state = on.running.sitting.state
        await on.say(Word.NEXT)
        await on.press("i", "o")
        assert (state.phase, big(on)[0]) == (PhaseKind.FIRE, "SURE?")
        await on.press("u")
        assert '"out" is not taken; all that was said before stays' in line(on, "#call")
        assert state.phase is PhaseKind.FIRE
        await on.press("o", "o")
        assert state.phase is PhaseKind.STRIKE
        await on.press("u")
        assert "taken back: out, strike" in line(on, "#call")
        await on.press("y")
        assert state.phase is PhaseKind.STRIKE
        since = state.since
        await on.pass_time(4)
        await on.press("e")
        assert state.since < since
        await on.press("r")
        assert (on.running.sitting.heats_planned(1), state.phase) == (4, PhaseKind.STRIKE)
        await on.press("b", "p")
        assert state.paused
        await on.press("p")
        assert (state.phase, state.paused) == (PhaseKind.READY, False), "its probe says that it is out"
        await on.press("i")
        assert (state.phase, state.paused) == (PhaseKind.FIRE, False)
        await on.press("x")
        assert state.out_for_a_look
        await on.press("x")
        assert not state.out_for_a_look
        await on.pass_time(4)
        await on.press("s")
        assert big(on)[0] == "SURE?"
        await on.press("s")
        assert state.step == 2


async def test_space_ends_a_pause(stage: StageMaker) -> None:
    async with stage() as on:
        await on.press("p")
        assert big(on)[0] == "PAUSED"
        assert live(on).query_one(KeyLine).keys[0][1] == "go on"
        await on.press("space")
        assert not on.running.sitting.state.paused
        assert on.running.sitting.state.step == 0


async def test_a_word_that_means_nothing_is_told_and_changes_nothing(stage: StageMaker) -> None:
    async with stage() as on:
        await on.press("o")
        assert "the work is not in the fire" in line(on, "#call")
        assert words(on) == [Word.ACKNOWLEDGE]
        await on.pass_time(5)
        assert "the work is not in the fire" not in line(on, "#call")


async def test_a_note_is_one_line_and_goes_to_the_log(stage: StageMaker) -> None:
    async with stage() as on:
        await on.press("n")
        await on.pilot.press(*"left [/x] q u")
        await on.press("enter")
        assert [note.text for note in on.running.sitting.state.notes] == ["left [/x] q u"]
        await on.press("n", "escape", "n", "enter")
        assert len(on.running.sitting.state.notes) == 1


async def test_what_was_measured_is_asked_for_until_it_can_be_read(stage: StageMaker) -> None:
    async with stage() as on:
        await on.press("equals_sign", *"w 3l", "enter")
        assert "3l" in "\n".join(on.rows()[-3:-1]), "why it can't be read stands above the line"
        assert words(on) == [Word.ACKNOWLEDGE]
        await on.press("backspace", *"1.5 t 18", "enter")
        (one,) = on.running.sitting.state.measurements
        assert (one.measured.width, one.measured.thickness) == (0.0315, 0.018)
        await on.press("equals_sign", "escape", "equals_sign", "enter")
        assert len(on.running.sitting.state.measurements) == 1


async def test_at_the_bench_it_is_said_of_which_step_a_figure_is_and_how_to_say_otherwise(
    stage: StageMaker,
) -> None:
    async with stage(plan_text=BENCH_BETWEEN, probe_on=None) as on:
        await on.press("i")
        on.real += 400.0
        await on.press("o")
        on.real += 20.0
        await on.press("s", "equals_sign")
        assert "step 1, after heat 1" in on.rows()[-5]
        assert "ground or cut since, write: step 2" in on.rows()[-4]
        await on.press(*"t 70", "enter")
        assert "more section than the plan" in "\n".join(on.rows()[-5:]), "a slip is asked about"
        assert not on.running.sitting.state.measurements
        for key in ("backspace", "enter"):  # at once: the line is mended, and no switch bounces
            await on.pilot.press(key)
        assert len(on.running.sitting.state.measurements) == 1
        await on.press("equals_sign", *"t 6", "enter")
        assert [one.step for one in on.running.sitting.state.measurements] == [0, 1], (
            "measured once more, it was ground"
        )
        await on.press("equals_sign", *"step 3 t 5", "enter")
        assert "step 3 was not come to yet" in "".join(on.rows()[-5:])
        assert on.app.screen.query_one(Input).value == "step 3 t 5"


@pytest.mark.parametrize("by", ["key", "beat"])
async def test_readings_that_were_held_up_are_logged_at_their_own_time_and_before_what_came_later(
    stage: StageMaker, by: str
) -> None:
    async with stage() as on:
        at = on.source.clock()
        waiting = [at + n / 4 for n in range(1, 101)]
        for then in waiting:
            on.app.in_hand.deliver(Reading(then, 600.0))
        on.real += 25.0
        if by == "key":
            on.app.say(Word.NEXT)
        else:
            on.app.beat()
        log = on.running.logged.journal.log
        assert [one.at for one in log.readings][-100:] == waiting
        if by == "key":
            assert log.readings_before(len(log.events) - 1) == len(log.readings)


async def test_control_characters_do_not_get_into_a_note(stage: StageMaker) -> None:
    async with stage() as on:
        await on.press("n")
        on.app.screen.query_one(Input).value = "a\x1b[2Jb\u202e"
        await on.press("enter")
        assert [note.text for note in on.running.sitting.state.notes] == ["a[2Jb"]
        # A megabyte, on several lines, after what was typed.
        await on.press("n", "x")
        on.app.screen.query_one(Input).post_message(Paste("two\nlines " + "y" * 1_000_000))
        await on.pilot.pause()
        assert "it is full: 1000 characters; 999011 more are left out" in "\n".join(on.rows())
        await on.press("enter")
        text = on.running.sitting.state.notes[-1].text
        assert text.startswith("xtwo lines yyy")
        assert text.endswith("[cut short, of 1000011 characters]")
        # Rubbed out, or pasted over, it counts no more; what is pasted where there is no room does.
        await on.press("n")
        field = on.app.screen.query_one(Input)
        for text, told in (("z" * 5000, "4000 more"), ("z" * 70, "4070 more")):
            field.post_message(Paste(text))
            await on.pilot.pause()
            assert f"it is full: 1000 characters; {told} are left out" in "\n".join(on.rows())
        field.select_all()
        field.post_message(Paste("z" * 1005 + "\n"))
        await on.pilot.pause()
        assert "; 5 more are left out" in "\n".join(on.rows())
        await on.press("ctrl+u", *"hot", "enter")
        assert on.running.sitting.state.notes[-1].text == "hot"


async def test_the_far_view_is_word_figure_step_heat_and_what_to_reach(stage: StageMaker) -> None:
    async with stage() as on:
        await to_soak(on)
        await on.press("f")
        shown = {widget.id for widget in live(on).query("#main *") if widget.display and widget.region.height}
        assert shown == {"marks", "foot-marks", "big", "hero", "reach", "cue"}
        assert hero(on).size.height >= 12
        assert live(on).query_one("#head").size.height >= 3
        assert line(on, "#reach") == "reach 31 x 18 mm, 153 mm | heat 1 of 3"
        await on.press("f")
        assert live(on).query_one("#head").display


async def test_help_and_the_step_sheet_come_and_go(stage: StageMaker) -> None:
    async with stage() as on:
        await on.press("question_mark")
        assert isinstance(on.app.screen, HelpScreen)
        await on.press("escape", "c")
        assert isinstance(on.app.screen, StepSheet)
        await on.press("c")
        assert isinstance(on.app.screen, LiveScreen)


async def test_the_keys_at_the_foot_can_be_clicked(stage: StageMaker) -> None:
    async with stage() as on:
        on.real += 1.0
        await on.pilot.click("#keys", offset=(4, 0))
        await on.pilot.pause()
        assert on.running.sitting.state.step == 1


async def test_the_palette_has_every_action_by_name(stage: StageMaker) -> None:
    async with stage() as on:
        await on.press("colon")
        await on.pilot.press(*"one heat more")
        await on.app.workers.wait_for_complete()
        await on.pilot.pause()
        await on.press("enter")
        await on.pilot.pause()
        await on.press("enter")
        assert on.running.sitting.heats_planned(0) == 2


async def test_keys_can_be_moved(stage: StageMaker) -> None:
    async with stage(settings='[keys]\nnext = "enter"\nundo = "z"\n') as on:
        await on.press("enter")
        assert on.running.sitting.state.step == 1
        await on.press("space")
        assert on.running.sitting.state.phase is PhaseKind.READY
        await on.press("z")
        assert on.running.sitting.state.step == 0
        assert live(on).query_one(KeyLine).keys[0][0] == "enter"


async def test_inches_where_the_shop_works_in_inches(stage: StageMaker) -> None:
    async with stage(settings='units = "inch"\n') as on:
        await on.say(Word.NEXT)
        assert big(on)[1] == "2372"
        assert hero(on).said.unit == "degF"
        assert "reach 1 1/4 x 23/32 in" in line(on, "#reach")


async def test_keys_that_were_moved_open_and_close_the_sheets(stage: StageMaker) -> None:
    async with stage(settings='[keys]\nstep-sheet = "j"\nnext = "f5"\n') as on:
        await on.press("j")
        assert isinstance(on.app.screen, StepSheet)
        await on.press("j")
        assert isinstance(on.app.screen, LiveScreen)
        await on.press("j", "f5")
        assert isinstance(on.app.screen, LiveScreen)


async def test_digits_tick_the_checklist_and_the_key_of_a_pedal_only_goes_back(stage: StageMaker) -> None:
    async with stage(settings='[keys]\nnext = "1"\n') as on:
        sitting = on.running.sitting
        sitting.plan = replace(
            sitting.plan, steps=tuple(replace(step, checklist=tuple("abcdefghijk")) for step in sitting.plan.steps)
        )
        await on.press("c", "2", "0", "2", "0", "2")
        assert [one.item for one in sitting.state.ticked] == [10], "the second is ticked, then off again"
        begun = len(sitting.state.begins)
        await on.press("1")
        assert not isinstance(on.app.screen, StepSheet)
        assert (len(sitting.state.begins), len(sitting.state.ticked)) == (begun, 1)
