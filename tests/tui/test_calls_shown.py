"""Every call has its words, its shape, its place on a curve and its sound, whichever come to be added."""

from __future__ import annotations

import pytest

from plans.sitting.advice import ADVICE
from plans.sitting.events import Call
from plans.sitting.glance import URGENCY
from tui.running.bell import pattern
from tui.widgets.curves import FLAGS
from tui.widgets.marks import ALARMS, Mark


@pytest.mark.parametrize("call", Call)
def test_a_call_is_a_word_a_shape_and_a_sound(call: Call) -> None:
    assert ADVICE[call]
    assert len(FLAGS[call]) == 1
    assert isinstance(Mark(call.value), Mark)
    rings = pattern(call)
    assert rings[0] == 0.0
    assert list(rings) == sorted(set(rings))


@pytest.mark.parametrize("call", URGENCY)
def test_an_alarm_has_the_marks_of_one(call: Call) -> None:
    assert Mark(call.value) in ALARMS


def test_no_two_calls_sound_alike() -> None:
    assert len({pattern(call) for call in Call}) == len(Call)
