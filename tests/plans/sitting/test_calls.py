"""What is called out, and when."""

from __future__ import annotations

import random
from collections.abc import Callable
from typing import Any

import pytest

from plans.plan import PhaseKind
from plans.reading import ProbeOn
from plans.sitting.events import Basis, Call, Word
from plans.warmth.forecast import hammer_time, skin_time
from plans.warmth.model import WarmModel
from plans.warmth.surroundings import fire, striking

Begin = Callable[..., Any]
ICE = 273.15


def strike(begin: Begin, probe_on: ProbeOn | None = None) -> Any:
    """Up to the first blow of the first heat; the cold limit is 1150 degC."""
    return begin(probe_on).say(Word.NEXT).say(Word.NEXT).say(Word.NEXT)


def test_without_a_probe_fire_and_soak_end_when_the_model_says(begin: Begin, plan: Any) -> None:
    story = begin().say(Word.NEXT)
    took = story.wait_for(PhaseKind.SOAK)
    step = plan.steps[0]
    expected = skin_time(WarmModel(step.section), fire(1290 + ICE), 1250 + ICE)
    assert took == pytest.approx(expected, rel=0.02)
    story.wait_for(Call.SOAK_DONE)
    assert story.sitting.warm.middle[-1] >= 1250 + ICE - step.even_within
    assert story.sitting.state.calls[-1].basis is Basis.MODELLED


def test_without_a_probe_too_cold_comes_when_the_hammer_time_is_over(begin: Begin, plan: Any) -> None:
    story = begin().say(Word.NEXT)
    story.wait_for(Call.SOAK_DONE)
    story.say(Word.NEXT)
    model = WarmModel(plan.steps[0].section, start=story.sitting.warm.middle[-1])
    expected = hammer_time(model, striking(plan.steps[0].section), 1150 + ICE)
    assert story.wait_for(Call.TOO_COLD) == pytest.approx(expected, abs=1.5)


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


@pytest.mark.parametrize("seed", range(5))
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


def test_a_silent_probe_is_lost_and_the_third_reading_brings_it_back(begin: Begin) -> None:
    story = begin(ProbeOn.WORK).feel(100.0, seconds=20)
    assert story.wait_for(Call.PROBE_LOST) == pytest.approx(5.0, abs=0.6)
    story.wait(60)
    assert story.calls == [Call.PROBE_LOST]
    assert story.sitting.skin[1] is Basis.MODELLED
    story.feel(100.0, seconds=0.5)
    assert story.calls == [Call.PROBE_LOST]
    assert story.sitting.skin[1] is Basis.MODELLED
    story.feel(100.0)
    assert story.calls == [Call.PROBE_LOST, Call.PROBE_BACK]
    assert story.sitting.skin == (pytest.approx(100.0 + ICE), Basis.MEASURED)


def test_a_probe_that_says_it_is_lost_is_believed_at_once(begin: Begin) -> None:
    story = begin(ProbeOn.WORK).feel(100.0, seconds=5).feel(None, fault="lost: unplugged")
    assert story.calls == [Call.PROBE_LOST]


def test_a_slow_logger_is_not_taken_for_a_lost_one(begin: Begin) -> None:
    story = begin(ProbeOn.WORK)
    story.feel(100.0, every=4.0, seconds=120)
    for _ in range(10):
        story.feel(100.0, every=8.0, seconds=8.0)
    assert all(call.at < 30 for call in story.sitting.state.calls)


def test_a_logger_that_speaks_every_ten_seconds_is_soon_known_for_that(begin: Begin) -> None:
    story = begin(ProbeOn.WORK)
    for _ in range(60):
        story.feel(100.0, every=10.0, seconds=10.0)
    # The second reading shows how slow it is, and two more bear that one out.
    assert all(call.at <= 40 for call in story.sitting.state.calls)
    assert Call.PROBE_LOST not in story.sitting.state.alarms


def test_a_quick_probe_that_was_away_is_soon_missed_again(begin: Begin) -> None:
    story = begin(ProbeOn.WORK).feel(100.0, seconds=10).wait(30).feel(100.0, seconds=10)
    assert story.calls == [Call.PROBE_LOST, Call.PROBE_BACK]
    began = story.at
    story.wait(12)
    assert story.calls[2:] == [Call.PROBE_LOST]
    assert story.sitting.state.calls[-1].at - began < 9


def test_with_a_probe_on_the_work_the_middle_follows_it(begin: Begin) -> None:
    story = begin(ProbeOn.WORK).say(Word.NEXT)
    story.feel(1250.0, seconds=1)
    assert story.sitting.warm.middle[-1] < 600 + ICE, "the middle can't have caught up in a second"
    story.feel(1250.0, seconds=240)
    assert story.sitting.warm.middle[-1] == pytest.approx(1250 + ICE, abs=5)


@pytest.mark.parametrize("celsius", [-300.0, 5000.0, 1e5])
def test_what_no_steel_can_be_is_logged_and_not_believed(begin: Begin, celsius: float) -> None:
    story = begin(ProbeOn.WORK).say(Word.NEXT).feel(500.0, seconds=5).feel(celsius, seconds=3).feel(500.0, seconds=2)
    assert story.calls == []
    assert story.sitting.probe.kelvin == pytest.approx(500.0 + ICE)


def test_the_smiths_eye_brings_the_skin_up_but_not_the_middle(begin: Begin) -> None:
    """Said at once, with cold work: the soak must not be done in the same breath."""
    story = begin().say(Word.NEXT).wait(20).say(Word.NEXT)
    assert story.phase is PhaseKind.SOAK
    story.wait(0.5)
    assert story.sitting.warm.skin[-1] == pytest.approx(1250 + ICE, abs=10)
    assert story.calls == []


def test_undo_under_an_alarm_lets_it_ease_all_the_same(begin: Begin) -> None:
    story = strike(begin, ProbeOn.WORK).feel(1140.0, seconds=10)
    assert Call.TOO_COLD in story.sitting.state.alarms
    story.say(Word.NEXT).feel(1200.0, seconds=10).say(Word.UNDO)
    assert Call.TOO_COLD in story.sitting.state.alarms
    story.feel(1200.0, seconds=10)
    assert Call.TOO_COLD not in story.sitting.state.alarms


def test_a_set_time_does_not_make_cold_steel_ready(begin: Begin) -> None:
    story = begin(ProbeOn.WORK).say(Word.ON).say(Word.ON).say(Word.NEXT).say(Word.NEXT)
    assert story.phase is PhaseKind.SOAK
    story.feel(700.0, seconds=240)
    assert Call.SOAK_DONE not in story.calls
    story.feel(895.0, seconds=10)
    assert Call.SOAK_DONE in story.calls
