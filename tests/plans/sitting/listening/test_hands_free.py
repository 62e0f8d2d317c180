"""What may end a phase by itself, and what only the smith may."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from plans.plan import PhaseKind, Plan
from plans.reading import ProbeOn, Reading
from plans.sitting.engine import Sitting
from plans.sitting.events import Begun, Call, Cause, Said, Tick, WentOn, Word
from plans.sitting.hands import Hands, HandsFree
from plans.sitting.words import WordError

Shop = Callable[..., Any]
ALL = Hands(HandsFree.ALL)


def play(sitting: Sitting, rows: list[tuple[float, float | None]], words: dict[float, Word] | None = None) -> list[Any]:
    """Feed a trace in, words at their times."""
    waiting = sorted((words or {}).items())
    log = list(sitting.open())
    for at, celsius in rows:
        while waiting and waiting[0][0] <= at:
            log += sitting.take(Said(*waiting.pop(0)))
        kelvin = None if celsius is None else celsius + 273.15
        log += sitting.take(Reading(at, kelvin, None if kelvin else "missing"))
    return log


def places(sitting: Sitting) -> list[tuple[int, int, PhaseKind]]:
    return [(begun.step, begun.heat, begun.phase) for begun in sitting.state.begins]


def only(plan: Plan, step: int) -> Plan:
    return Plan(plan.name, plan.title, plan.about, plan.bars, (plan.steps[step],), plan.source)


FIRE, SOAK, STRIKE, AIR, READY = PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.STRIKE, PhaseKind.AIR, PhaseKind.READY


def test_three_weld_heats_without_a_word(plan: Plan, shop: Shop) -> None:
    work = shop(14.0)
    work.go(20.0, 20.0)
    for _ in range(2):
        work.put_in(1290.0, 1252.0)
        work.take_out(1120.0, chill=1.2)
    work.put_in(1290.0, 1252.0)
    sitting = Sitting(only(plan, 0), ProbeOn.WORK, ALL)
    log = play(sitting, work.rows)
    assert places(sitting) == [
        (0, 1, READY),
        (0, 1, FIRE),
        (0, 1, SOAK),
        (0, 1, STRIKE),
        (0, 2, FIRE),
        (0, 2, SOAK),
        (0, 2, STRIKE),
        (0, 3, FIRE),  # one more of the same step: no step is left without the smith
        (0, 3, SOAK),
    ]
    by_probe = [entry for entry in log if isinstance(entry, Begun) and entry.cause is Cause.PROBE]
    for begun, true in zip(by_probe, sorted(work.ins + work.outs), strict=True):
        assert begun.happened == pytest.approx(true, abs=5)
        assert begun.at > true


def test_normalizing_runs_start_to_end_with_no_word(plan: Plan, shop: Shop) -> None:
    work = shop(6.0)
    work.go(10.0, 20.0)
    for fire, heat_to in ((930.0, 902.0), (875.0, 847.0)):
        work.put_in(fire, heat_to, soak=185.0)
        work.take_out(470.0)
    sitting = Sitting(only(plan, 2), ProbeOn.WORK, ALL)
    play(sitting, work.rows)
    assert [place[1:] for place in places(sitting)] == [
        (1, READY),
        (1, FIRE),
        (1, SOAK),
        (1, AIR),
        (2, FIRE),
        (2, SOAK),
        (2, AIR),
    ]
    calls = [call.call for call in sitting.state.calls]
    assert calls == [Call.SOAK_DONE, Call.ARREST, Call.COLD_ENOUGH] * 2


def test_a_cycle_that_stayed_too_cold_is_called(plan: Plan, shop: Shop) -> None:
    work = shop(6.0)
    work.go(10.0, 20.0)
    work.put_in(870.0, 850.0, soak=60.0)
    work.take_out(700.0)
    sitting = Sitting(only(plan, 2), ProbeOn.WORK, ALL)
    play(sitting, work.rows)
    assert Call.PEAK_MISSED in {call.call for call in sitting.state.calls}


def test_the_last_word_about_the_work_outweighs_what_was_before_it(plan: Plan, shop: Shop) -> None:
    """Out and back within seconds, and taken back: the fall that shows later belongs to the word that was undone."""
    work = shop(6.0)
    work.go(10.0, 20.0)
    work.put_in(1290.0, 1252.0)
    out = work.at
    work.go(4.0, 20.0)
    back = work.at
    work.go(60.0, 1290.0)
    sitting = Sitting(only(plan, 0), ProbeOn.WORK, ALL)
    play(sitting, work.rows, {out + 1.0: Word.OUT, back + 0.5: Word.UNDO})
    assert sitting.state.phase in (FIRE, SOAK)


def test_what_began_by_itself_can_be_taken_back_and_does_not_come_again(plan: Plan, shop: Shop) -> None:
    work = shop(14.0)
    work.go(10.0, 20.0)
    work.put_in(1290.0, 1252.0)
    work.take_out(1180.0)
    sitting = Sitting(only(plan, 0), ProbeOn.WORK, ALL)
    play(sitting, work.rows)
    assert sitting.state.phase is STRIKE
    at = work.rows[-1][0]
    sitting.take(Said(at, Word.UNDO))
    assert sitting.state.phase is SOAK
    for index in range(40):
        sitting.take(Reading(at + index / 4, 1170 + 273.15))
    assert sitting.state.phase is SOAK


@pytest.mark.parametrize("hands", [Hands(HandsFree.THERMAL), Hands(HandsFree.NEVER)])
def test_less_than_all_waits_for_the_smith(plan: Plan, shop: Shop, hands: Hands) -> None:
    work = shop(14.0)
    work.go(10.0, 20.0)
    work.put_in(1290.0, 1252.0)
    work.take_out(1120.0)
    sitting = Sitting(only(plan, 0), ProbeOn.WORK, hands)
    play(sitting, work.rows, {10.0: Word.NEXT})
    expected = [(0, 1, READY), (0, 1, FIRE), (0, 1, SOAK)]
    assert places(sitting) == (expected if hands.free is HandsFree.THERMAL else expected[:2])
    if hands.free is HandsFree.NEVER:
        assert Call.AT_HEAT in {call.call for call in sitting.state.calls}


def test_a_probe_in_the_fire_only_guesses(plan: Plan, shop: Shop) -> None:
    fire = shop(50.0)
    fire.celsius = 1290.0
    fire.go(60.0, 1290.0)
    fire.take_out(1200.0, chill=6.0)
    fire.go(30.0, 1290.0)
    sitting = Sitting(only(plan, 0), ProbeOn.FIRE, ALL)
    play(sitting, fire.rows, {5.0: Word.NEXT})
    assert sitting.state.phase in (FIRE, SOAK)
    fell = [call for call in sitting.state.calls if call.call is Call.FIRE_FELL]
    assert len(fell) == 1
    assert fell[0].happened == pytest.approx(fire.outs[0], abs=5)


def test_without_a_probe_grace_answers_for_the_smith(plan: Plan) -> None:
    sitting = Sitting(only(plan, 2), None, Hands(HandsFree.ALL, grace=20.0))
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


def without_a_probe(plan: Plan, grace: float, phase: PhaseKind) -> Sitting:
    """Normalizing by the clock alone, as far as a phase."""
    sitting = Sitting(only(plan, 2), None, Hands(HandsFree.ALL, grace=grace))
    sitting.open()
    sitting.take(Said(1.0, Word.NEXT))
    while sitting.state.phase is not phase:
        sitting.take(Tick(sitting.now + 1.0))
    return sitting


def test_what_the_grace_began_is_taken_back_for_good(plan: Plan) -> None:
    sitting = without_a_probe(plan, 20.0, AIR)
    at = sitting.now
    sitting.take(Said(at, Word.UNDO))
    assert sitting.state.phase is SOAK
    sitting.take(Tick(at + 600.0))
    assert sitting.state.phase is SOAK, "the smith's word wins"
    sitting.take(Said(at + 600.0, Word.NEXT))
    assert sitting.state.phase is AIR
    sitting.take(Tick(at + 600.0 + 3600.0))
    assert sitting.state.heat == 2, "in the phase after it the clock answers again"


def test_no_grace_runs_while_the_program_does_not(plan: Plan) -> None:
    """A soak ends while the program is dead: nobody heard that it did."""
    sitting = without_a_probe(plan, 5.0, SOAK)
    back = sitting.now + 900.0
    sitting.take(WentOn(back))
    assert Call.SOAK_DONE in sitting.state.alarms
    assert sitting.state.phase is SOAK
    sitting.take(Tick(back + 4.5))
    assert sitting.state.phase is SOAK
    sitting.take(Tick(back + 5.5))
    assert sitting.state.phase is AIR


def test_late_for_the_quench_by_the_clock_and_by_the_steel(plan: Plan) -> None:
    late = {}
    for carried in (1.0, 60.0):
        sitting = Sitting(only(plan, 3))
        sitting.open()
        sitting.take(Said(1.0, Word.NEXT))
        sitting.take(Tick(900.0))
        sitting.take(Said(900.0, Word.OUT))
        sitting.take(Said(900.0 + carried, Word.NEXT))
        assert sitting.state.phase is PhaseKind.QUENCH
        late[carried] = Call.QUENCH_LATE in {call.call for call in sitting.state.calls}
    assert late == {1.0: False, 60.0: True}


def test_out_twice_is_refused_on_the_way_to_the_quench(plan: Plan) -> None:
    sitting = Sitting(only(plan, 3))
    sitting.open()
    sitting.take(Said(1.0, Word.NEXT))
    sitting.take(Said(2.0, Word.OUT))
    with pytest.raises(WordError):
        sitting.take(Said(3.0, Word.OUT))
    sitting.take(Said(4.0, Word.UNDO))
    assert sitting.state.left_fire_at is None


def test_waiting_too_long_for_the_temper_is_called(plan: Plan) -> None:
    two = Plan("t", "t", "", plan.bars, plan.steps[3:5], "")
    sitting = Sitting(two)
    sitting.open()
    for at in (1.0, 2.0, 3.0, 4.0):
        sitting.take(Said(at, Word.NEXT))
    assert sitting.state.phase is READY
    sitting.take(Tick(3600.0))
    assert sitting.state.calls == [call for call in sitting.state.calls if call.call is not Call.TEMPER_LATE]
    sitting.take(Tick(3 * 3600.0))
    assert sitting.state.calls[-1].call is Call.TEMPER_LATE
