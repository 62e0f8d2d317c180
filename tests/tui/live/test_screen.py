"""The live screen: what it says."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from textual.events import Key
from textual.widgets import Static

from plans.phase import PhaseKind
from plans.reading import ProbeOn
from plans.sitting.calls import Call
from plans.sitting.cautions import for_plan
from plans.sitting.events import Word
from tests.tui.live.seen import big, hero, keys, line, live, to_soak, words
from tui.live.cautions import CautionsScreen
from tui.live.screen import LiveScreen
from tui.running.requests import Shelf
from tui.widgets.grounds import Ground
from tui.widgets.lines import KeyLine
from tui.widgets.marks import MarkRow, call_mark, phase_mark

if TYPE_CHECKING:
    from tests.tui.conftest import StageMaker


async def test_the_cautions_come_first_and_count_as_read_when_all_were_seen(stage: StageMaker) -> None:
    async with stage(acknowledged=False) as on:
        assert isinstance(on.app.screen, CautionsScreen)
        pages, seen = 1, set(on.rows())
        while on.app.screen.query_one(KeyLine).keys[0][1] == "read on":
            on.real += 0.2
            await on.pilot.press("space")
            await on.pilot.pause()
            pages, seen = pages + 1, seen | set(on.rows())
        assert pages > 1
        text = " ".join(" ".join(seen).split())
        assert all(caution.about in text for caution in for_plan(on.running.sitting.plan))
        on.real += 0.2
        await on.pilot.press("space")
        await on.settled(lambda: isinstance(on.app.screen, LiveScreen))
        assert words(on) == [Word.ACKNOWLEDGE]


async def test_a_key_that_is_held_reads_no_cautions(stage: StageMaker) -> None:
    """Thirty a second for ten seconds, after the wait of a keyboard."""
    async with stage(acknowledged=False) as on:
        await on.press("space")
        assert isinstance(on.app.screen, CautionsScreen)
        read = on.app.screen.query_one("#list").scroll_offset
        on.real += 0.5
        for _ in range(300):
            on.app.presses.key("space", on.real)
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
        # Both are there before anything waits for the second: the machine may stand still for longer than that takes.
        for _ in range(2):
            on.app.post_message(Key("enter", "\r"))
        await on.pilot.pause()
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
