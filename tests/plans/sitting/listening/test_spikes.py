"""One wrong reading is nobody's word, least of all the first after a silence."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reading import ProbeOn
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Word
from plans.sitting.senses import LimitWatch, Passed, Probe
from plans.sitting.turning import TurningPoints

Begin = Callable[..., Any]
ICE = 273.15
SILENCES = ["silent", "unplugged"]


def normalize(begin: Begin, plan: Plan) -> Any:
    """Six millimetres of steel for 900 degC, a probe on it."""
    return begin(ProbeOn.WORK, replace(plan, steps=(plan.steps[2],)))


def silence(story: Any, how: str) -> None:
    if how == "unplugged":
        story.feel(None, fault="lost: unplugged")
    else:
        story.wait(10)


def back_with(story: Any, spike: float, place: int, true: float) -> None:
    """The probe is back with one wrong reading, whose place is counted from 0."""
    for index in range(30):
        story.feel(spike if index == place else true, every=1.0, seconds=1.0)


@pytest.mark.parametrize("place", [0, 1, 2])
@pytest.mark.parametrize("how", SILENCES)
def test_a_hot_spike_after_a_silence_begins_no_soak(begin: Begin, plan: Plan, how: str, place: int) -> None:
    story = normalize(begin, plan).say(Word.NEXT).feel(600.0, every=1.0, seconds=60)
    silence(story, how)
    back_with(story, 1400.0, place, 600.0)
    assert story.phase is PhaseKind.FIRE
    assert story.calls == [Call.PROBE_LOST, Call.PROBE_BACK]
    assert story.sitting.peak[0] < 750 + ICE
    assert story.sitting.skin == (pytest.approx(600.0 + ICE), Basis.MEASURED)


@pytest.mark.parametrize("place", [0, 1, 2])
def test_a_hot_spike_at_the_very_beginning_begins_no_soak(begin: Begin, plan: Plan, place: int) -> None:
    story = normalize(begin, plan).say(Word.NEXT)
    back_with(story, 1400.0, place, 600.0)
    assert story.phase is PhaseKind.FIRE
    assert story.calls == []
    assert story.sitting.peak[0] < 750 + ICE


@pytest.mark.parametrize("place", [0, 1, 2])
@pytest.mark.parametrize("how", SILENCES)
def test_a_cold_spike_after_a_silence_is_not_cold_enough(begin: Begin, plan: Plan, how: str, place: int) -> None:
    story = normalize(begin, plan).say(Word.NEXT).feel(905.0, every=1.0, seconds=60)
    story.say(Word.OUT).feel(820.0, every=1.0, seconds=10)
    assert story.phase is PhaseKind.AIR
    silence(story, how)
    back_with(story, 300.0, place, 820.0)
    assert Call.PROBE_BACK in story.calls
    assert Call.COLD_ENOUGH not in story.calls


def test_the_third_reading_brings_a_probe_back(begin: Begin, plan: Plan) -> None:
    story = normalize(begin, plan).say(Word.NEXT).feel(600.0, seconds=10).wait(10)
    for basis in (Basis.MODELLED, Basis.MODELLED, Basis.MEASURED):
        story.feel(600.0)
        assert story.sitting.skin[1] is basis
    assert story.sitting.state.calls[-1].at == story.at


@pytest.mark.parametrize("spike", [300.0, 1700.0])
@pytest.mark.parametrize("place", [0, 1, 2])
def test_smoothing_carries_nothing_on_of_a_spike_at_the_beginning(spike: float, place: int) -> None:
    probe = Probe()
    for index in range(8):
        probe.hear(float(index), spike if index == place else 900.0)
        assert (probe.kelvin, probe.smooth) == ((None, None) if index < 2 else (900.0, 900.0))


def test_what_was_before_a_silence_bears_nothing_out() -> None:
    probe = Probe()
    for index in range(8):
        probe.hear(float(index), 900.0)
    for at, believed in ((20.0, None), (21.0, None), (22.0, 500.0)):
        probe.hear(at, 500.0)
        assert (probe.kelvin, probe.smooth) == (believed, believed)


@pytest.mark.parametrize("spike", [300.0, 1700.0])
@pytest.mark.parametrize("before", [[], [900.0] * 10])
def test_a_spike_at_the_beginning_or_after_a_silence_is_no_turn(before: list[float], spike: float) -> None:
    turns = TurningPoints()
    readings = [*enumerate(before), (60, spike), *((at, 900.0) for at in range(61, 90))]
    assert [turns.hear(float(at), kelvin) for at, kelvin in readings] == [None] * len(readings)


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
