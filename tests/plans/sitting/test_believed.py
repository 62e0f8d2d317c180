"""Which reading is believed, from when until when, and why another is not."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from math import inf, isnan, nan
from typing import Any

import pytest
from hypothesis import given, strategies as st

from plans.plan import Plan
from plans.reading import ProbeOn, Reading
from plans.sitting.believed import Believed, tells_loss, why_no_temperature
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Basis, Entry, Tick, WentOn, Word
from plans.sitting.pace import fastest_change
from tests.plans.sitting.spells import SPELLS, play

Begin = Callable[..., Any]
ICE = 273.15
WORK, FIRE = ProbeOn.WORK, ProbeOn.FIRE


def at_a_second_each(kelvins: Iterable[float | None], begin: float = 0.0) -> list[Entry]:
    return [Reading(begin + index, kelvin, None if kelvin else "missing") for index, kelvin in enumerate(kelvins)]


def believed_kelvins(believed: Believed) -> list[float | None]:
    return [None if isnan(kelvin) else kelvin for kelvin in believed.kelvins]


def test_a_probe_that_says_it_is_lost_is_believed_at_once(begin: Begin) -> None:
    story = begin(ProbeOn.WORK).feel(100.0, seconds=5).feel(None, fault="lost: unplugged")
    assert story.calls == [Call.PROBE_LOST]


@pytest.mark.parametrize("celsius", [-300.0, 5000.0, 1e5])
def test_what_no_steel_can_be_is_logged_and_not_believed(begin: Begin, celsius: float) -> None:
    story = begin(ProbeOn.WORK).say(Word.NEXT).feel(500.0, seconds=5).feel(celsius, seconds=3).feel(500.0, seconds=2)
    assert story.calls == []
    assert story.sitting.probe.kelvin == pytest.approx(500.0 + ICE)


def test_the_third_reading_brings_a_probe_back(begin: Begin) -> None:
    story = begin(ProbeOn.WORK).say(Word.NEXT).feel(600.0, seconds=10).wait(10)
    for basis in (Basis.MODELLED, Basis.MODELLED, Basis.MEASURED):
        story.feel(600.0)
        assert story.sitting.skin[1] is basis
    assert story.sitting.state.calls[-1].at == story.at


@pytest.mark.parametrize(
    ("reading", "why"),
    [
        (Reading(0.0, 1000.0), None),
        (Reading(0.0, None), "missing"),
        (Reading(0.0, None, "open circuit"), "open circuit"),
        (Reading(0.0, 1000.0, "out of range"), "out of range"),
        (Reading(0.0, 199.9), "beyond any temperature of work or fire"),
        (Reading(0.0, 200.0), None),
        (Reading(0.0, 2300.0), None),
        (Reading(0.0, 2300.1), "beyond any temperature of work or fire"),
        (Reading(0.0, nan), "beyond any temperature of work or fire"),
        (Reading(0.0, inf), "beyond any temperature of work or fire"),
    ],
)
def test_what_a_reading_by_itself_can_be(reading: Reading, why: str | None) -> None:
    assert why_no_temperature(reading) == why


@pytest.mark.parametrize(("fault", "gone"), [(None, False), ("lost: unplugged", True), ("open circuit", False)])
def test_which_reading_says_that_the_probe_is_gone(fault: str | None, gone: bool) -> None:
    assert tells_loss(Reading(0.0, None, fault)) is gone


def test_a_reading_is_believed_as_the_median_from_the_third_on() -> None:
    believed = Believed.of(at_a_second_each([1000.0, 1010.0, 1005.0, 1020.0, None, 1030.0]), WORK)
    # Medians of 1000 1005 1010; of 1000 1005 1010 1020 (between the middle two); of 1000 1005 1010 1020 1030.
    assert believed_kelvins(believed) == [None, None, 1005.0, 1007.5, None, 1010.0]


def test_what_steel_can_not_have_come_to_is_not_believed_and_what_was_before_it_stands() -> None:
    believed = Believed.of(at_a_second_each([1000.0, 1000.0, 1000.0, 1500.0, 1000.0]), WORK)
    assert believed_kelvins(believed) == [None, None, 1000.0, None, 1000.0]
    assert list(believed.standing(0.0, 5.0, WORK)) == [(2.0, 4.0, 1000.0), (4.0, 5.0, 1000.0)]


def test_what_is_believed_stands_until_the_next_one_or_until_the_probe_counts_as_lost() -> None:
    """A reading a second: silence is five seconds long."""
    believed = Believed.of(at_a_second_each([1000.0] * 5), WORK)
    assert list(believed.standing(0.0, 60.0, WORK)) == [(2.0, 3.0, 1000.0), (3.0, 4.0, 1000.0), (4.0, 9.0, 1000.0)]
    assert list(believed.standing(3.5, 6.0, WORK)) == [(3.5, 4.0, 1000.0), (4.0, 6.0, 1000.0)]
    assert list(believed.standing(0.0, 60.0, FIRE)) == [], "it sits on the work"


def test_a_probe_that_says_it_is_gone_ends_what_it_said_and_bears_nothing_out_afterwards() -> None:
    log = [*at_a_second_each([1000.0] * 4), Reading(3.5, None, "lost: unplugged"), *at_a_second_each([900.0] * 3, 4.0)]
    believed = Believed.of(log, WORK)
    assert believed_kelvins(believed) == [None, None, 1000.0, 1000.0, None, None, None, 900.0]
    assert list(believed.standing(0.0, 6.5, WORK)) == [(2.0, 3.0, 1000.0), (3.0, 3.5, 1000.0), (6.0, 6.5, 900.0)]
    assert believed.pieces(0.0, 60.0) == [[(2.0, 1000.0), (3.0, 1000.0)], [(6.0, 900.0)]]


def test_a_silence_parts_what_is_believed() -> None:
    believed = Believed.of([*at_a_second_each([1000.0] * 4), *at_a_second_each([900.0] * 4, 20.0)], WORK)
    assert believed.pieces(0.0, 60.0) == [[(2.0, 1000.0), (3.0, 1000.0)], [(22.0, 900.0), (23.0, 900.0)]]
    assert believed.pieces(3.0, 23.0) == [[(3.0, 1000.0)], [(22.0, 900.0)]]
    assert list(believed.unbroken(0.0, 60.0)) == [2, 3], "up to the loss"
    assert list(believed.unbroken(10.0, 60.0)) == [], "the probe was lost for too long after that"


def test_without_a_probe_nothing_is_believed() -> None:
    believed = Believed.of(at_a_second_each([1000.0] * 5), None)
    assert believed_kelvins(believed) == [None] * 5
    assert len(believed.measured) == 5


def test_a_probe_that_was_moved_in_a_break_is_believed_where_it_sits_now() -> None:
    log = [*at_a_second_each([1000.0] * 4), WentOn(100.0, FIRE), *at_a_second_each([1500.0] * 4, 101.0)]
    believed = Believed.of(log, WORK)
    assert list(believed.standing(0.0, 104.5, WORK)) == [(2.0, 3.0, 1000.0), (3.0, 8.0, 1000.0)]
    assert list(believed.standing(0.0, 104.5, FIRE)) == [(103.0, 104.0, 1500.0), (104.0, 104.5, 1500.0)]


@given(stream=st.lists(SPELLS, max_size=20))
def test_the_log_alone_tells_what_was_believed(plan: Plan, stream: list[Any]) -> None:
    sitting = Sitting(plan, WORK)
    log: list[Entry] = []
    ends = [0.0, *play(sitting, stream, log, [])]
    again = Sitting(plan, WORK)
    again.replay(log)
    again.take(Tick(ends[-1]))
    alone = Believed.of(log, WORK, fastest_change(plan))
    for other in (again.believed, alone):
        assert other.measured == sitting.measured
        assert other.kelvins.tobytes() == sitting.believed.kelvins.tobytes()
        stood = list(sitting.believed.standing(0.0, ends[-1], WORK))
        assert list(other.standing(0.0, ends[-1], WORK))[:-1] == stood[:-1]
