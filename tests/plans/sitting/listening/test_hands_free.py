"""What may end a phase by itself, and what only the smith may."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reading import ProbeOn, Reading
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Begun, Cause, Said, Word
from plans.sitting.hands import Hands, HandsFree

Shop = Callable[..., Any]
Alone = Callable[..., Plan]
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


FIRE, SOAK, STRIKE, AIR, READY = PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.STRIKE, PhaseKind.AIR, PhaseKind.READY


def test_three_weld_heats_without_a_word(steps_alone: Alone, shop: Shop) -> None:
    work = shop(14.0)
    work.go(20.0, 20.0)
    for _ in range(2):
        work.put_in(1290.0, 1252.0)
        work.take_out(1120.0, chill=1.2)
    work.put_in(1290.0, 1252.0)
    sitting = Sitting(steps_alone(0), ProbeOn.WORK, ALL)
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


def test_normalizing_runs_start_to_end_with_no_word(steps_alone: Alone, shop: Shop) -> None:
    work = shop(6.0)
    work.go(10.0, 20.0)
    for fire, heat_to in ((930.0, 902.0), (875.0, 847.0)):
        work.put_in(fire, heat_to, soak=185.0)
        work.take_out(470.0)
    sitting = Sitting(steps_alone(2), ProbeOn.WORK, ALL)
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


def test_a_cycle_that_stayed_too_cold_is_called(steps_alone: Alone, shop: Shop) -> None:
    work = shop(6.0)
    work.go(10.0, 20.0)
    work.put_in(870.0, 850.0, soak=60.0)
    work.take_out(700.0)
    sitting = Sitting(steps_alone(2), ProbeOn.WORK, ALL)
    play(sitting, work.rows)
    assert Call.PEAK_MISSED in {call.call for call in sitting.state.calls}


def test_the_last_word_about_the_work_outweighs_what_was_before_it(steps_alone: Alone, shop: Shop) -> None:
    """Out and back within seconds, and taken back: the fall that shows later belongs to the word that was undone."""
    work = shop(6.0)
    work.go(10.0, 20.0)
    work.put_in(1290.0, 1252.0)
    out = work.at
    work.go(4.0, 20.0)
    back = work.at
    work.go(60.0, 1290.0)
    sitting = Sitting(steps_alone(0), ProbeOn.WORK, ALL)
    play(sitting, work.rows, {out + 1.0: Word.OUT, back + 0.5: Word.UNDO})
    assert sitting.state.phase in (FIRE, SOAK)


def test_what_began_by_itself_can_be_taken_back_and_does_not_come_again(steps_alone: Alone, shop: Shop) -> None:
    work = shop(14.0)
    work.go(10.0, 20.0)
    work.put_in(1290.0, 1252.0)
    work.take_out(1180.0)
    sitting = Sitting(steps_alone(0), ProbeOn.WORK, ALL)
    play(sitting, work.rows)
    assert sitting.state.phase is STRIKE
    at = work.rows[-1][0]
    sitting.take(Said(at, Word.UNDO))
    assert sitting.state.phase is SOAK
    for index in range(40):
        sitting.take(Reading(at + index / 4, 1170 + 273.15))
    assert sitting.state.phase is SOAK


@pytest.mark.parametrize("hands", [Hands(HandsFree.THERMAL), Hands(HandsFree.NEVER)])
def test_less_than_all_waits_for_the_smith(steps_alone: Alone, shop: Shop, hands: Hands) -> None:
    work = shop(14.0)
    work.go(10.0, 20.0)
    work.put_in(1290.0, 1252.0)
    work.take_out(1120.0)
    sitting = Sitting(steps_alone(0), ProbeOn.WORK, hands)
    play(sitting, work.rows, {10.0: Word.NEXT})
    expected = [(0, 1, READY), (0, 1, FIRE), (0, 1, SOAK)]
    assert places(sitting) == (expected if hands.free is HandsFree.THERMAL else expected[:2])
    if hands.free is HandsFree.NEVER:
        assert Call.AT_HEAT in {call.call for call in sitting.state.calls}


def test_a_probe_in_the_fire_only_guesses(steps_alone: Alone, shop: Shop) -> None:
    fire = shop(50.0)
    fire.celsius = 1290.0
    fire.go(60.0, 1290.0)
    fire.take_out(1200.0, chill=6.0)
    fire.go(30.0, 1290.0)
    sitting = Sitting(steps_alone(0), ProbeOn.FIRE, ALL)
    play(sitting, fire.rows, {5.0: Word.NEXT})
    assert sitting.state.phase in (FIRE, SOAK)
    fell = [call for call in sitting.state.calls if call.call is Call.FIRE_FELL]
    assert len(fell) == 1
    assert fell[0].happened == pytest.approx(fire.outs[0], abs=5)
