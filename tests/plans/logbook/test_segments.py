from __future__ import annotations

import json
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings, strategies as st

from plans.logbook.disk.whole_files import UNREADABLE, to_json
from plans.logbook.trace_segments import decode, encode
from plans.reading import Reading
from plans.trace import Trace, as_logged

kinds = st.sampled_from([(True, None), (False, "lost"), (False, None), (True, "jump")])


@st.composite
def traces(draw: st.DrawFn) -> Trace:
    """Runs of readings of one kind and spacing, with jitter, gaps, and now and then a clock that falls back."""
    random = Random(draw(st.integers(0, 2**32)))
    trace = Trace()
    at = draw(st.floats(0, 1000))
    for _ in range(draw(st.integers(0, 5))):
        has_kelvin, fault = draw(kinds)
        every = draw(st.sampled_from([0.0, 0.1, 0.25, 1.0, 7.3]))
        jitter = draw(st.sampled_from([0.0, 0.002, 0.5]))
        for _ in range(draw(st.integers(1, 40))):
            at = max(0.0, at + every + jitter * random.uniform(-1, 1))
            trace.append(at, random.uniform(-100, 3000) if has_kelvin else None, fault)
        at = max(0.0, at + draw(st.sampled_from([0.0, 60.0, 3600.0, -5.0])))
    return trace


@given(traces())
@settings(deadline=None)
def test_a_trace_comes_back_to_the_tenth_of_a_degree_and_the_millisecond(trace: Trace) -> None:
    kept = json.loads(to_json(encode(trace)))
    back = decode(kept)
    assert list(back) == [as_logged(reading) for reading in trace]
    assert encode(back) == kept


def forge(count: int, hertz: float, jitter: float = 0.0) -> Trace:
    """A noisy curve of a work that goes in and out of the fire."""
    random = Random(1)
    trace = Trace()
    for index in range(count):
        swing = abs((index / hertz) % 240 - 120) * 3
        trace.append(index / hertz + random.uniform(0, jitter), 1150 + swing + random.gauss(0, 2))
    return trace


def test_eight_hours_at_ten_hertz_stay_small() -> None:
    segments = encode(forge(288_000, 10))
    assert len(segments) == 1
    assert len(to_json(segments)) < 4 * 288_000


def test_uneven_arrival_does_not_break_a_segment() -> None:
    segments = encode(forge(10_000, 4, jitter=0.02))
    assert len(segments) == 1
    assert len(segments[0]["late_milliseconds"]) == 9_999


def test_an_even_spacing_is_said_once() -> None:
    (segment,) = encode(Trace(Reading(5 + index / 4, 1273.15) for index in range(100)))
    assert segment == {"from_seconds": 5.0, "every_seconds": 0.25, "celsius_tenths": [10000] + [0] * 99}


def test_a_gap_begins_a_new_segment() -> None:
    trace = Trace(Reading(at, 1000.0) for at in [*range(100), *range(200, 300)])
    assert [(segment["from_seconds"], len(segment["celsius_tenths"])) for segment in encode(trace)] == [
        (0, 100),
        (200, 100),
    ]


def test_a_changed_spacing_begins_a_new_segment() -> None:
    slow = [Reading(index, 1000.0) for index in range(100)]
    fast = [Reading(100 + index / 10, 1000.0) for index in range(1000)]
    segments = encode(Trace(slow + fast))
    assert len(segments) <= 2 + 16  # short ones where the look ahead takes in both
    assert segments[-1]["every_seconds"] == 0.1
    assert len(segments[-1]["celsius_tenths"]) >= 1000 - 16


def test_missing_readings_keep_their_times_and_their_fault() -> None:
    lost = Trace(Reading(index / 2, None, "lost") for index in range(4))
    assert encode(lost) == [{"from_seconds": 0.0, "every_seconds": 0.5, "fault": "lost", "count": 4}]


@pytest.mark.parametrize("kelvin", [1273.15, None])
def test_a_recording_whose_rows_have_one_time_is_kept(kelvin: float | None) -> None:
    burst = Trace(Reading(0.0, kelvin) for _ in range(25_000))
    assert decode(json.loads(to_json(encode(burst)))) == burst


@pytest.mark.parametrize(
    "segment",
    [
        {},
        [],
        7,
        {"from_seconds": 0, "every_seconds": 1},
        {"from_seconds": "0", "every_seconds": 1, "count": 2},
        {"from_seconds": 0, "every_seconds": 1, "count": 0},
        {"from_seconds": 0, "every_seconds": 1, "count": "3"},
        {"from_seconds": 0, "every_seconds": 1, "count": 10**15},
        {"from_seconds": 0, "every_seconds": 1, "count": 2, "fault": 3},
        {"from_seconds": 0, "every_seconds": float("inf"), "count": 2},
        {"from_seconds": 0, "every_seconds": 1, "celsius_tenths": []},
        {"from_seconds": 0, "every_seconds": 1, "celsius_tenths": [1, "2"]},
        {"from_seconds": 0, "every_seconds": 1, "celsius_tenths": [1, 2, 3], "late_milliseconds": [1]},
        {"from_seconds": 0, "every_seconds": 1, "celsius_tenths": [10**400]},
        {"from_seconds": 0, "every_seconds": 1, "celsius_tenths": [10**8]},
        {"from_seconds": 0, "every_seconds": 1, "celsius_tenths": [1, True]},
        {"from_seconds": -1, "every_seconds": 1, "celsius_tenths": [1]},
        {"from_seconds": 2e9, "every_seconds": 1, "celsius_tenths": [1]},
        {"from_seconds": 9e8, "every_seconds": 1e8, "celsius_tenths": [1] * 9},
        {"from_seconds": 0, "every_seconds": 0, "count": 1_000_000},
    ],
)
def test_damaged_segments_are_refused(segment: Any) -> None:
    with pytest.raises(UNREADABLE):
        decode([segment])
