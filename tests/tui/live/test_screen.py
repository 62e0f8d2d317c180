"""The live screen: what it says, what its keys do, and that nothing makes it fall over."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from textual.events import Key, Paste
from textual.widgets import Input, Static

from devices.debounce import BOUNCE, REPEAT
from plans.phase import PhaseKind
from plans.reader import SHELF
from plans.reading import ProbeOn, Reading
from plans.sitting.calls import Call
from plans.sitting.events import Said, Word
from tui.live.arrangement import arrange
from tui.live.cautions import CautionsScreen
from tui.live.finished import FinishedScreen
from tui.live.screen import LiveScreen
from tui.live.step_sheet import StepSheet
from tui.running.requests import Shelf
from tui.screens.help import HelpScreen
from tui.widgets.big_line import BigLine
from tui.widgets.grounds import Ground
from tui.widgets.hero import Hero
from tui.widgets.lines import KeyLine, SplitLine, placed
from tui.widgets.marks import MarkRow, call_mark, phase_mark

if TYPE_CHECKING:
    from tests.tui.conftest import Stage, StageMaker


def live(on: Stage) -> LiveScreen:
    return next(screen for screen in on.app.screen_stack if isinstance(screen, LiveScreen))


def line(on: Stage, name: str) -> str:
    """Both texts of a line; of what is said in full and shorter, what is said in full."""
    found = live(on).query_one(name)
    if isinstance(found, BigLine):
        left = " ".join(text for text in (found.lead, *found.left[:1]) if text)
        return f"{left} | {' '.join(found.right[:1])}"
    assert isinstance(found, SplitLine)
    right = found.right if isinstance(found.right, str) else found.right.plain
    return f"{found.left} | {right}"


def hero(on: Stage) -> Hero:
    return live(on).query_one(Hero)


def big(on: Stage) -> tuple[str, str]:
    return hero(on).said.word, hero(on).said.figure


def keys(on: Stage) -> list[str]:
    """The keys at the foot that are really to be seen."""
    foot = live(on).query_one(KeyLine)
    return [key[0] for _, _, key in placed(foot.keys, *foot.size)]


def words(on: Stage) -> list[Word]:
    """What the log has of the smith's words."""
    return [event.word for event in on.running.logged.journal.log.events if isinstance(event, Said)]


async def to_soak(on: Stage) -> None:
    state = on.running.sitting.state
    await on.say(Word.NEXT)
    await on.press("space")
    await on.until(lambda: state.phase is PhaseKind.SOAK)


# Cautions


async def test_the_cautions_come_first_and_count_as_read_when_all_were_seen(stage: StageMaker) -> None:
    async with stage(acknowledged=False) as on:
        assert isinstance(on.app.screen, CautionsScreen)
        pages = 0
        while isinstance(on.app.screen, CautionsScreen):
            await on.press("space")
            pages += 1
        assert pages > 2
        assert isinstance(on.app.screen, LiveScreen)
        assert words(on) == [Word.ACKNOWLEDGE]


async def test_a_key_that_is_held_reads_no_cautions(stage: StageMaker) -> None:
    """Thirty a second for ten seconds, after the wait of a keyboard."""
    async with stage(acknowledged=False) as on:
        await on.press("space")
        assert isinstance(on.app.screen, CautionsScreen)
        read = on.app.screen.query_one("#list").scroll_offset
        on.real += 0.5
        for _ in range(300):
            on.app.screen.action_close()
            on.real += 1 / 30
        await on.pilot.pause()
        assert isinstance(on.app.screen, CautionsScreen)
        assert on.app.screen.query_one("#list").scroll_offset == read
        assert words(on) == []


async def test_a_key_that_led_to_the_cautions_and_is_held_reads_none(stage: StageMaker) -> None:
    """Nor does one that was typed before they stood there, as by a key that is held from the shell on."""
    async with stage(first=Shelf(), acknowledged=False) as on:
        await on.pilot.press("enter")
        await on.settled(lambda: isinstance(on.app.screen, CautionsScreen) and on.app.screen.is_mounted)
        listed = on.app.screen.query_one("#list")
        on.real += 0.5
        for _ in range(30):
            await on.pilot.press("enter")
            on.real += 1 / 30
        typed_ahead = Key("space", " ")
        typed_ahead.time -= 60.0
        on.app.post_message(typed_ahead)
        await on.pilot.pause()
        assert (listed.scroll_offset.y, words(on)) == (0, [])
        on.real += 1.0
        await on.pilot.press("space")
        await on.settled(lambda: listed.scroll_offset.y > 0 or bool(words(on)))


