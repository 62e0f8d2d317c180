"""What time brings, and when."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from plans.plan import PhaseKind, Plan
from plans.reading import ProbeOn
from plans.sitting.engine import Sitting
from plans.sitting.events import Call, Cause, Said, Tick, WentOn, Word
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
