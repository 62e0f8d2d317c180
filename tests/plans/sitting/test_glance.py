"""What the smith sees at one moment: word, figure, where the figure comes from, and what comes then."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import inf
from typing import Any

import pytest

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reading import ProbeOn
from plans.shapes import Section
from plans.shown import show_clock
from plans.sitting.calls import URGENCY, Call
from plans.sitting.events import Basis, Tick, Word
from plans.sitting.glance import Glance, glance_at
from plans.sitting.main_figure import MainFigure, MainFigureKind
from plans.units import Units, celsius
from plans.warmth.bar import BarShape
from plans.warmth.forecast import hammer_time, skin_time
from plans.warmth.lumped import cooling_time
from plans.warmth.model import WarmModel
from plans.warmth.natural_convection import of_a_section
from plans.warmth.surroundings import ROOM, fire, still_air, striking

Begin = Callable[..., Any]
NEXT, ON, OUT = Word.NEXT, Word.ON, Word.OUT
WORK, IN_FIRE = ProbeOn.WORK, ProbeOn.FIRE
ICE = 273.15


def seen(story: Any) -> Glance:
    return glance_at(story.sitting, story.at)


def say(story: Any, *words: Word) -> Any:
    for word in words:
        story.say(word)
    return story


def figure(story: Any) -> tuple[str, str, str, Basis]:
    found = seen(story).figure
    return found.text(Units.METRIC), found.unit(Units.METRIC), found.label, found.basis


def seconds(story: Any) -> float:
    found = seen(story).figure.seconds
    assert found is not None
    return found


# Each phase


def test_ready_shows_the_fire_that_is_wanted(begin: Begin) -> None:
    story = begin()
    assert seen(story).word == "ready"
    assert figure(story) == ("1290", "degC", "fire wanted", Basis.PLANNED)
    assert seen(story).next_word == "in the fire"


def test_ready_without_a_fire_counts_how_long_it_has_been(begin: Begin) -> None:
    story = say(begin(), ON, ON, ON, ON).wait(75)
    assert seen(story).phase is PhaseKind.READY
    assert figure(story) == ("1:15", "", "in this phase for", Basis.MEASURED)
    assert seen(story).next_word == "in the oven"


def test_fire_counts_down_to_the_heat(begin: Begin, plan: Plan) -> None:
    story = begin().wait(0.5).say(NEXT)
    assert (seen(story).word, seen(story).next_word) == ("heat", "skin is at heat")
    section = plan.steps[0].section
    assert section is not None
    expected = skin_time(WarmModel(section), fire(1290 + ICE), 1250 + ICE)
    assert seconds(story) == pytest.approx(expected, rel=0.02)
    assert figure(story) == (show_clock(seconds(story)), "", "until at heat", Basis.MODELLED)
    before = seconds(story)
    story.wait(30)
    assert seconds(story) == pytest.approx(before - 30, abs=2)


def test_a_fire_that_never_brings_it_there_says_so(begin: Begin) -> None:
    story = begin(IN_FIRE).say(NEXT).feel(1200, seconds=25)
    assert figure(story) == ("--", "", "until at heat", Basis.MODELLED), "the door was open: it may come back"
    story.feel(1200, seconds=10)
    assert (seen(story).word, *figure(story)) == ("fire cold", "1200", "degC", "the fire now", Basis.MEASURED)
    story.feel(1262, seconds=10)
    assert seen(story).word == "heat"


def test_soak_counts_down_to_even_through(begin: Begin) -> None:
    story = begin().say(NEXT)
    story.wait_for(PhaseKind.SOAK)
    assert (seen(story).word, seen(story).next_word) == ("soak", "out, strike")
    assert figure(story)[2:] == ("soak left", Basis.MODELLED)
    left = seconds(story)
    assert story.wait_for(Call.SOAK_DONE) == pytest.approx(left, abs=2)


def test_a_set_soak_counts_down_its_time(begin: Begin) -> None:
    story = say(begin(), ON, ON, NEXT, NEXT).wait(60.5)
    assert (seen(story).phase, seen(story).word) == (PhaseKind.SOAK, "soak")
    assert figure(story) == ("2:00", "", "soak left", Basis.PLANNED)
    assert seconds(story) == pytest.approx(119.5)
    assert seen(story).next_word == "out, in the air"


def test_a_soak_that_is_done_says_take_it_out_and_for_how_long(begin: Begin) -> None:
    story = say(begin(), ON, ON, NEXT, NEXT)
    story.wait_for(Call.SOAK_DONE)
    story.wait(10)
    assert seen(story).word == "take it out"
    assert figure(story) == ("0:10", "", "waiting for you", Basis.MEASURED)
    assert seen(story).alarm is None, "it is time, and nothing is wrong"


def test_strike_shows_the_hammer_time_in_seconds(begin: Begin, plan: Plan) -> None:
    story = begin(WORK).say(NEXT).feel(1250, seconds=300).say(OUT)
    assert (seen(story).word, seen(story).next_word) == ("strike", "in the fire")
    section = plan.steps[0].section
    assert section is not None
    air = still_air(convection=of_a_section(section, ROOM))
    expected = hammer_time(WarmModel(section, start=1250 + ICE), striking(around=air), 1150 + ICE)
    assert expected is not None
    assert expected < 100
    assert seconds(story) == pytest.approx(expected, abs=1.5)
    assert figure(story) == (f"{seconds(story):.0f}", "s", "hammer time", Basis.MODELLED)


def test_a_long_hammer_time_is_a_clock(begin: Begin, plan: Plan) -> None:
    step = replace(plan.steps[0], section=Section(0.1, 0.08), reach=None, keep_above=700 + ICE)
    story = begin(WORK, replace(plan, steps=(step,))).say(NEXT).feel(1250, every=1, seconds=1500).say(OUT)
    text, unit, label, _ = figure(story)
    assert seconds(story) >= 100
    assert (text, unit, label) == (show_clock(seconds(story)), "", "hammer time")


def test_strike_without_a_cold_limit_counts_how_long_it_has_been(begin: Begin, plan: Plan) -> None:
    bare = replace(plan, steps=(replace(plan.steps[1], keep_above=None),))
    story = say(begin(None, bare), NEXT, OUT).wait(12)
    assert figure(story) == ("0:12", "", "in this phase for", Basis.MEASURED)


def test_air_counts_down_to_cold_enough(begin: Begin) -> None:
    story = say(begin(), ON, ON, NEXT)
    story.wait_for(Call.SOAK_DONE)
    story.say(NEXT).wait(5)
    assert (seen(story).word, seen(story).next_word) == ("air cool", "in the fire")
    assert figure(story)[2:] == ("until cold enough", Basis.MODELLED)
    left = seconds(story)
    assert story.wait_for(Call.COLD_ENOUGH) == pytest.approx(left, abs=5)
    assert seen(story).word == "back in"
    assert figure(story)[2] == "waiting for you"


def test_the_last_air_leads_on_and_not_back_in(begin: Begin) -> None:
    story = say(begin(), ON, ON, NEXT, OUT, NEXT, OUT)
    story.wait_for(Call.COLD_ENOUGH)
    assert (seen(story).word, seen(story).next_word) == ("cold enough", "make ready")


def test_quench_oven_air_and_dip_count_down_their_times(begin: Begin) -> None:
    story = say(begin(), ON, ON, ON, NEXT, OUT, NEXT).wait(4)
    assert (seen(story).word, *figure(story)) == ("quench", "0:06", "", "time left", Basis.PLANNED)
    story.wait(10)
    assert (seen(story).word, figure(story)[0]) == ("time up", "0:04")
    say(story, NEXT, NEXT).wait(3600)
    assert (seen(story).word, seen(story).next_word) == ("oven", "out, in the air")
    assert figure(story) == ("1:00:00", "", "time left", Basis.PLANNED)
    story.say(NEXT).wait(60)
    assert (seen(story).word, seen(story).next_word) == ("air cool", "in the oven")
    assert figure(story) == ("9:00", "", "time left", Basis.PLANNED)
    say(story, ON, NEXT).wait(599)
    assert (seen(story).word, seen(story).next_word) == ("dip", "to the bench")
    assert figure(story) == ("0:01", "", "time left", Basis.PLANNED)


def test_bench_counts_up_and_ends_with_the_plan(begin: Begin) -> None:
    story = say(begin(), ON, ON, ON, ON, ON, NEXT, NEXT).wait(90)
    assert (seen(story).word, figure(story)[0], figure(story)[2]) == ("bench", "1:30", "in this phase for")
    assert seen(story).next_word == "in the bath", "one dip more"
    story.say(ON)
    assert (seen(story).step_number, seen(story).next_word) == (7, "finish")


def test_a_bench_before_another_step_is_done_with_next(begin: Begin, plan: Plan) -> None:
    story = begin(None, replace(plan, steps=(plan.steps[-1], plan.steps[0])))
    assert seen(story).next_word == "done, next step"


# Alarms


def test_too_cold_shows_the_skin_in_place_of_the_time(begin: Begin) -> None:
    story = begin(WORK).say(NEXT).feel(1250, seconds=60).say(OUT).feel(1120, seconds=10)
    assert (seen(story).word, seen(story).alarm) == ("too cold", Call.TOO_COLD)
    assert figure(story) == ("1120", "degC", "below its limit", Basis.MEASURED)


def test_too_cold_by_the_model_says_modelled(begin: Begin) -> None:
    story = begin().say(NEXT)
    story.wait_for(Call.SOAK_DONE)
    story.say(NEXT)
    story.wait_for(Call.TOO_COLD)
    text, unit, label, basis = figure(story)
    assert (unit, label, basis) == ("degC", "below its limit", Basis.MODELLED)
    assert int(text) == pytest.approx(celsius(story.sitting.warm.skin[-1]), abs=0.6)


def test_too_hot(begin: Begin) -> None:
    story = begin(WORK).say(NEXT).feel(1340, seconds=10)
    assert (seen(story).word, seen(story).alarm) == ("too hot", Call.TOO_HOT)


def test_soaked_too_long(begin: Begin) -> None:
    story = say(begin(), ON, ON, NEXT, NEXT).wait(301)
    assert (seen(story).word, seen(story).alarm) == ("soaked too long", Call.SOAKED_TOO_LONG)


def test_a_lost_probe_is_an_alarm_and_leaves_the_word_alone(begin: Begin) -> None:
    story = begin(WORK).say(NEXT).feel(600, seconds=5).wait(10)
    found = seen(story)
    assert (found.alarm, found.word, found.skin_basis) == (Call.PROBE_LOST, "heat", Basis.MODELLED)
    story.feel(620, seconds=1)
    assert (seen(story).alarm, seen(story).skin_basis) == (None, Basis.MEASURED)


def test_what_a_silent_probe_said_is_not_struck_by_and_tells_its_age(begin: Begin) -> None:
    story = begin(WORK).say(NEXT).feel(1250, seconds=60)
    story.wait(2.5)
    assert (seen(story).skin_basis, seen(story).probe_age) == (Basis.MEASURED, 2.5)
    story.feel(1250, seconds=5).say(OUT).feel(1200, seconds=5).wait(1.5)
    before = seen(story)
    assert (before.skin_basis, before.probe_age) == (Basis.MEASURED, None), "a loose contact is passed over"
    story.wait(1.5)
    found = seen(story)
    assert (found.skin_basis, found.alarm) == (Basis.MODELLED, None), "it is not called lost before five seconds"
    assert (found.skin or inf) < (before.skin or 0.0), "the model cools it meanwhile"
    assert (found.figure.seconds or inf) < (before.figure.seconds or 0.0)
    story.feel(1190, seconds=1)
    assert (seen(story).skin_basis, seen(story).probe_age) == (Basis.MEASURED, None)


def test_the_most_urgent_alarm_is_shown_and_the_others_are_not_forgotten(begin: Begin) -> None:
    story = begin(WORK).say(NEXT).feel(1250, seconds=60).say(OUT).feel(1120, seconds=5).wait(10)
    found = seen(story)
    assert found.alarms == {Call.TOO_COLD, Call.PROBE_LOST}
    assert (found.alarm, found.word) == (Call.TOO_COLD, "too cold")
    assert list(URGENCY).index(Call.TOO_COLD) < list(URGENCY).index(Call.PROBE_LOST)


def test_an_alarm_is_over_with_its_phase(begin: Begin) -> None:
    story = begin(WORK).say(NEXT).feel(1250, seconds=60).say(OUT).feel(1120, seconds=10).say(NEXT)
    assert (seen(story).alarm, seen(story).word) == (None, "heat")


# Pause and end


def test_a_pause_counts_itself(begin: Begin) -> None:
    story = begin().say(NEXT).wait(30).say(Word.PAUSE).wait(65)
    found = seen(story)
    assert (found.word, found.paused, found.elapsed) == ("paused", True, 30.0)
    assert figure(story) == ("1:05", "", "paused for", Basis.MEASURED)
    assert found.next_word == "go on"


def test_the_end_shows_the_whole_sitting(begin: Begin) -> None:
    story = begin().say(NEXT).wait(3675).say(Word.FINISH).wait(1000)
    found = seen(story)
    assert (found.word, found.finished, found.next_word) == ("done", True, "")
    assert figure(story) == ("1:01:15", "", "whole sitting", Basis.MEASURED)


# What comes then, and the rest


def test_then_counts_the_heats_that_are_left(begin: Begin) -> None:
    story = begin().say(NEXT)
    assert seen(story).then == "the same, 1 heat more"
    story.say(Word.REPEAT)
    assert (seen(story).then, seen(story).heats) == ("the same, 2 heats more", 3)
    say(story, OUT, NEXT, OUT, NEXT)
    assert (seen(story).heat, seen(story).then) == (3, "draw")
    say(story, ON, ON, NEXT)
    assert seen(story).then == "the same, 1 cycle more"
    say(story, ON, ON)
    assert seen(story).then == "the same, 1 hold more"
    story.say(ON)
    assert seen(story).then == "the same, 1 dip more"
    story.say(ON)
    assert seen(story).then == "the end"


def test_step_targets_and_place(begin: Begin, plan: Plan) -> None:
    found = seen(begin().say(NEXT))
    assert (found.step_number, found.step_count, found.step) == (1, 7, plan.steps[0])
    assert (found.heat, found.heats) == (1, 2)
    assert (found.reach, found.reach_length) == (Section(0.040, 0.012), None)
    assert found.heat_to == 1250 + ICE
    assert (found.fire, found.fire_basis) == (1290 + ICE, Basis.PLANNED)


def test_falling_heats_have_each_their_own_target(begin: Begin) -> None:
    story = say(begin(), ON, ON, NEXT)
    assert (seen(story).fire, seen(story).heat_to) == (930 + ICE, 900 + ICE)
    say(story, OUT, NEXT)
    assert (seen(story).fire, seen(story).heat_to) == (875 + ICE, 845 + ICE)


def test_a_probe_in_the_fire_measures_the_fire_and_not_the_work(begin: Begin) -> None:
    found = seen(begin(IN_FIRE).say(NEXT).feel(1234, seconds=5))
    assert (found.fire, found.fire_basis) == (pytest.approx(1234 + ICE), Basis.MEASURED)
    assert found.skin_basis is Basis.MODELLED


def test_a_probe_on_the_work_measures_the_skin_and_the_middle_lags(begin: Begin) -> None:
    found = seen(begin(WORK).say(NEXT).feel(1000, seconds=20))
    assert (found.skin, found.skin_basis) == (pytest.approx(1000 + ICE), Basis.MEASURED)
    assert found.middle is not None
    assert found.middle < 1000 + ICE
    assert (found.fire, found.fire_basis) == (1290 + ICE, Basis.PLANNED)


def test_without_section_and_probe_nothing_is_made_up(begin: Begin, plan: Plan) -> None:
    bare = replace(plan, steps=(replace(plan.steps[0], section=None, reach=None),))
    found = seen(begin(None, bare).say(NEXT).wait(10))
    assert (found.skin, found.middle, found.skin_basis) == (None, None, Basis.PLANNED)
    assert found.figure == MainFigure(MainFigureKind.UNTIL_HEAT, Basis.MODELLED)


def test_the_cautions_are_acknowledged_once(begin: Begin) -> None:
    story = begin()
    assert not seen(story).acknowledged
    story.say(Word.ACKNOWLEDGE)
    assert seen(story).acknowledged
    assert seen(say(story, NEXT, Word.UNDO)).acknowledged


def test_looking_changes_nothing(begin: Begin) -> None:
    story = begin(WORK).say(NEXT).feel(1250, seconds=30).say(OUT)
    first = seen(story)
    assert seen(story) == first
    assert story.sitting.take(Tick(story.at)) == []


def test_the_part_that_goes_cold_first_is_counted_first(begin: Begin, plan: Plan) -> None:
    """An edge of 3 mm beside a back of 12 mm: its time is shown, then that it is cold, and what the rest has left."""
    step = replace(plan.steps[1], thin=Section(0.020, 0.003), thin_name="edge")
    story = begin(None, replace(plan, steps=(step,)))
    story.say(NEXT)
    story.wait_for(Call.SOAK_DONE)
    assert step.section is not None
    assert step.thin is not None
    whole = cooling_time(1150 + ICE, 900 + ICE, BarShape.of(step.section), still_air())
    edge = cooling_time(1150 + ICE, 900 + ICE, BarShape.of(step.thin), still_air())
    story.say(NEXT).wait(1)
    found = glance_at(story.sitting, story.at)
    assert found.figure.label == "hammer time, edge"
    # The anvil takes more than still air alone.
    assert found.figure.seconds is not None
    assert 0.4 * edge < found.figure.seconds + 1 <= edge
    story.wait(edge)
    found = glance_at(story.sitting, story.at)
    assert found.figure.label == "edge is cold"
    assert found.figure.seconds is not None
    assert 0 < found.figure.seconds < whole - edge