async def test_a_bounce_of_the_key_that_acknowledges_does_not_begin_a_phase(stage: StageMaker) -> None:
    async with stage(acknowledged=False) as on:
        await on.read_cautions()
        on.real += 0.1
        await on.pilot.press("space")
        assert words(on) == [Word.ACKNOWLEDGE]


async def test_words_said_elsewhere_are_taken_while_the_cautions_stand(stage: StageMaker) -> None:
    async with stage(acknowledged=False) as on:
        await on.say(Word.ACKNOWLEDGE, Word.NEXT)
        assert on.running.sitting.state.phase is PhaseKind.READY
        assert isinstance(on.app.screen, CautionsScreen)
        on.real += 5.0
        on.app.screen.look()
        await on.pilot.pause()
        assert isinstance(on.app.screen, LiveScreen)


# What it says


async def test_at_80x24_all_is_there_and_what_is_to_be_done_is_large(stage: StageMaker) -> None:
    async with stage() as on:
        await to_soak(on)
        await on.pass_time(20)
        assert hero(on).size.height >= 8 + 3
        assert big(on) == ("SOAK", hero(on).said.figure)
        assert hero(on).said.ground is Ground.LEVEL
        assert line(on, "#head") == "2/5  Weld the edge to the back | "
        assert line(on, "#reach") == "reach 31 x 18 mm, 153 mm | heat 1 of 3"
        text = "\n".join(on.rows())
        assert "Weld the edge" not in text
        assert "31 x 18" not in text
        assert "heat 1 of 3" not in text
        assert "soak left, planned" in line(on, "#label")
        assert "measured" in line(on, "#label")
        assert line(on, "#cue") == "fire 1300, heat to 1260 degC | then: the same, 2 heats more"
        assert "probe on work, 4.0/s" in line(on, "#call")
        assert live(on).query_one(MarkRow).mark == phase_mark(PhaseKind.SOAK)
        assert live(on).query_one(KeyLine).keys[0][:2] == ("space", "out, strike")


async def test_the_keys_that_a_strike_needs_are_to_be_seen_at_80x24(stage: StageMaker) -> None:
    async with stage() as on:
        await to_soak(on)
        assert {"o", "u", "p", "q"} <= set(keys(on))
        await on.press("o", "o")
        shown = keys(on)
        assert shown[:4] == ["space", "i", "r", "s"]
        assert {"u", "p", "q", "n", "?"} <= set(shown)


async def test_the_cue_of_the_phase_stands_while_it_counts(stage: StageMaker) -> None:
    async with stage() as on:
        plan = on.running.sitting.plan
        weld = plan.steps[1]
        phases = tuple(
            replace(phase, cue="light, quick blows, middle first" if phase.kind is PhaseKind.STRIKE else "")
            for phase in weld.phases
        )
        on.running.sitting.plan = replace(plan, steps=(plan.steps[0], replace(weld, phases=phases), *plan.steps[2:]))
        await to_soak(on)
        assert "light" not in line(on, "#cue")
        await on.pass_time(6)
        await on.press("space")
        assert line(on, "#cue").startswith("light, quick blows, middle first | then: ")
        await on.press("f")
        assert "light, quick blows, middle first" in "\n".join(on.rows())
        await on.pass_time(4)
        await on.press("f", "space")
        assert "light" not in line(on, "#cue")


async def test_an_alarm_is_a_word_in_the_largest_place_a_shape_and_a_sound(stage: StageMaker) -> None:
    async with stage() as on:
        await to_soak(on)
        state = on.running.sitting.state
        await on.until(lambda: Call.SOAK_DONE in state.alarms)
        assert big(on)[0] == "OUT"
        assert hero(on).said.ground is Ground.STRIPES
        await on.press("space")
        assert hero(on).said.ground is Ground.FULL
        rung = len(on.bells)
        await on.until(lambda: Call.TOO_COLD in state.alarms)
        said = hero(on).said
        assert said.word == "TOO COLD"
        assert said.word_is_big
        assert said.ground is Ground.ALARM
        assert {row.mark for row in live(on).query(MarkRow)} == {call_mark(Call.TOO_COLD)} == {said.mark}
        assert len(on.bells) > rung
        assert "too cold: stop striking, back in the fire" in line(on, "#call")


