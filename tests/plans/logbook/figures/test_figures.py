"""The figures of sittings told by hand; each number is worked out beside the story.

The probe speaks four times a second, so that the median of the last second is one of five, and a small step in what it
says counts from the third reading on. A step that no steel of this section can take is believed when it has stood for
1.8 s, which is with the ninth reading; so is what is said at the beginning. After a silence, what is as it was before
is believed from the third reading on. The warm model has the skin until then. What is believed stands until the next
reading that is, or until the probe counts as lost: after 5 s, or three of its own intervals.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from plans.logbook.figures.heats import heat_figures
from plans.logbook.figures.kept import figures_to_record
from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reader import read_plan
from plans.reading import ProbeOn
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Word
from plans.sitting.phase_span import PhaseSpan, phase_spans
from plans.units import celsius

Tell = Callable[..., Any]
TEMPER = """
heatbook = 1
title = "Temper"

[[step]]
title = "Temper"
kind = "temper"
heats = 2

[step.oven]
at = "200 degC"
for = "2 h"
"""
NEXT, OUT, ON, BACK, UNDO = Word.NEXT, Word.OUT, Word.ON, Word.BACK, Word.UNDO
PAUSE, RESUME, REPEAT, FINISH = Word.PAUSE, Word.RESUME, Word.REPEAT, Word.FINISH
WORK = ProbeOn.WORK


def figures(sitting: Any) -> dict[str, Any]:
    """As the log keeps them."""
    return figures_to_record(heat_figures(sitting))


def spans(sitting: Any) -> list[PhaseSpan]:
    return phase_spans(sitting.state, sitting.now)


def heats(story: Any, step: int = 1) -> list[dict[str, Any]]:
    found = next(shown for shown in figures(story.sitting)["steps"] if shown["step"] == step)
    return list(found["heats"])


def test_one_heat_measured(tell: Tell) -> None:
    """Fire 0 to 100 s, soak to 160, struck to 176: 10 s at 1180 and 6 s at 1140, where the cold limit is 1150."""
    story = tell(WORK).say(NEXT).feel(1200, 100).say(NEXT).feel(1240, 60).say(NEXT).feel(1180, 10).feel(1140, 6)
    story.say(NEXT)
    assert heats(story)[0] == {
        "heat": 1,
        "in_fire_seconds": 160.0,
        "soak_seconds": 60.0,
        "strike_seconds": 16.0,
        "air_seconds": 0,
        "hold_seconds": 0,
        # 1140 is said from 170.25 on, and the median follows at 170.75; until 176.
        "too_cold_seconds": 5.25,
        "peak_celsius": 1240.0,
        "leaving_celsius": 1240.0,
        "lowest_struck_celsius": 1140.0,
        "basis": "measured",
        "end": "done",
        # 1240 is believed from 100.75 on; 1250 is wanted, and 15 K below it is even with that: until 160.75.
        "at_welding_heat_seconds": 60.0,
    }


def test_the_skin_at_heat_ends_the_fire_by_itself(tell: Tell) -> None:
    """From 1000 to 1260 at 40.25, where 1250 counts.

    It is believed with the ninth reading, at 42.25. The grid point after it is 42.5.
    """
    story = tell(WORK).say(NEXT).feel(1000, 40).feel(1260, 30).say(OUT)
    assert spans(story.sitting)[1:3] == [
        replace(spans(story.sitting)[1], phase=PhaseKind.FIRE, began=0.0, ended=42.5, seconds=42.5),
        replace(spans(story.sitting)[2], phase=PhaseKind.SOAK, began=42.5, ended=70.0, seconds=27.5),
    ]
    assert (heats(story)[0]["in_fire_seconds"], heats(story)[0]["soak_seconds"]) == (70.0, 27.5)


def test_a_spike_is_neither_peak_nor_lowest(tell: Tell) -> None:
    story = tell(WORK).say(NEXT).feel(1200, 20).feel(1900, 0.5).feel(1200, 20).say(OUT)
    story.feel(1180, 5).feel(300, 0.5).feel(1180, 5).say(NEXT)
    assert (heats(story)[0]["peak_celsius"], heats(story)[0]["lowest_struck_celsius"]) == (1200.0, 1180.0)


def test_what_no_steel_can_be_is_no_peak(tell: Tell) -> None:
    story = tell(WORK).say(NEXT).feel(1200, 20).feel(4000, 5).feel(1200, 20).say(OUT)
    # Silent from 20 s to the reading at 25.25 s is more than 5 s: the probe is lost, and until its third reading, at
    # 25.75 s, the warm model has the work warm on. In a fire of 1290 degC nothing gets hotter than that.
    assert 1200.0 <= heats(story)[0]["peak_celsius"] < 1290.0


def test_what_no_steel_can_be_for_less_than_a_silence_changes_nothing(tell: Tell) -> None:
    """From 20 s to the reading at 24.25 s what was believed stands: the median of 1200, 1200, 1200, 1200 and 1200."""
    story = tell(WORK).say(NEXT).feel(1200, 20).feel(4000, 4).feel(1200, 20).say(OUT)
    assert heats(story)[0]["peak_celsius"] == 1200.0


def test_a_pause_counts_for_nothing(tell: Tell) -> None:
    """30 of 100 s in the fire; on the anvil 60 s in which the work lies there and goes cold, between 8 s and 4 s."""
    story = tell(WORK).say(NEXT).feel(1200, 40).say(PAUSE).feel(900, 30).say(RESUME).feel(1200, 30).say(OUT)
    story.feel(1180, 8).say(PAUSE).feel(700, 60).say(RESUME).feel(1160, 4).say(NEXT)
    found = heats(story)[0]
    assert (found["in_fire_seconds"], found["strike_seconds"]) == (70.0, 12.0)
    # 700 still stands until the ninth reading after the pause.
    assert found["too_cold_seconds"] == 2.25


def test_a_pause_that_a_word_ends_and_one_that_is_taken_back(tell: Tell) -> None:
    story = tell(WORK).say(NEXT).feel(1200, 40).say(PAUSE).feel(900, 10).say("lazy fire").feel(900, 10).say(OUT)
    story.say(NEXT).feel(1200, 25).say(OUT).feel(1160, 10).say(PAUSE).feel(1160, 5).say(UNDO).feel(1160, 5).say(NEXT)
    found = heats(story)[0]
    assert (found["in_fire_seconds"], found["strike_seconds"]) == (65.0, 20.0)


def test_a_pause_that_goes_on(tell: Tell) -> None:
    story = tell().say(NEXT).wait(40).say(PAUSE).wait(100)
    assert heats(story)[0]["in_fire_seconds"] == 40.0


def test_out_taken_back_was_never_said(tell: Tell) -> None:
    story = tell(WORK).say(NEXT).feel(1200, 50).say(OUT).feel(1000, 10).say(UNDO).feel(1200, 40).say(OUT)
    story.feel(1180, 10).say(NEXT)
    found = heats(story)[0]
    assert (found["in_fire_seconds"], found["strike_seconds"], found["too_cold_seconds"]) == (100.0, 10.0, 0.0)
    assert found["lowest_struck_celsius"] == 1180.0


def test_back_adds_to_the_same_heat(tell: Tell) -> None:
    """50 s of fire, 10 s on the anvil, back to the soak for 30 s, out again for 5 s."""
    story = tell(WORK).say(NEXT).feel(1200, 50).say(OUT).feel(1160, 10).say(BACK).feel(1200, 30).say(NEXT)
    story.feel(1160, 5).say(NEXT)
    found = heats(story)
    assert [heat["heat"] for heat in found] == [1, 2]
    assert [found[0][f"{name}_seconds"] for name in ("in_fire", "soak", "strike")] == [80.0, 30.0, 15.0]


def test_heats_beyond_the_plan_and_heats_that_were_left_out(tell: Tell) -> None:
    story = tell()
    for _ in range(2):
        story.say(NEXT).wait(60).say(OUT).wait(10)
    story.say(REPEAT, NEXT).wait(30).say(OUT).wait(5).say(ON).wait(20).say(OUT).wait(5).say(ON).say(ON)
    assert [heat["heat"] for heat in heats(story)] == [1, 2, 3]
    assert [heat["in_fire_seconds"] for heat in heats(story)] == [60.0, 60.0, 30.0]
    assert [heat["heat"] for heat in heats(story, 2)] == [1]
    assert heats(story, 3) == [], "the smith was awaited there, and went on"
    assert heats(story, 4) == [], "the bench has no heats"


def ends(story: Any, step: int = 1) -> list[tuple[int, str]]:
    return [(heat["heat"], heat["end"]) for heat in heats(story, step)]


def test_a_heat_that_the_end_finds_in_the_fire_is_cut_off(tell: Tell) -> None:
    """Put away at 735 degC, before any soak: it counts as no heat, and left no fire that anybody saw."""
    story = tell(WORK).say(NEXT).feel(1200, 60).say(OUT).feel(1160, 10).say(NEXT).feel(735, 50)
    assert ends(story) == [(1, "done"), (2, "under way")], "nobody has said yet that it is over"
    story.say(FINISH)
    assert ends(story) == [(1, "done"), (2, "cut off")]
    assert (heats(story)[1]["in_fire_seconds"], heats(story)[1]["leaving_celsius"]) == (50.0, None)
    assert heat_figures(story.sitting).done == 1


@pytest.mark.parametrize("word", [BACK, ON])
def test_a_heat_that_the_smith_left_in_the_fire_for_another_is_cut_off(tell: Tell, word: Word) -> None:
    story = tell().say(NEXT).wait(60).say(OUT).wait(10).say(NEXT).wait(5).say(word).wait(20)
    assert ends(story) == [(1, "done"), (2, "cut off")]


def test_a_heat_that_went_back_in_is_done_only_once_it_is_out_again(tell: Tell) -> None:
    """A cycle that is taken back into the fire from the air goes on: put away there it is none."""
    story = tell().say(ON, ON).say(NEXT).wait(100).say(OUT).wait(20).say(BACK).wait(30)
    at_once, again = story.say(FINISH), tell().say(ON, ON).say(NEXT).wait(100).say(OUT).wait(20).say(BACK).wait(30)
    assert ends(at_once, 3) == [(1, "cut off")]
    assert ends(again.say(OUT).wait(5).say(FINISH), 3) == [(1, "done")]


def test_a_hold_counts_from_when_the_work_went_in(tell: Tell) -> None:
    temper = read_plan(TEMPER, "temper", "temper.toml")
    story = tell(None, temper).say(NEXT).wait(60).say(FINISH)
    assert ends(story) == [(1, "done")]


def test_without_a_probe_the_figures_are_the_warm_models(tell: Tell) -> None:
    story = tell().say(NEXT).wait(200).say(OUT).wait(20).say(NEXT)
    found = heats(story)[0]
    skin = story.sitting.warm.skin
    # Grid points come every half second; the one that is reached at 200 s is number 399 from 0.
    assert found["leaving_celsius"] == pytest.approx(celsius(skin[399]), abs=0.1)
    assert found["lowest_struck_celsius"] == pytest.approx(celsius(skin[439]), abs=0.1)
    assert found["basis"] == "modelled"
    below = sum(kelvin < 1150 + 273.15 for kelvin in skin[400:440]) * 0.5
    assert below > 5
    assert found["too_cold_seconds"] == pytest.approx(below, abs=0.5)


def test_what_the_model_comes_to_after_the_end_is_no_part_of_it(tell: Tell) -> None:
    """The smith takes it to be at 1250 degC at 1.75 s, which counts from the grid point after it on."""
    at_once = tell().say(NEXT).wait(1.75).say(NEXT, FINISH)
    later = tell().say(NEXT).wait(1.75).say(NEXT, FINISH).wait(60)
    assert heats(at_once) == heats(later)
    assert heats(later)[0]["peak_celsius"] < 100


def test_a_probe_in_the_fire_measures_no_work(tell: Tell) -> None:
    story = tell(ProbeOn.FIRE).say(NEXT).feel(1290, 100).say(OUT)
    assert heats(story)[0]["basis"] == "modelled"
    assert heats(story)[0]["peak_celsius"] < 1285


@pytest.mark.parametrize(("silent", "basis"), [(21.75, "measured"), (22.25, "modelled")])
def test_a_heat_is_measured_when_the_probe_was_heard_for_four_fifths(tell: Tell, silent: float, basis: str) -> None:
    """Of 100 s the model has 2.25 s before the ninth reading, and of the gap what is left after the 5 s for which the
    last reading stands, with the 0.75 s before the third one again: 2.25 + gap - 5 + 0.75 s, less or more than 20 s."""
    story = tell(WORK).say(NEXT).feel(1200, 40).wait(silent).feel(1200, 60 - silent).say(OUT)
    assert heats(story)[0]["in_fire_seconds"] == 100.0
    assert heats(story)[0]["basis"] == basis


def test_a_probe_lost_on_the_anvil_leaves_the_rest_to_the_model(tell: Tell) -> None:
    story = tell(WORK).say(NEXT).feel(1240, 200).say(OUT).feel(1200, 2).wait(30).say(NEXT)
    found = heats(story)[0]
    skin = story.sitting.warm.skin
    assert found["lowest_struck_celsius"] == pytest.approx(celsius(min(skin[404:464])), abs=0.1)
    # By the model from 204.5 s on: half a second for each grid point below the limit.
    below = [(index + 1) * 0.5 for index in range(400, 464) if skin[index] < 1150 + 273.15]
    assert found["too_cold_seconds"] == pytest.approx(sum(at >= 204.5 for at in below) * 0.5, abs=0.5)
    # The model has the word as soon as the probe is silent, and its call says that it went by that. Lost the probe is
    # at the grid point after 207 s: silent for more than 5 s.
    cold, lost = story.sitting.state.calls[:2]
    assert (cold.call, cold.basis, lost.call, lost.at) == (Call.TOO_COLD, Basis.MODELLED, Call.PROBE_LOST, 207.5)
    assert cold.kelvin == pytest.approx(skin[round(cold.at / 0.5) - 1], abs=0.1)
    assert 203.8 < cold.at < lost.at
    assert cold.kelvin < 1150 + 273.15


def test_a_slow_logger_measures_too(tell: Tell) -> None:
    """A reading every 2 s stands until the next one."""
    story = tell(WORK).say(NEXT).feel(1200, 100, every=2.0).say(OUT).feel(1120, 20, every=2.0).say(NEXT)
    found = heats(story)[0]
    assert found["basis"] == "measured"
    # 1120 becomes the median of three with its second reading, at 104.
    assert found["too_cold_seconds"] == 16.0


def test_without_section_and_probe_there_is_no_temperature(tell: Tell, trial: Plan) -> None:
    bare = replace(trial, steps=tuple(replace(step, section=None, reach=None) for step in trial.steps))
    story = tell(None, bare).say(NEXT).wait(60).say(OUT).wait(10).say(NEXT)
    found = heats(story)[0]
    assert [found[f"{name}_celsius"] for name in ("peak", "leaving", "lowest_struck")] == [None, None, None]
    assert (found["in_fire_seconds"], found["too_cold_seconds"], found["basis"]) == (60.0, 0.0, "modelled")


def test_a_cycle_is_cooled_in_the_air_and_has_no_strike(tell: Tell) -> None:
    story = tell(WORK).say(ON, ON).say(NEXT).feel(910, 100).say(OUT).feel(700, 40).feel(470, 20).say(NEXT)
    found = heats(story, 3)[0]
    assert (found["air_seconds"], found["strike_seconds"], found["too_cold_seconds"]) == (60.0, 0, 0.0)
    assert (found["leaving_celsius"], found["lowest_struck_celsius"]) == (910.0, None)


def test_the_last_phase_ends_now_or_with_the_sitting(tell: Tell) -> None:
    story = tell().say(NEXT).wait(40)
    assert heats(story)[0]["in_fire_seconds"] == 40.0
    story.say(FINISH).wait(60)
    assert heats(story)[0]["in_fire_seconds"] == 40.0
    story.say(UNDO)
    assert heats(story)[0]["in_fire_seconds"] == 100.0


def test_calls_and_notes_have_their_place(tell: Tell) -> None:
    story = tell(WORK).say(NEXT).feel(1200, 10).say('tongs "slip", a lot').say(OUT).feel(1100, 8).say("wrong one")
    found = figures(story.sitting)
    assert [(call["call"], call["step"], call["heat"]) for call in found["calls"]] == [("too cold", 1, 1)]
    assert 11.0 <= found["calls"][0]["at_seconds"] <= 15.0
    assert found["notes"] == [
        {"at_seconds": 10.0, "text": 'tongs "slip", a lot', "step": 1, "heat": 1},
        {"at_seconds": 18.0, "text": "wrong one", "step": 1, "heat": 1},
    ]


def test_a_sitting_that_has_just_begun(tell: Tell) -> None:
    assert figures(tell().sitting) == {
        "steps": [{"step": 1, "title": "Weld", "kind": "weld", "heats": []}],
        "calls": [],
        "notes": [],
    }
