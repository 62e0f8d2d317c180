"""The fold of a sitting's events, without plan and warm model."""

from __future__ import annotations

import pytest

from plans.phase import PhaseKind
from plans.reading import ProbeOn
from plans.sitting.calls import ALARMS, PASSING, PROMPTS, SPELLS, STATES, Call
from plans.sitting.events import Begun, Called, Cause, Eased, Ended, Event, LeftFire, Said, WentOn, Word
from plans.sitting.folding import fold, folded
from plans.sitting.state import Note

READY, FIRE, SOAK, STRIKE = PhaseKind.READY, PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.STRIKE
IN_THE_FIRE = [Begun(0.0, 0, 1, READY), Begun(10.0, 0, 1, FIRE)]
"""Awaited for ten seconds, then in the fire."""


def called(at: float, call: Call) -> Called:
    return Called(at, call, 0, 1)


def alarms(*events: Event) -> frozenset[Call]:
    return folded([*IN_THE_FIRE, *events]).alarms


def test_before_anything_the_smith_is_awaited_at_the_first_step() -> None:
    state = folded([])
    assert (state.step, state.heat, state.phase, state.since) == (0, 1, READY, 0.0)
    assert (state.paused, state.finished, state.elapsed(7.0)) == (False, False, 7.0)


def test_the_newest_phase_is_the_one_that_goes_on() -> None:
    state = folded([*IN_THE_FIRE, Begun(70.0, 0, 1, SOAK), Begun(100.0, 2, 3, STRIKE)])
    assert (state.step, state.heat, state.phase, state.since, state.at) == (2, 3, STRIKE, 100.0, 100.0)
    assert [begun.phase for begun in state.begins] == [READY, FIRE, SOAK, STRIKE]
    assert (state.began_at(FIRE), state.began_at(PhaseKind.QUENCH)) == (10.0, None)
    assert state.elapsed(104.0) == 4.0


def test_a_phase_counts_from_when_it_really_began() -> None:
    state = folded([*IN_THE_FIRE, Begun(70.0, 0, 1, STRIKE, Cause.PROBE, happened=66.0)])
    assert (state.since, state.elapsed(71.0), state.at) == (66.0, 5.0, 70.0)


def test_a_pause_stops_the_clock_of_the_phase() -> None:
    """In the fire from 10 on; paused from 30 to 50, and again from 60 on."""
    events: list[Event] = [*IN_THE_FIRE, Said(30.0, Word.PAUSE)]
    paused = folded(events)
    assert (paused.paused, paused.elapsed(45.0), paused.pauses(45.0)) == (True, 20.0, [(30.0, 45.0)])
    events.append(Said(50.0, Word.RESUME))
    resumed = folded(events)
    assert (resumed.paused, resumed.elapsed(55.0), resumed.pauses(55.0)) == (False, 25.0, [(30.0, 50.0)])
    again = folded([*events, Said(60.0, Word.PAUSE)])
    assert (again.elapsed(90.0), again.seconds_paused) == (30.0, 20.0)
    assert again.pauses(90.0) == [(30.0, 50.0), (60.0, 90.0)]


def test_a_phase_that_begins_ends_the_pause_and_has_none_of_it() -> None:
    state = folded([*IN_THE_FIRE, Said(30.0, Word.PAUSE), Begun(50.0, 0, 1, SOAK)])
    assert (state.paused, state.elapsed(58.0), state.seconds_paused) == (False, 8.0, 20.0)
    fold(state, Said(60.0, Word.PAUSE))
    fold(state, Said(63.0, Word.RESUME))
    assert state.elapsed(70.0) == 17.0


def test_a_long_break_is_a_pause_from_the_last_entry_on_and_a_short_one_is_none() -> None:
    long = folded([*IN_THE_FIRE, WentOn(5000.0, ProbeOn.WORK, paused_since=40.0)])
    assert (long.paused, long.elapsed(5010.0), long.restarted_at) == (True, 30.0, 5000.0)
    short = folded([*IN_THE_FIRE, WentOn(50.0, ProbeOn.WORK)])
    assert (short.paused, short.elapsed(60.0), short.restarted_at) == (False, 50.0, 50.0)
    was_paused = folded([*IN_THE_FIRE, Said(20.0, Word.PAUSE), WentOn(5000.0, None, paused_since=40.0)])
    assert was_paused.elapsed(5010.0) == 10.0, "the pause had begun before the break"


@pytest.mark.parametrize("call", Call)
def test_a_call_holds_unless_it_only_tells_what_was(call: Call) -> None:
    state = folded([*IN_THE_FIRE, called(20.0, call)])
    assert state.alarms == (frozenset() if call in PASSING else {call})
    assert state.called == {call}
    assert [made.call for made in state.calls] == [call]