async def test_muted_it_is_silent_and_says_so(stage: StageMaker) -> None:
    async with stage() as on:
        await on.press("m")
        await to_soak(on)
        await on.until(lambda: Call.SOAK_DONE in on.running.sitting.state.alarms)
        assert on.bells == []
        assert any("muted" in row for row in on.rows()[:3])


async def test_a_lost_probe_is_said_and_the_figures_are_modelled(stage: StageMaker) -> None:
    async with stage() as on:
        await to_soak(on)
        on.source.trouble = "unplugged"
        await on.pass_time(8)
        assert "probe lost: unplugged" in line(on, "#call")
        assert "modelled" in line(on, "#label")
        marks = [row.mark for row in live(on).query(MarkRow)]
        assert marks == [phase_mark(PhaseKind.SOAK), call_mark(Call.PROBE_LOST)]


async def test_a_lost_probe_is_said_though_a_caution_stands(stage: StageMaker) -> None:
    async with stage() as on:
        await on.say(Word.NEXT, Word.NEXT)
        await on.pass_time(0.5)
        on.source.trouble = "unplugged"
        await on.pass_time(0.5)
        call = next(row.strip() for row in on.rows() if "probe lost: unplugged" in row)
        assert re.fullmatch(r"mind: Hot flux flies .*[a-z]…; c reads it +probe lost: unplugged", call), call


async def test_without_a_probe_all_is_modelled_and_said_to_be(stage: StageMaker) -> None:
    async with stage(probe_on=None) as on:
        await on.say(Word.NEXT)
        await on.press("space")
        await on.pass_time(60)
        label = line(on, "#label")
        assert re.match(r"until at heat, \d:\d\d to \d:\d\d, modelled \| .* skin \d+$", label), label
        assert "no probe: modelled" in line(on, "#call")


async def test_a_probe_in_the_fire_measures_the_fire(stage: StageMaker) -> None:
    async with stage(probe_on=ProbeOn.FIRE) as on:
        await on.say(Word.NEXT)
        await on.press("space")
        await on.pass_time(30)
        assert "fire measured 1" in line(on, "#cue")
        label = line(on, "#label")
        assert re.match(r"until at heat, .*, modelled \| .* skin \d+$", label), label


async def test_a_key_that_was_moved_reads_the_cautions_too(stage: StageMaker) -> None:
    async with stage(acknowledged=False, settings='[keys]\nnext = "f5"\n') as on:
        for _ in range(30):
            await on.press("f5")
            if isinstance(on.app.screen, LiveScreen):
                break
        assert Word.ACKNOWLEDGE in words(on)


async def test_on_a_low_screen_the_cautions_have_the_room(stage: StageMaker) -> None:
    async with stage(size=(20, 5), acknowledged=False) as on:
        assert "Local codes" in on.app.export_screenshot().replace("&#160;", " ")


async def test_while_there_is_time_to_read_the_instruction_stands_in_place_of_the_trace(stage: StageMaker) -> None:
    async with stage() as on:
        task = live(on).query_one("#task", Static)
        assert task.display
        assert "Grind one broad face" in str(task.content)
        assert "Steel side marked" in str(task.content)
        await on.say(Word.NEXT)
        assert task.display
        await on.press("space")
        assert not task.display


async def test_the_call_that_holds_stays_though_another_came_after_it(stage: StageMaker) -> None:
    async with stage() as on:
        await to_soak(on)
        await on.until(lambda: Call.SOAK_DONE in on.running.sitting.state.alarms)
        on.source.trouble = "unplugged"
        await on.pass_time(8)
        on.source.trouble = ""
        await on.pass_time(2)
        assert on.running.sitting.state.calls[-1].call is Call.PROBE_BACK
        assert "soak done: take it out" in line(on, "#call")


async def test_with_room_the_step_stands_at_the_side(stage: StageMaker) -> None:
    async with stage(size=(120, 35)) as on:
        await to_soak(on)
        side = str(live(on).query_one("#side-words", Static).content)
        assert "What to do" in side
        assert "Fluxed on both seams" in side
        assert "Hot flux flies at the" in side
        assert live(on).query_one("#steps").size.height >= 4
        assert hero(on).size.height > 14
        assert line(on, "#head") == "2/5  Weld the edge to the back | heat 1 of 3"


