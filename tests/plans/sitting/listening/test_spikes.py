"""One wrong reading is nobody's word, least of all the first after a silence."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import exp
from typing import Any

import pytest

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reading import ProbeOn
from plans.shapes import Section
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Word
from plans.sitting.hands import Hands, HandsFree
from tests.plans.sitting.listening.ears import turns_in

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


@pytest.mark.parametrize("spike", [300.0, 1700.0])
@pytest.mark.parametrize("before", [[], [900.0] * 10])
def test_a_spike_at_the_beginning_or_after_a_silence_is_no_turn(before: list[float], spike: float) -> None:
    readings = [*enumerate(before), (60, spike), *((at, 900.0) for at in range(61, 90))]
    assert turns_in(readings) == []


@pytest.mark.parametrize("how", SILENCES)
def test_two_hot_spikes_after_a_silence_are_neither_a_peak_nor_out(begin: Begin, plan: Plan, how: str) -> None:
    """Of 1500 degC on work at 900, and both of them the first that the probe says again: then nothing has fallen."""
    story = normalize(begin, plan).say(Word.NEXT)
    story.sitting.hands = Hands(HandsFree.ALL)
    story.feel(905.0, every=1.0, seconds=60)
    silence(story, how)
    story.feel(1500.0, every=1.0, seconds=2.0).feel(905.0, every=1.0, seconds=30)
    assert story.phase is PhaseKind.SOAK
    assert story.sitting.peak[0] < 930 + ICE, "no more than the fire has"


@pytest.mark.parametrize("down", [30.0, 37.0, 60.0, 300.0])
@pytest.mark.parametrize("hertz", [1.0, 4.0, 10.0])
def test_a_contact_that_is_loose_by_little_is_no_turn(hertz: float, down: float) -> None:
    """For a second and a half the probe says too little, by less than the steel could have lost or by more."""
    section, fastest = Section(0.040, 0.012), 20.0
    for sign in (-1.0, 1.0):
        rows = []
        for index in range(int(60 * hertz)):
            at = index / hertz
            loose = 30.0 <= at < 31.45
            rows.append((at, 1500.0 + (sign * down if loose else 0.0)))
        assert turns_in(rows, section, fastest) == []


def test_a_burner_that_is_turned_down_is_not_out_and_work_that_comes_out_is() -> None:
    """The work loses 60 K with a time constant of 30 s; in the air, 12 mm at 1250 degC lose some 6 K in a second."""
    section = Section(0.040, 0.012)
    down = [(at / 4, 1523.0 - (60.0 * (1 - exp(-(at / 4 - 30.0) / 30.0)) if at > 120 else 0.0)) for at in range(800)]
    out = [(at / 4, 1523.0 - (6.0 * (at / 4 - 30.0) if at > 120 else 0.0)) for at in range(200)]
    assert turns_in(down, section, 20.0) == []
    ((told, turn),) = turns_in(out, section, 20.0)
    assert not turn.rose
    assert told < 37
    assert turn.at == pytest.approx(30.0, abs=3)


def test_work_that_warms_in_a_kiln_at_twelve_kelvin_a_minute_is_heard_going_in() -> None:
    ((told, turn),) = turns_in((float(at), 293.0 + max(0, at - 60) * 0.2) for at in range(900))
    assert turn.rose
    assert turn.at == pytest.approx(60, abs=60)
    assert told < 60 + 360
