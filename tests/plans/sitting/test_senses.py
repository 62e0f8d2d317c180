"""The probe's filter, its patience, and limits that do not chatter."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from math import exp
from typing import Any

import pytest

from plans.reading import ProbeOn
from plans.sitting.calls import Call
from plans.sitting.events import Basis
from plans.sitting.senses import HYSTERESIS, SILENCE, SMOOTHING, LimitWatch, Passed, Patience, Probe

Begin = Callable[..., Any]
ICE = 273.15


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


@pytest.mark.parametrize("spike", [300.0, 1700.0])
@pytest.mark.parametrize("place", [0, 1, 2])
def test_smoothing_carries_nothing_on_of_a_spike_at_the_beginning(spike: float, place: int) -> None:
    probe = Probe()
    for index in range(8):
        believed = probe.hear(float(index), spike if index == place else 900.0)
        # Three of 900 are there with the fourth reading.
        assert believed == (index >= 3)
        assert (probe.kelvin, probe.smooth) == ((900.0, 900.0) if believed else (None, None))


def test_what_was_before_a_silence_bears_nothing_out() -> None:
    probe = Probe()
    for index in range(8):
        probe.hear(float(index), 900.0)
    for at, believed in ((20.0, None), (21.0, None), (22.0, 500.0)):
        probe.hear(at, 500.0)
        assert (probe.kelvin, probe.smooth) == (believed, believed)


@pytest.mark.parametrize("above", [False, True])
def test_however_far_past_its_limit_one_temperature_crosses_nothing(above: bool) -> None:
    far = 1700.0 if above else 300.0
    watch = LimitWatch(1000.0, above)
    assert [watch.see(0.1 * index, far) for index in range(3)] == [None, None, Passed.CROSSED]
    watch = LimitWatch(1000.0, above)
    course = [1000.0, far, 1000.0, far, far, 1000.0]
    assert [watch.see(0.1 * index, kelvin) for index, kelvin in enumerate(course)] == [None] * len(course)


def test_a_skin_that_falls_far_below_its_limit_is_waited_for_no_longer_than_noise_needs() -> None:
    taken = []
    for below in (1.0, 8.0, 30.0):
        watch = LimitWatch(1000.0)
        taken.append(next(at for at in range(30) if watch.see(at / 10, 1000.0 - below)))
    assert all(before > after for before, after in pairwise(taken))
    assert taken[-1] == 2


def test_the_median_of_five_lets_no_two_small_spikes_through() -> None:
    """Of 90 K, which the steel could have come to in a second: only the median has an answer to them."""
    probe = Probe()
    for at, kelvin in enumerate([900.0, 902.0, 904.0, 990.0, 810.0]):
        assert probe.hear(float(at), kelvin) == (at >= 2)
    # In order 810, 900, 902, 904, 990.
    assert probe.kelvin == 902.0
    assert probe.hear(5.0, 906.0)
    # The oldest, 900, is out: 810, 902, 904, 906, 990.
    assert probe.kelvin == 904.0


@pytest.mark.parametrize(("hertz", "count"), [(10, 11), (4, 5), (2, 5), (1, 5), (0.5, 3), (0.1, 3)])
def test_the_median_is_of_a_second_or_of_five_readings_or_of_three_of_a_slow_probe(hertz: float, count: int) -> None:
    """A ramp of 1 K a reading: its median is half of the readings behind, and one over the first and the last."""
    probe = Probe()
    for index in range(30):
        probe.hear(index / hertz, 900.0 + index)
    assert probe.kelvin == pytest.approx(900.0 + 29 - (count - 1) / 2)


@pytest.mark.parametrize("hertz", [1.0, 4.0, 10.0])
@pytest.mark.parametrize("wrong", [295.0, 1643.0])
@pytest.mark.parametrize("seconds", [0.2, 0.7, 1.5])
def test_a_loose_contact_changes_nothing(wrong: float, hertz: float, seconds: float) -> None:
    probe = Probe()
    probe.fastest = 30.0
    for index in range(int(20 * hertz)):
        loose = 10.0 <= index / hertz < 10.0 + seconds
        probe.hear(index / hertz, wrong if loose else 1500.0)
        assert probe.kelvin in (None, 1500.0)
    assert probe.kelvin == 1500.0


def test_what_steel_can_not_do_is_believed_when_it_stands() -> None:
    """A probe that is set on hot work anew, and warms with a time constant of 1.5 s."""
    probe = Probe()
    probe.fastest = 30.0
    last = 0.0
    for index in range(200):
        at = index / 4
        true = 300.0 if at < 20 else 1200.0 - 900.0 * exp(-(at - 20) / 1.5)
        if probe.hear(at, true):
            assert probe.kelvin is not None
            if at > 30:
                assert probe.kelvin == pytest.approx(1200.0, abs=5)
            last = at
        elif at > 20:
            assert at < 25, "and the probe was never lost"
        assert at < 2 or not probe.is_silent(at)
    assert last == 199 / 4


@pytest.mark.parametrize("count", [1, 2])
def test_two_spikes_after_a_silence_are_not_believed(count: int) -> None:
    """One or two of 1500 degC are the first that a probe says again."""
    probe = Probe()
    for at in range(10):
        probe.hear(float(at), 1300.0)
    for index in range(8):
        probe.hear(20.0 + index, 1773.0 if index < count else 1300.0)
        assert probe.kelvin in (None, 1300.0)
    assert probe.kelvin == 1300.0


def test_nonsense_alone_is_a_silence() -> None:
    probe = Probe()
    probe.fastest = 30.0
    for index in range(40):
        probe.hear(index / 4, 1300.0)
    for index in range(40, 80):
        probe.hear(index / 4, 300.0 + 150.0 * (index % 4))
        assert (probe.kelvin is None) == probe.is_silent(index / 4)
    assert probe.is_silent(20.0)


def test_a_step_is_smoothed_by_its_time_constant() -> None:
    """What is left of a step after t is exp(-t / time constant); the median has taken it in with the third of five."""
    probe = Probe()
    for at in range(5):
        probe.hear(float(at), 1000.0)
    for at in (5, 6, 7):
        probe.hear(float(at), 1100.0)
    assert (probe.kelvin, probe.smooth) == (1100.0, pytest.approx(1100.0 - 100.0 * exp(-1.0 / SMOOTHING)))
    probe.hear(9.0, 1100.0)
    assert probe.smooth == pytest.approx(1100.0 - 100.0 * exp(-3.0 / SMOOTHING))


def test_a_quick_probe_may_be_silent_for_five_seconds_and_a_slow_one_for_three_of_its_intervals() -> None:
    quick, slow = Patience(), Patience()
    for index in range(100):
        quick.hear(0.25 * index)
        slow.hear(4.0 * index)
    assert quick.seconds == SILENCE == 5.0
    assert slow.seconds == pytest.approx(12.0, abs=0.1)
    last = 0.25 * 99
    assert (quick.is_over(last + 4.9), quick.is_over(last + 5.1)) == (False, True)
    assert (quick.hear(last + 4.9), quick.hear(last + 4.9 + 5.1)) == (False, True)


@pytest.mark.parametrize("interval", [0.25, 2.0, 10.0, 15.0])
def test_a_logger_that_is_slow_from_the_beginning_is_not_lost(interval: float) -> None:
    probe = Probe()
    for index in range(40):
        assert not probe.is_silent(interval * index)
        probe.hear(interval * index, 300.0)
    last = interval * 39
    assert probe.kelvin == 300.0
    assert probe.patience == pytest.approx(max(SILENCE, 3 * interval), rel=0.01)
    assert (probe.is_silent(last + probe.patience - 0.1), probe.is_silent(last + probe.patience + 0.1)) == (False, True)


def test_what_never_makes_sense_is_lost_though_it_speaks() -> None:
    probe = Probe()
    for index in range(40):
        probe.hear(index / 4, 300.0 + 150.0 * (index % 4))
    assert probe.kelvin is None
    assert probe.is_silent(10.0)


def test_a_lost_probe_has_no_temperature() -> None:
    probe = Probe()
    for at in range(5):
        probe.hear(float(at), 1000.0)
    probe.lose()
    assert (probe.kelvin, probe.smooth) == (None, None)
    probe.expect(60.0)
    assert (probe.is_silent(64.0), probe.is_silent(66.0)) == (False, True)


@pytest.mark.parametrize("above", [False, True])
def test_a_limit_that_was_passed_eases_only_beyond_the_hysteresis(above: bool) -> None:
    towards = 1.0 if above else -1.0
    watch = LimitWatch(1000.0, above, passed=True)
    just_back, safely_back = 1000.0 - towards * (HYSTERESIS - 1), 1000.0 - towards * (HYSTERESIS + 1)
    assert [watch.see(float(at), just_back) for at in range(10)] == [None] * 10
    assert [watch.see(10.0 + at, safely_back) for at in range(3)] == [None, None, Passed.EASED]
    assert [watch.see(20.0 + at, just_back) for at in range(10)] == [None] * 10, "and it is not passed again by that"


def test_passed_by_a_hair_a_limit_counts_after_two_seconds_and_a_moment_back_begins_anew() -> None:
    watch = LimitWatch(1000.0)
    course = [(0.0, 999.99), (1.9, 999.99), (1.95, 1000.01), (2.1, 999.99), (4.0, 999.99)]
    assert [watch.see(*seen) for seen in course] == [None] * 5
    assert watch.see(4.2, 999.99) is Passed.CROSSED


def test_a_modelled_temperature_needs_no_hold() -> None:
    assert LimitWatch(1000.0).see(0.0, 999.9, hold=0.0) is Passed.CROSSED