async def test_what_the_log_can_not_be_written_for_is_told_and_the_sitting_goes_on(stage: StageMaker) -> None:
    async with stage() as on:
        sittings = on.folders.logbook / "sittings"
        for file in sittings.iterdir():
            file.unlink()
        sittings.rmdir()
        sittings.write_text("in the way")
        await on.say(Word.NEXT)
        await on.pass_time(5)
        await on.pilot.pause()
        text = " ".join(" ".join(on.rows()).split())
        assert "NOT ON THE DISK: can't write " in text
        assert "a file stands where a folder should be" in text
        for size in ((100, 24), (200, 55), (80, 18), (40, 12), (20, 5), (20, 2), (80, 24)):
            for _ in range(2):
                await on.press("f")
                await on.pilot.resize_terminal(*size)
                await on.pilot.pause()
                assert "NOT ON THE DISK:" in " ".join(on.rows()), (size, live(on).classes)
        await on.press("u")
        assert line(on, "#call").endswith("brings it back; not on the disk | ")
        await on.press("n", "x", "enter")
        assert line(on, "#call") == "noted, but not on the disk | "
        sittings.unlink()
        await on.say(Word.NEXT, Word.NEXT)
        await on.pilot.pause()
        assert on.running.sitting.state.phase is PhaseKind.FIRE
        assert "NOT ON THE DISK" not in " ".join(on.rows())
        await on.press("n", "x", "enter")
        assert line(on, "#call") == "noted | "


# Keys


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


async def test_each_word_has_its_key(stage: StageMaker) -> None:
    async with stage() as on:
        state = on.running.sitting.state
        await on.say(Word.NEXT)
        await on.press("i", "o")
        assert (state.phase, big(on)[0]) == (PhaseKind.FIRE, "SURE?")
        await on.press("o")
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


@pytest.mark.parametrize("by", ["key", "beat"])
async def test_readings_that_were_held_up_are_logged_at_their_own_time_and_before_what_came_later(
    stage: StageMaker, by: str
) -> None:
    async with stage() as on:
        at = on.source.clock()
        waiting = [at + n / 4 for n in range(1, 101)]
        for then in waiting:
            on.app.deliver(Reading(then, 600.0))
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


# Leaving and ending


async def test_leaving_a_sitting_that_runs_asks_first(stage: StageMaker) -> None:
    async with stage() as on:
        await on.press("q", "s")
        assert isinstance(on.app.screen, LiveScreen)
        await on.press("q", "l")
        assert on.app.outcome.status == 0
        assert "go on with it: heatbook run --go-on 20260314-091502-draw" in on.app.outcome.said[0]
    assert on.source.closed
    assert [path.suffix for path in (on.folders.logbook / "sittings").iterdir()] == [".json"]


async def test_finishing_shows_what_was_done_and_can_be_taken_back(stage: StageMaker) -> None:
    async with stage() as on:
        await to_soak(on)
        await on.press("q", "f")
        assert isinstance(on.app.screen, FinishedScreen)
        await on.press("u")
        assert isinstance(on.app.screen, LiveScreen)
        assert on.running.sitting.state.phase is PhaseKind.SOAK
        await on.pass_time(3)
        assert Call.PROBE_LOST not in on.running.sitting.state.called
        await on.say(Word.FINISH)
        assert isinstance(on.app.screen, FinishedScreen)
        await on.press("q")
        assert "heatbook log show 20260314-091502-draw" in on.app.outcome.said[0]


@pytest.mark.parametrize("size", [(80, 24), (40, 12), (20, 5)])
async def test_the_keys_stand_below_the_longest_summary(stage: StageMaker, size: tuple[int, int]) -> None:
    async with stage(size=size, plan=SHELF / "drawknife.toml") as on:
        for _ in range(11):
            await on.say(Word.ON)
        await on.say(Word.FINISH)
        await on.pilot.pause()
        assert isinstance(on.app.screen, FinishedScreen)
        keys = on.app.screen.query_one(KeyLine).region
        assert keys.height >= 1
        assert on.app.screen.region.contains_region(keys)


