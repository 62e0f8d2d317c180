"""A probe that is lost, slow, or says what no steel can be."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from plans.reading import ProbeOn
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Word

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


@pytest.mark.parametrize("celsius", [-300.0, 5000.0, 1e5])
def test_what_no_steel_can_be_is_logged_and_not_believed(begin: Begin, celsius: float) -> None:
    story = begin(ProbeOn.WORK).say(Word.NEXT).feel(500.0, seconds=5).feel(celsius, seconds=3).feel(500.0, seconds=2)
    assert story.calls == []
    assert story.sitting.probe.kelvin == pytest.approx(500.0 + ICE)
