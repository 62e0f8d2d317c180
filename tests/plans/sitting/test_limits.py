"""The skin held against the limits that call: too cold while it is struck, too hot in the fire."""

from __future__ import annotations

import random
from collections.abc import Callable
from typing import Any

import pytest

from plans.reading import ProbeOn
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Word
from plans.warmth.course import Part
from plans.warmth.forecast import hammer_time
from plans.warmth.model import WarmModel
from plans.warmth.natural_convection import of_a_section
from plans.warmth.surroundings import ROOM, still_air, striking

Begin = Callable[..., Any]
ICE = 273.15


def strike(begin: Begin, probe_on: ProbeOn | None = None) -> Any:
    """Up to the first blow of the first heat; the cold limit is 1150 degC."""
    return begin(probe_on).say(Word.NEXT).say(Word.NEXT).say(Word.NEXT)


def test_without_a_probe_too_cold_comes_when_the_hammer_time_is_over(begin: Begin, plan: Any) -> None:
    story = begin().say(Word.NEXT)
    story.wait_for(Call.SOAK_DONE)
    story.say(Word.NEXT)
    model = WarmModel(plan.steps[0].section, start=story.sitting.warm.middle[-1])
    # The alarm comes when the struck face is too cold; its corners were so before, and the figure said it.
    air = still_air(convection=of_a_section(plan.steps[0].section, ROOM))
    expected = hammer_time(model, striking(around=air), 1150 + ICE, Part.FACE)
    assert story.wait_for(Call.TOO_COLD) == pytest.approx(expected, abs=1.5)


def test_a_call_is_made_once_a_phase(begin: Begin) -> None:
    story = strike(begin).wait(300)
    assert story.calls.count(Call.TOO_COLD) == 1


def test_a_measured_skin_below_the_limit_is_called_within_four_seconds(begin: Begin) -> None:
    """Falling by 8 K a second, as 25 mm of steel does at welding heat."""
    story = strike(begin, ProbeOn.WORK).feel(1200.0, seconds=20)
    assert story.calls == []
    celsius, passed = 1200.0, None
    while celsius > 1080.0:
        celsius -= 2.0
        story.feel(celsius)
        if passed is None and celsius < 1150.0:
            passed = story.at
    call = story.sitting.state.calls[0]
    assert (call.call, call.basis) == (Call.TOO_COLD, Basis.MEASURED)
    assert 2.0 <= call.at - passed <= 4.0


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(2))
def test_a_noisy_probe_hovering_above_the_limit_does_not_chatter(begin: Begin, seed: int) -> None:
    """Noise of 2 K, half a percent of spikes, two percent missing, 3 K above the limit, an hour at 4 Hz."""
    chance = random.Random(seed)
    story = strike(begin, ProbeOn.WORK)
    for _ in range(4 * 3600):
        if chance.random() < 0.02:
            story.wait(0.25)
            continue
        spike = chance.choice([-200.0, 200.0]) if chance.random() < 0.005 else 0.0
        story.feel(1153.0 + chance.gauss(0, 2) + spike)
    assert story.calls.count(Call.TOO_COLD) == 0


@pytest.mark.parametrize("seed", range(3))
def test_a_noisy_probe_at_the_very_limit_is_called_once_not_many_times(begin: Begin, seed: int) -> None:
    chance = random.Random(seed)
    story = strike(begin, ProbeOn.WORK)
    for _ in range(4 * 600):
        story.feel(1149.0 + chance.gauss(0, 2))
    assert story.calls == [Call.TOO_COLD]


def test_a_single_spike_is_not_called(begin: Begin) -> None:
    story = strike(begin, ProbeOn.WORK).feel(1200.0, seconds=10).feel(300.0, seconds=0.5).feel(1200.0, seconds=10)
    assert story.calls == []


def test_warm_again_eases_the_call_and_cold_again_makes_another(begin: Begin) -> None:
    story = strike(begin, ProbeOn.WORK).feel(1140.0, seconds=10)
    assert Call.TOO_COLD in story.sitting.state.alarms
    story.feel(1160.0, seconds=10)
    assert Call.TOO_COLD in story.sitting.state.alarms, "within the hysteresis"
    story.feel(1170.0, seconds=10)
    assert Call.TOO_COLD not in story.sitting.state.alarms
    story.feel(1140.0, seconds=10)
    assert story.calls == [Call.TOO_COLD, Call.TOO_COLD]


def test_too_hot_in_the_fire(begin: Begin) -> None:
    story = begin(ProbeOn.WORK).say(Word.NEXT).feel(1310.0, seconds=20)
    assert Call.TOO_HOT not in story.calls
    story.feel(1330.0, seconds=8)
    assert Call.TOO_HOT in story.calls


def test_a_hotter_fire_than_planned_is_felt_by_a_probe_in_it(begin: Begin) -> None:
    story = begin(ProbeOn.FIRE).say(Word.NEXT)
    story.feel(1400.0, every=1.0, seconds=600)
    assert Call.TOO_HOT in story.calls
    assert story.sitting.state.calls[-1].basis is Basis.MODELLED


def test_undo_under_an_alarm_lets_it_ease_all_the_same(begin: Begin) -> None:
    story = strike(begin, ProbeOn.WORK).feel(1140.0, seconds=10)
    assert Call.TOO_COLD in story.sitting.state.alarms
    story.say(Word.NEXT).feel(1200.0, seconds=10).say(Word.UNDO)
    assert Call.TOO_COLD in story.sitting.state.alarms
    story.feel(1200.0, seconds=10)
    assert Call.TOO_COLD not in story.sitting.state.alarms
