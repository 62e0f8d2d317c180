from __future__ import annotations

import tracemalloc
from math import inf, nan

import pytest
from hypothesis import given, strategies as st

from plans.reading import Reading
from plans.trace import Trace, as_logged

times = st.floats(0, 1e6)
readings = st.builds(
    Reading, times, st.none() | st.floats(0, 3000), st.none() | st.sampled_from(["lost", "open circuit"])
)


def test_readings_come_back_as_they_were_put_in() -> None:
    put = [Reading(0.1, 1423.15), Reading(0.2, None, "lost"), Reading(0.3, 9000.0, "out of range"), Reading(0.4, None)]
    trace = Trace()
    for reading in put:
        trace.append(reading.at, reading.kelvin, reading.fault)
    assert len(trace) == 4
    assert list(trace) == put
    assert trace[-1] == put[-1]
    assert trace[1].fault == "lost"


def test_eight_hours_at_ten_hertz_take_less_than_ten_megabytes() -> None:
    tracemalloc.start()
    try:
        trace = Trace()
        for index in range(288_000):
            trace.append(index / 10, 1400.0 + index % 97)
        size, _ = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert len(trace) == 288_000
    assert size < 10e6


@given(st.lists(readings), times, times, st.booleans())
def test_a_part_holds_what_falls_into_it(put: list[Reading], start: float, end: float, in_order: bool) -> None:
    if in_order:
        put.sort(key=lambda reading: reading.at)
    part = Trace(put).between(start, end)
    assert list(part) == [reading for reading in put if start <= reading.at < end]


def test_a_part_takes_new_readings_without_touching_the_whole() -> None:
    whole = Trace([Reading(1, None, "lost"), Reading(2, 300.0)])
    part = whole.between(0, 2)
    part.append(3, None, "open circuit")
    assert [reading.fault for reading in part] == ["lost", "open circuit"]
    assert [reading.fault for reading in whole] == ["lost", None]


@given(readings)
def test_what_is_logged_is_within_half_a_tenth_and_half_a_millisecond(reading: Reading) -> None:
    logged = as_logged(reading)
    assert abs(logged.at - reading.at) <= 0.0005 + 1e-9
    assert (logged.kelvin is None) == (reading.kelvin is None)
    if logged.kelvin is not None and reading.kelvin is not None:
        assert abs(logged.kelvin - reading.kelvin) <= 0.05 + 1e-9
    assert as_logged(logged) == logged


@pytest.mark.parametrize("kelvin", [nan, inf, -inf, 1e300])
def test_a_temperature_that_is_none_becomes_a_fault(kelvin: float) -> None:
    assert as_logged(Reading(1.0, kelvin)) == Reading(1.0, None, "out of range")


@pytest.mark.parametrize("at", [nan, inf, -inf])
def test_a_time_that_is_none_is_refused(at: float) -> None:
    with pytest.raises(ValueError, match="finite time"):
        as_logged(Reading(at, 300.0))


def test_a_trace_keeps_more_kinds_of_fault_than_a_byte_tells_apart() -> None:
    readings = [Reading(float(number), None, f"fault {number % 300}") for number in range(900)]
    trace = Trace(readings)
    assert list(trace) == readings
    assert list(trace.between(100.0, 400.0)) == readings[100:400]
