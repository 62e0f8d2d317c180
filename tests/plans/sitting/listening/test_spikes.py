"""One wrong reading is nobody's word, least of all the first after a silence."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reading import ProbeOn
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Word
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
