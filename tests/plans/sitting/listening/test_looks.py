"""Out and back in is not always a heat: looks and flux, cycles that were none, and steps that hear no fire."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from plans.logbook.figures.heats import heat_figures
from plans.phase import PhaseKind
from plans.plan import Phase, Plan
from plans.reading import ProbeOn, Reading
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Begun, Called, Cause, Eased, Said, Word
from plans.sitting.glance import glance_at
from tests.plans.sitting.listening.test_hands_free import AIR, ALL, FIRE, READY, SOAK, STRIKE, Alone, Shop, places, play

BENCH = PhaseKind.BENCH


@pytest.fixture
def fluxed(shop: Shop) -> Any:
    """Taken out at 870 degC on the way up, for 10 s, and put back in."""
    work = shop(8.0)
    work.go(10.0, 20.0)
    work.put_in(1290.0, 870.0, soak=0.0)
    work.outs.append(work.at)
    work.go(10.0, 20.0)
    work.put_in(1290.0, 1252.0)
    return work


def test_flux_on_the_way_up_is_no_heat(steps_alone: Alone, fluxed: Any) -> None:
    fluxed.take_out(1120.0)
    sitting = Sitting(steps_alone(0), ProbeOn.WORK, ALL)
    log = play(sitting, fluxed.rows)
    assert [place[1:] for place in places(sitting)] == [(1, READY), (1, FIRE), (1, SOAK), (1, STRIKE)]
    assert [call.call for call in sitting.state.calls[:1]] == [Call.LOOKED]
    looked = sitting.state.calls[0]
    assert looked.happened == pytest.approx(fluxed.outs[0], abs=5)
    assert next(entry.call for entry in log if isinstance(entry, Eased)) is Call.LOOKED, "over when it is in again"
    assert all(call.at > fluxed.outs[1] for call in sitting.state.calls if call.call is Call.TOO_COLD)


def until(rows: list[tuple[float, float | None]], at: float) -> list[tuple[float, float | None]]:
    return [row for row in rows if row[0] <= at]


def test_while_it_is_looked_at_the_figure_is_how_long_it_is_out(steps_alone: Alone, shop: Shop) -> None:
    work = shop(14.0, 1.0)
    work.go(10.0, 20.0)
    work.put_in(1290.0, 870.0, soak=0.0)
    work.take_out(800.0)
    sitting, seen = Sitting(steps_alone(0), ProbeOn.WORK, ALL), []
    sitting.open()
    for at, celsius in work.rows:
        sitting.take(Reading(at, None if celsius is None else celsius + 273.15, "missing" if celsius is None else None))
        if sitting.state.out_for_a_look:
            seen.append(glance_at(sitting, at).figure)
    assert seen
    assert {figure.label for figure in seen} == {"out of the fire"}
    assert 0.0 < (seen[0].seconds or 0.0) < 10.0 < (seen[-1].seconds or 0.0)


def test_a_look_is_taken_back_by_undo_and_nothing_before_it_is(steps_alone: Alone, fluxed: Any) -> None:
    sitting = Sitting(steps_alone(0), ProbeOn.WORK, ALL)
    rows = until(fluxed.rows, fluxed.outs[0] + 9.5)
    play(sitting, rows)
    assert sitting.state.out_for_a_look
    assert sitting.exposure.in_the_air
    before = places(sitting)
    sitting.take(Said(rows[-1][0], Word.UNDO))
    assert not sitting.state.out_for_a_look
    assert not sitting.exposure.in_the_air
    assert places(sitting) == before


def test_the_word_out_makes_a_strike_of_a_look_from_when_it_came_out(steps_alone: Alone, fluxed: Any) -> None:
    sitting = Sitting(steps_alone(0), ProbeOn.WORK, ALL)
    rows = until(fluxed.rows, fluxed.outs[0] + 9.5)
    play(sitting, rows)
    events = sitting.take(Said(rows[-1][0], Word.OUT))
    begun = next(event for event in events if isinstance(event, Begun))
    assert (begun.phase, begun.cause) == (STRIKE, Cause.WORD)
    assert begun.began == pytest.approx(fluxed.outs[0], abs=5)
    assert not sitting.state.out_for_a_look


def test_out_nearly_at_heat_is_a_heat(steps_alone: Alone, shop: Shop) -> None:
    """A smith who takes it out 15 K short of what the plan says means it."""
    work = shop(14.0)
    work.go(10.0, 20.0)
    work.put_in(1290.0, 1235.0, soak=0.0)
    work.take_out(1120.0)
    sitting = Sitting(steps_alone(0), ProbeOn.WORK, ALL)
    play(sitting, work.rows)
    assert sitting.state.phase is STRIKE
    assert Call.LOOKED not in {call.call for call in sitting.state.calls}


def test_a_cycle_that_was_looked_at_goes_on(steps_alone: Alone, shop: Shop) -> None:
    """Out for 6 s in the soak, back in at 860 degC: the cycle that then cools to black is still the first."""
    work = shop(6.0)
    work.go(10.0, 20.0)
    work.put_in(930.0, 902.0, soak=60.0)
    work.go(7.0, 20.0)
    back = work.at
    work.put_in(930.0, 902.0, soak=185.0)
    work.take_out(470.0)
    work.put_in(875.0, 847.0, soak=10.0)
    sitting = Sitting(steps_alone(2), ProbeOn.WORK, ALL)
    log = play(sitting, work.rows)
    assert [place[1:] for place in places(sitting)] == [
        (1, READY),
        (1, FIRE),
        (1, SOAK),
        (1, AIR),
        (1, FIRE),
        (1, SOAK),
        (1, AIR),
        (2, FIRE),
        (2, SOAK),
    ]
    told = next(entry for entry in log if isinstance(entry, Called) and entry.call is Call.GOES_ON)
    assert (told.heat, told.happened) == (1, pytest.approx(back, abs=12)), (
        "in a fire that is hardly hotter it warms slowly"
    )
    assert [heat.heat for heat in heat_figures(sitting).steps[0].heats] == [1, 2]


def test_where_nothing_says_when_it_is_cold_black_will_do(steps_alone: Alone, shop: Shop) -> None:
    plan = steps_alone(2)
    step = plan.steps[0]
    phases = tuple(Phase(AIR) if phase.kind is AIR else phase for phase in step.phases)
    bare = replace(plan, steps=(replace(step, phases=phases),))
    for down_to, heat in ((800.0, 1), (500.0, 2)):
        work = shop(6.0)
        work.transforms = False
        work.go(10.0, 20.0)
        work.put_in(930.0, 902.0, soak=20.0)
        work.take_out(down_to)
        work.put_in(930.0, 890.0, soak=0.0)
        sitting = Sitting(bare, ProbeOn.WORK, ALL)
        play(sitting, work.rows)
        assert (sitting.state.heat, sitting.state.phase in (FIRE, SOAK)) == (heat, True)


def test_on_after_the_work_was_heard_going_in_leaves_no_heat_behind(steps_alone: Alone, shop: Shop) -> None:
    work = shop(14.0)
    work.go(10.0, 20.0)
    work.put_in(1290.0, 1252.0)
    work.take_out(1100.0)
    work.put_in(1290.0, 1130.0, soak=0.0)
    said = work.at
    work.go(20.0, 1290.0)
    sitting = Sitting(steps_alone(0, 1), ProbeOn.WORK, ALL)
    play(sitting, work.rows, {said: Word.ON})
    figures = heat_figures(sitting)
    assert [[heat.heat for heat in step.heats] for step in figures.steps] == [[1], [1]]
    assert figures.steps[1].heats[0].in_fire == pytest.approx(work.at - work.ins[1], abs=6), "it counts from going in"
    assert (sitting.state.step, sitting.state.heat) == (1, 1)
    sitting.take(Said(work.at, Word.UNDO))  # the soak may have begun by itself
    while sitting.state.step:
        sitting.take(Said(work.at, Word.UNDO))
    assert places(sitting)[-1] == (0, 2, FIRE), "undo brings back what was heard"


def test_on_into_a_step_that_begins_from_black_while_the_work_warms_is_in_the_fire(
    steps_alone: Alone, shop: Shop
) -> None:
    work = shop(12.0)
    work.go(10.0, 20.0)
    work.put_in(1200.0, 1152.0)
    work.take_out(850.0)
    work.put_in(930.0, 880.0, soak=0.0)
    sitting = Sitting(steps_alone(1, 2), ProbeOn.WORK, ALL)
    play(sitting, work.rows)
    assert places(sitting)[-1] == (0, 2, FIRE)
    sitting.take(Said(work.at, Word.ON))
    assert places(sitting)[-1] == (1, 1, FIRE)


def test_a_step_at_the_bench_says_once_what_it_waits_for(steps_alone: Alone, shop: Shop) -> None:
    work = shop(6.0)
    work.go(10.0, 20.0)
    for _ in range(3):
        work.put_in(930.0, 902.0, soak=20.0)
        work.take_out(470.0)
    sitting = Sitting(steps_alone(6, 2), ProbeOn.WORK, ALL)
    play(sitting, work.rows)
    assert places(sitting) == [(0, 1, BENCH)], "nothing leaves a step but a word"
    waits = [call for call in sitting.state.calls if call.call is Call.AWAITS_WORD]
    assert len(waits) == 1
    assert waits[0].happened == pytest.approx(work.ins[0], abs=5)


def test_a_look_on_the_way_to_the_quench_goes_back_to_the_fire(steps_alone: Callable[..., Plan], shop: Shop) -> None:
    work = shop(6.0)
    work.go(10.0, 20.0)
    work.put_in(840.0, 802.0, soak=20.0)
    work.go(7.0, 20.0)
    work.put_in(840.0, 802.0, soak=20.0)
    sitting = Sitting(steps_alone(3), ProbeOn.WORK, ALL)
    play(sitting, work.rows)
    assert sitting.state.left_fire_at is None
    assert (sitting.state.heat, sitting.state.phase in (FIRE, SOAK)) == (1, True)
