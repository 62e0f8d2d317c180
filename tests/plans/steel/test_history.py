"""A temperature history: gaps are left out and told, and cutting it changes nothing."""

from __future__ import annotations

from math import exp, inf, nan

import pytest
from hypothesis import given, strategies as st

from plans.reading import Reading
from plans.steel.history import BRIDGED, gap_note, hold, integral, stretches
from plans.trace import Trace


def one(kelvin: float) -> float:  # noqa: ARG001
    return 1.0


def itself(kelvin: float) -> float:
    return kelvin


def test_a_hold_is_its_time_at_its_temperature() -> None:
    along = integral(itself, hold(1400.0, 60.0))
    assert (along.value, along.missing, along.hottest) == (84000.0, 0.0, 1400.0)


def test_the_temperature_runs_straight_between_readings() -> None:
    along = integral(itself, [(0, 300), (10, 400), (30, 200)])
    assert along.value == pytest.approx(350 * 10 + 300 * 20)
    assert along.hottest == 400


def test_a_steep_rate_is_followed_along_a_slope() -> None:
    # exp(kT) has a closed integral along a straight line; 2 % a kelvin is as steep as diffusion gets at red heat.
    slope, first, last, seconds = 0.02, 1000.0, 1500.0, 100.0
    exact = seconds * (exp(slope * last) - exp(slope * first)) / (slope * (last - first))
    along = integral(lambda kelvin: exp(slope * kelvin), [(0, first), (seconds, last)])
    assert along.value == pytest.approx(exact, rel=1e-3)


def test_a_trace_with_a_lost_probe() -> None:
    trace = Trace(
        [
            Reading(0, 1000.0),
            Reading(5, 1000.0),
            Reading(6, None, "lost"),
            Reading(100, None, "lost"),
            Reading(105, 1000.0),
            Reading(110, 1000.0),
        ]
    )
    along = integral(one, trace)
    assert (along.value, along.missing) == (10.0, 100.0)
    assert "100 s" in gap_note(along.missing)
    assert not gap_note(0.0)


def test_a_reading_missed_now_and_then_is_no_gap() -> None:
    assert integral(one, [(0, 1000), (5, None), (BRIDGED, 1000)]).missing == 0
    assert integral(one, [(0, 1000), (5, None), (BRIDGED + 1, 1000)]).missing == BRIDGED + 1


@pytest.mark.parametrize("bad", [None, nan, inf])
def test_what_is_no_temperature_is_not_believed(bad: float | None) -> None:
    assert integral(itself, [(0, 500), (1, bad), (2, 500)]).value == 1000


def test_a_temperature_with_a_fault_is_not_believed() -> None:
    assert integral(itself, [Reading(0, 500.0), Reading(1, 3000.0, "out of range"), Reading(2, 500.0)]).hottest == 500


def test_a_reading_that_goes_back_in_time_is_left_out() -> None:
    along = integral(itself, [(0, 500), (10, 500), (4, 900), (12, 500)])
    assert (along.value, along.hottest) == (6000, 500)


def test_two_readings_of_one_time_are_a_jump() -> None:
    along = integral(itself, [(0, 500), (10, 500), (10, 900), (20, 900)])
    assert (along.value, along.missing) == (14000, 0)


def test_nothing_known_comes_to_nothing() -> None:
    for history in ([], [(0, 500)], [(0, None), (10, None)]):
        assert integral(one, history).value == 0


temperatures = st.floats(300, 1600)
histories = st.lists(st.tuples(st.floats(0.1, 100), temperatures), min_size=2, max_size=8).map(
    lambda steps: [(sum(step for step, _ in steps[:i]), kelvin) for i, (_, kelvin) in enumerate(steps)]
)


@given(histories, st.floats(0, 1))
def test_a_reading_more_on_the_way_changes_nothing(history: list[tuple[float, float]], share: float) -> None:
    stretch = next(stretches(history))
    at = stretch.start + share * (stretch.end - stretch.start)
    between = (at, stretch.first + share * (stretch.last - stretch.first))
    finer = sorted([*history, between], key=lambda entry: entry[0])
    assert integral(itself, finer).value == pytest.approx(integral(itself, history).value, rel=1e-9)


@given(histories, st.lists(st.floats(-10, 800), max_size=5).map(sorted))
def test_cutting_a_span_loses_nothing(history: list[tuple[float, float]], times: list[float]) -> None:
    for stretch in stretches(history):
        parts = list(stretch.cut(times))
        assert sum(part.end - part.start for part in parts) == pytest.approx(stretch.end - stretch.start)
        assert (parts[0].start, parts[0].first, parts[-1].end, parts[-1].last) == (
            stretch.start,
            stretch.first,
            stretch.end,
            stretch.last,
        )
        assert len(parts) == 1 + len({at for at in times if stretch.start < at < stretch.end})