async def test_ctrl_c_leaves_at_once_with_the_log_whole(stage: StageMaker) -> None:
    async with stage() as on:
        await to_soak(on)
        await on.press("n", "ctrl+c")
        assert "go on with it" in on.app.outcome.said[0]
    assert [path.suffix for path in (on.folders.logbook / "sittings").iterdir()] == [".json"]


# Sizes


@pytest.mark.parametrize("size", [(1, 1), (39, 40), (80, 18), (240, 70)])
async def test_no_size_makes_it_fall_over(stage: StageMaker, size: tuple[int, int]) -> None:
    async with stage(size=size) as on:
        await to_soak(on)
        await on.until(lambda: Call.SOAK_DONE in on.running.sitting.state.alarms)
        await on.press("f", "f", "n", "escape", "q", "escape")
        if size >= (20, 5):
            await on.press("c", "escape", "question_mark", "escape")
        await on.press("space")
        await on.until(lambda: Call.TOO_COLD in on.running.sitting.state.alarms)
        await on.say(Word.FINISH)
        on.app.export_screenshot()


async def test_a_tiny_terminal_has_word_figure_and_what_space_means(stage: StageMaker) -> None:
    async with stage(size=(20, 5)) as on:
        await on.say(Word.NEXT)
        await on.press("space")
        await on.pass_time(30)
        assert line(on, "#small-word") == "HEAT | modelled"
        assert hero(on).region.height == 3
        assert on.rows()[-1].strip() == "space skin is at he…"


async def test_the_size_may_change_at_any_time(stage: StageMaker) -> None:
    async with stage(size=(120, 35)) as on:
        await to_soak(on)
        for size in ((80, 24), (20, 5), (200, 55), (80, 24)):
            await on.pilot.resize_terminal(*size)
            await on.pilot.pause()
            room = arrange(*size)
            assert hero(on).size.height == room.figure + (room.word if room.word > 1 else 0)


async def test_keys_that_were_moved_open_and_close_the_sheets(stage: StageMaker) -> None:
    async with stage(settings='[keys]\nstep-sheet = "j"\nnext = "f5"\n') as on:
        await on.press("j")
        assert isinstance(on.app.screen, StepSheet)
        await on.press("j")
        assert isinstance(on.app.screen, LiveScreen)
        await on.press("j", "f5")
        assert isinstance(on.app.screen, LiveScreen)


@pytest.mark.parametrize(
    ("settings", "probe_on", "said"),
    [
        ('hands_free = "thermal"', ProbeOn.WORK, "soak begins by itself, probe on work"),
        ("grace_seconds = 20", ProbeOn.FIRE, "goes on by itself 20 s after a call, probe on fire"),
    ],
)
async def test_what_may_end_a_phase_by_itself_is_shown(
    stage: StageMaker, settings: str, probe_on: ProbeOn | None, said: str
) -> None:
    async with stage(settings=settings, probe_on=probe_on) as on:
        await on.say(Word.NEXT)
        assert said in line(on, "#call")


async def test_what_began_by_itself_is_told_with_the_key_that_takes_it_back(stage: StageMaker) -> None:
    async with stage(settings='keys.undo = "backspace"') as on:
        state = on.running.sitting.state
        await on.say(Word.NEXT, Word.NEXT)
        await on.until(lambda: state.phase is PhaseKind.SOAK)
        assert "at heat: soak; backspace takes it back" in line(on, "#call")
        await on.press("backspace")
        assert state.phase is PhaseKind.FIRE


async def test_a_caution_is_shown_once_as_what_it_warns_of_begins(stage: StageMaker) -> None:
    async with stage(size=(200, 55)) as on:
        await on.say(Word.NEXT, Word.NEXT)
        own, *_ = on.running.sitting.current_step.cautions
        assert line(on, "#call").startswith(f"mind: {own}")
        await on.pass_time(13)
        assert line(on, "#call").startswith("mind: carbon monoxide, gas, burns")
        await on.pass_time(13)
        assert "mind" not in line(on, "#call")
        await on.say(Word.OUT, Word.OUT)
        assert line(on, "#call").startswith("mind: flux, ")
        await on.pass_time(4)
        await on.say(Word.NEXT)
        assert "mind" not in line(on, "#call")
        await on.say(Word.OUT, Word.OUT)
        assert "mind" not in line(on, "#call")