def test_a_call_that_is_eased_holds_no_longer_but_was_made() -> None:
    state = folded([*IN_THE_FIRE, called(20.0, Call.TOO_HOT), called(21.0, Call.SOAK_DONE)])
    fold(state, Eased(25.0, Call.TOO_HOT))
    assert (state.alarms, state.called) == ({Call.SOAK_DONE}, {Call.TOO_HOT, Call.SOAK_DONE})
    assert [made.at for made in state.calls] == [20.0, 21.0]


@pytest.mark.parametrize("call", [call for call in Call if call not in PASSING])
def test_of_the_calls_only_a_state_outlasts_its_phase(call: Call) -> None:
    assert (call in PROMPTS | ALARMS | SPELLS) is (call not in STATES)
    assert alarms(called(20.0, call), Begun(30.0, 0, 1, SOAK)) == ({call} if call in STATES else frozenset())


def test_a_new_phase_has_made_no_call_and_the_old_calls_stay_in_the_list() -> None:
    state = folded([*IN_THE_FIRE, called(20.0, Call.TOO_HOT), Begun(30.0, 0, 1, SOAK), called(35.0, Call.SOAK_DONE)])
    assert state.called == {Call.SOAK_DONE}
    assert [made.call for made in state.calls] == [Call.TOO_HOT, Call.SOAK_DONE]
    assert state.called_at(frozenset({Call.TOO_HOT})) == 20.0
    assert state.called_at(frozenset({Call.TOO_HOT, Call.SOAK_DONE})) == 35.0
    assert state.called_at(frozenset({Call.TOO_COLD})) is None


def test_a_probe_that_is_back_is_lost_no_longer() -> None:
    assert alarms(called(20.0, Call.PROBE_LOST), called(30.0, Call.PROBE_BACK)) == frozenset()


def test_the_way_to_the_quench_lets_go_of_what_it_was_time_for_and_ends_with_the_next_phase() -> None:
    soaked: list[Event] = [*IN_THE_FIRE, called(20.0, Call.SOAK_DONE), called(21.0, Call.TOO_HOT)]
    said = folded([*soaked, LeftFire(30.0)])
    assert (said.left_fire_at, said.phase, said.alarms) == (30.0, FIRE, {Call.TOO_HOT})
    felt = folded([*soaked, LeftFire(30.0, happened=28.0)])
    assert felt.left_fire_at == 28.0
    fold(felt, Begun(33.0, 0, 1, PhaseKind.QUENCH))
    assert felt.left_fire_at is None


def test_heats_are_added_to_the_step_that_goes_on() -> None:
    state = folded([*IN_THE_FIRE, Said(20.0, Word.REPEAT), Said(21.0, Word.REPEAT)])
    assert {step: len(heats) for step, heats in state.extra.items()} == {0: 2}
    fold(state, Begun(30.0, 3, 1, FIRE))
    fold(state, Said(31.0, Word.REPEAT))
    assert {step: len(heats) for step, heats in state.extra.items()} == {0: 2, 3: 1}


def test_back_from_the_soak_of_the_same_heat_only_a_word_begins_it_again() -> None:
    soaked = [*IN_THE_FIRE, Begun(20.0, 0, 1, SOAK, Cause.TEMPERATURE)]
    assert folded([*soaked, Begun(30.0, 0, 1, FIRE)]).soak_by_word_only
    assert not folded([*soaked, Begun(30.0, 0, 2, FIRE)]).soak_by_word_only, "the next heat"
    assert not folded([*soaked, Begun(30.0, 0, 1, STRIKE), Begun(40.0, 0, 1, FIRE)]).soak_by_word_only


def test_the_end_stands_ends_a_pause_and_lets_go_of_every_call() -> None:
    state = folded(
        [*IN_THE_FIRE, called(20.0, Call.TOO_HOT), called(21.0, Call.PROBE_LOST), Said(30.0, Word.PAUSE), Ended(44.0)]
    )
    assert (state.finished, state.ended_at, state.alarms) == (True, 44.0, frozenset())
    assert (state.paused, state.pauses(50.0), state.seconds_paused) == (False, [(30.0, 44.0)], 14.0)
    assert len(state.calls) == 2


def test_a_note_tells_what_was_going_on_and_changes_nothing_else() -> None:
    events = [*IN_THE_FIRE, Begun(30.0, 2, 3, STRIKE)]
    state = folded([*events, Said(31.0, Word.NOTE, "a [crack]"), Said(32.0, Word.NOTE, "ground out")])
    assert state.notes == [Note(31.0, "a [crack]", 2, 3), Note(32.0, "ground out", 2, 3)]
    assert (state.undo_points, state.begins) == ([], events)


def test_the_cautions_count_as_read_from_the_first_time_on() -> None:
    state = folded([*IN_THE_FIRE, Said(20.0, Word.ACKNOWLEDGE), Said(40.0, Word.ACKNOWLEDGE)])
    assert (state.acknowledged_at, state.undo_points) == (20.0, [])
