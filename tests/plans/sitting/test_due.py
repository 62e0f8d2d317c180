"""What time brings, and when."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from plans.phase import PhaseKind
from plans.plan import Phase, Plan
from plans.reading import ProbeOn
from plans.sitting.calls import Call
from plans.sitting.due import Closing, calls_at_the_end, calls_due, grace_is_over, soaks_by_itself
from plans.sitting.engine import Sitting
from plans.sitting.events import Basis, Cause, Said, Tick, WentOn, Word
from plans.sitting.facts import Facts
from plans.sitting.hands import Hands, HandsFree

Begin = Callable[..., Any]
Alone = Callable[..., Plan]
ICE = 273.15
READY, FIRE, SOAK = PhaseKind.READY, PhaseKind.FIRE, PhaseKind.SOAK
AIR, OVEN = PhaseKind.AIR, PhaseKind.OVEN


def places(sitting: Sitting) -> list[tuple[int, int, PhaseKind]]:
    return [(begun.step, begun.heat, begun.phase) for begun in sitting.state.begins]


def test_a_soak_with_a_set_time_is_done_then_and_called_too_long_later(begin: Begin) -> None:
    story = begin().say(Word.ON).say(Word.ON).say(Word.NEXT)
    story.wait_for(PhaseKind.SOAK)
    assert story.wait_for(Call.SOAK_DONE) == pytest.approx(180, abs=0.5)
    assert story.wait_for(Call.SOAKED_TOO_LONG) == pytest.approx(120, abs=0.5)


def test_cold_air_ends_at_its_temperature(begin: Begin) -> None:
    story = begin().say(Word.ON).say(Word.ON).say(Word.NEXT)
    story.wait_for(Call.SOAK_DONE)
    story.say(Word.NEXT)
    assert story.phase is PhaseKind.AIR
    story.wait_for(Call.COLD_ENOUGH)
    middle = story.sitting.warm.middle
    assert middle[-1] < 480 + ICE <= middle[-2]


def test_set_times_are_kept_to_half_a_second(begin: Begin) -> None:
    story = begin().say(Word.ON).say(Word.ON).say(Word.ON).say(Word.NEXT).say(Word.OUT).say(Word.NEXT)
    assert story.phase is PhaseKind.QUENCH
    assert story.wait_for(Call.TIME_UP) == pytest.approx(10, abs=0.5)


def test_a_set_time_does_not_make_cold_steel_ready(begin: Begin) -> None:
    story = begin(ProbeOn.WORK).say(Word.ON).say(Word.ON).say(Word.NEXT).say(Word.NEXT)
    assert story.phase is PhaseKind.SOAK
    story.feel(700.0, seconds=240)
    assert Call.SOAK_DONE not in story.calls
    story.feel(895.0, seconds=10)
    assert Call.SOAK_DONE in story.calls


def test_a_pause_stops_the_clock_and_hushes_the_calls(begin: Begin) -> None:
    story = begin()
    for _ in range(4):
        story.say(Word.ON)
    story.say(Word.NEXT)
    assert story.phase is OVEN
    story.wait(7000).say(Word.PAUSE).wait(3600)
    assert Call.TIME_UP not in story.calls
    story.say(Word.RESUME).wait(199)
    assert Call.TIME_UP not in story.calls
    story.wait(2)
    assert story.calls == [Call.TIME_UP]


def test_without_a_probe_grace_answers_for_the_smith(steps_alone: Alone) -> None:
    sitting = Sitting(steps_alone(2), None, Hands(HandsFree.ALL, grace=20.0))
    sitting.open()
    sitting.take(Said(1.0, Word.NEXT))
    sitting.take(Tick(3 * 3600.0))
    assert [place[1:] for place in places(sitting)] == [
        (1, READY),
        (1, FIRE),
        (1, SOAK),
        (1, AIR),
        (2, FIRE),
        (2, SOAK),
        (2, AIR),
    ]
    done = next(call for call in sitting.state.calls if call.call is Call.SOAK_DONE)
    air = next(begun for begun in sitting.state.begins if begun.phase is AIR)
    assert air.at == done.at + 20.0
    assert air.cause is Cause.CLOCK


def without_a_probe(steps_alone: Alone, grace: float, phase: PhaseKind) -> Sitting:
    """Normalizing by the clock alone, as far as a phase."""
    sitting = Sitting(steps_alone(2), None, Hands(HandsFree.ALL, grace=grace))
    sitting.open()
    sitting.take(Said(1.0, Word.NEXT))
    while sitting.state.phase is not phase:
        sitting.take(Tick(sitting.now + 1.0))
    return sitting


def test_what_the_grace_began_is_taken_back_for_good(steps_alone: Alone) -> None:
    sitting = without_a_probe(steps_alone, 20.0, AIR)
    at = sitting.now
    sitting.take(Said(at, Word.UNDO))
    assert sitting.state.phase is SOAK
    sitting.take(Tick(at + 600.0))
    assert sitting.state.phase is SOAK, "the smith's word wins"
    sitting.take(Said(at + 600.0, Word.NEXT))
    assert sitting.state.phase is AIR
    sitting.take(Tick(at + 600.0 + 3600.0))
    assert sitting.state.heat == 2, "in the phase after it the clock answers again"


def test_no_grace_runs_while_the_program_does_not(steps_alone: Alone) -> None:
    """A soak ends while the program is dead: nobody heard that it did."""
    sitting = without_a_probe(steps_alone, 5.0, SOAK)
    back = sitting.now + 900.0
    sitting.take(WentOn(back))
    assert Call.SOAK_DONE in sitting.state.alarms
    assert sitting.state.phase is SOAK
    sitting.take(Tick(back + 4.5))
    assert sitting.state.phase is SOAK
    sitting.take(Tick(back + 5.5))
    assert sitting.state.phase is AIR


def test_late_for_the_quench_by_the_clock_and_by_the_steel(steps_alone: Alone) -> None:
    late = {}
    for carried in (1.0, 60.0):
        sitting = Sitting(steps_alone(3))
        sitting.open()
        sitting.take(Said(1.0, Word.NEXT))
        sitting.take(Tick(900.0))
        sitting.take(Said(900.0, Word.OUT))
        sitting.take(Said(900.0 + carried, Word.NEXT))
        assert sitting.state.phase is PhaseKind.QUENCH
        late[carried] = Call.QUENCH_LATE in {call.call for call in sitting.state.calls}
    assert late == {1.0: False, 60.0: True}


def test_waiting_too_long_for_the_temper_is_called(steps_alone: Alone) -> None:
    two = steps_alone(3, 4)
    sitting = Sitting(two)
    sitting.open()
    for at in (1.0, 2.0, 3.0, 4.0):
        sitting.take(Said(at, Word.NEXT))
    assert sitting.state.phase is READY
    sitting.take(Tick(3600.0))
    assert sitting.state.calls == [call for call in sitting.state.calls if call.call is not Call.TEMPER_LATE]
    sitting.take(Tick(3 * 3600.0))
    assert sitting.state.calls[-1].call is Call.TEMPER_LATE


@pytest.fixture
def soaking(plan: Plan) -> Facts:
    """The first weld heat, a minute into its soak: skin at heat, middle 50 K behind."""
    return Facts(
        at=200.0,
        step=plan.steps[0],
        target=plan.steps[0].targets[0],
        phase=Phase(SOAK),
        since=140.0,
        elapsed=60.0,
        skin=1250 + ICE,
        basis=Basis.MODELLED,
        middle=1200 + ICE,
        hands=Hands(HandsFree.ALL, grace=20.0),
        soak_by_word_only=False,
        end_by_word_only=False,
        left_fire_at=None,
        called=frozenset(),
        soak_done_at=None,
        prompted_at=None,
        restarted_at=0.0,
        quenched_at=None,
        begun_by=Cause.TEMPERATURE,
        paused=False,
        is_lost=False,
        looked=False,
        fluxed=False,
        behind=0.0,
        skin_at_first=None,
        fire=None,
    )


def test_a_soak_is_done_when_the_middle_is_within_what_the_step_calls_even(soaking: Facts) -> None:
    within = soaking.step.even_within
    assert calls_due(replace(soaking, middle=1250 + ICE - within - 0.1)) == []
    done = replace(soaking, middle=1250 + ICE - within)
    assert calls_due(done) == [Call.SOAK_DONE]
    assert calls_due(replace(done, called=frozenset({Call.SOAK_DONE}), soak_done_at=200.0)) == []
    assert calls_due(replace(done, middle=None)) == []
    assert calls_due(replace(done, left_fire_at=199.0)) == [], "on its way to the quench it soaks no longer"


@pytest.mark.parametrize(("soaked", "over"), [(40.0, 120.0), (300.0, 300.0)])
def test_a_soak_is_too_long_by_two_minutes_or_by_as_long_as_it_took(soaking: Facts, soaked: float, over: float) -> None:
    done_at = soaking.since + soaked
    done = replace(soaking, called=frozenset({Call.SOAK_DONE}), soak_done_at=done_at)
    assert calls_due(replace(done, at=done_at + over - 0.5)) == []
    assert calls_due(replace(done, at=done_at + over)) == [Call.SOAKED_TOO_LONG]


def test_the_soak_begins_by_itself_at_heat_unless_the_smith_keeps_it_to_himself(soaking: Facts) -> None:
    in_the_fire = replace(soaking, phase=Phase(FIRE))
    assert soaks_by_itself(in_the_fire)
    assert calls_due(in_the_fire) == [Call.AT_HEAT]
    for waits in (
        replace(in_the_fire, skin=1250 + ICE - 0.1),
        replace(in_the_fire, skin=None),
        replace(in_the_fire, target=None),
        replace(in_the_fire, soak_by_word_only=True),
        replace(in_the_fire, hands=Hands(HandsFree.NEVER)),
    ):
        assert not soaks_by_itself(waits)


def test_no_soak_begins_by_itself_in_a_step_that_has_none(soaking: Facts) -> None:
    straight_out = replace(soaking.step, phases=(Phase(FIRE), Phase(PhaseKind.STRIKE)))
    in_the_fire = replace(soaking, phase=Phase(FIRE), step=straight_out)
    assert not soaks_by_itself(in_the_fire)
    assert calls_due(in_the_fire) == [Call.AT_HEAT]


def test_grace_runs_from_the_call_or_from_when_it_could_be_heard(soaking: Facts) -> None:
    called = replace(soaking, prompted_at=180.0)
    assert grace_is_over(called)
    assert not grace_is_over(replace(called, at=199.5))
    for waits in (
        replace(called, prompted_at=None),
        replace(called, restarted_at=181.0),
        replace(called, end_by_word_only=True),
        replace(called, basis=Basis.MEASURED),
        replace(called, hands=Hands(HandsFree.THERMAL, grace=20.0)),
        replace(called, hands=Hands(HandsFree.ALL)),
    ):
        assert not grace_is_over(waits)


def test_a_probe_knows_the_skin_only_and_the_model_waits_for_the_middle(soaking: Facts) -> None:
    cooling = replace(soaking, phase=Phase(AIR, until=480 + ICE), skin=470 + ICE, middle=490 + ICE)
    assert calls_due(cooling) == []
    assert calls_due(replace(cooling, basis=Basis.MEASURED)) == [Call.COLD_ENOUGH]
    assert calls_due(replace(cooling, middle=479 + ICE)) == [Call.COLD_ENOUGH]
    assert calls_due(replace(cooling, skin=None, middle=None)) == []


@pytest.mark.parametrize(("peak", "missed"), [(884.0, True), (886.0, False), (944.0, False), (946.0, True)])
def test_a_heat_missed_its_peak_beyond_what_the_step_calls_even(
    soaking: Facts, plan: Plan, peak: float, missed: bool
) -> None:
    """Heated to 900 degC in a fire of 930 degC, even within 15 K."""
    normalizing = replace(soaking, step=plan.steps[2], target=plan.steps[2].targets[0])
    expected = [Closing(Call.PEAK_MISSED, peak + ICE, Basis.MEASURED)] if missed else []
    assert calls_at_the_end(normalizing, AIR, (peak + ICE, Basis.MEASURED), None) == expected


def test_late_for_the_quench_is_longer_than_the_plan_allows_or_colder_than_the_steel_does(
    soaking: Facts, plan: Plan
) -> None:
    """The plan allows 3 s from the fire."""
    hardening = replace(
        soaking, step=plan.steps[3], target=plan.steps[3].targets[0], skin=800 + ICE, left_fire_at=197.0
    )
    late = [Closing(Call.QUENCH_LATE, 800 + ICE, Basis.MODELLED)]
    assert calls_at_the_end(hardening, PhaseKind.QUENCH, None, 730 + ICE) == []
    assert calls_at_the_end(replace(hardening, at=200.5), PhaseKind.QUENCH, None, None) == late
    assert calls_at_the_end(hardening, PhaseKind.QUENCH, None, 801 + ICE) == late
