"""A trace as it stands in a sitting's file: segments of integers, each the difference from the one before.

    {"from_seconds": 61.25, "every_seconds": 0.25, "celsius_tenths": [11502, 3, -1, ...]}

`late_milliseconds` is there where the spacing is not even: by how much each reading but the first came later than
`every_seconds` after the one before it. A segment holds one kind of reading. Readings without a temperature have
`count` in place of `celsius_tenths`, and those with a fault have `fault`. A new segment begins after a gap, where the
spacing changes, and where the kind of reading does.
"""

from __future__ import annotations

from array import array
from itertools import accumulate, pairwise, repeat
from math import isnan, nan
from typing import Any

from plans.record_values import HOTTEST, LATEST, MOST_OF_ALL, count_of, list_of, records_of, seconds_of, text_of
from plans.trace import Trace, from_tenths, to_tenths

_LOOK = 16
"""Readings between two looks at the spacing, and how many a look takes in."""
_GAP = 3
"""An interval of more than this many usual ones is a gap."""
_MOST_COUNTED = 10_000
"""So many readings without a temperature are written in a segment at most, and read without a look at their times."""
_MOST_A_SECOND = 2000
"""No probe says so much on and on; a damaged count must not eat the memory."""


def encode(trace: Trace) -> list[dict[str, Any]]:
    """The trace to the millisecond and the tenth of a degree, ready for JSON."""
    times = array("q", (round(at * 1000) for at in trace.times))
    segments = []
    start = 0
    while start < len(times):
        every = _spacing(times, start)
        end = _end(trace, times, start, every)
        segments.append(_segment(trace, times, start, end, every))
        start = end
    return segments


def _spacing(times: array[int], start: int) -> int:
    """The usual interval from here on [ms]: a median, since readings come in bursts and with gaps between."""
    window = times[start : start + _LOOK]
    intervals = sorted(b - a for a, b in pairwise(window) if b > a)
    return intervals[len(intervals) // 2] if intervals else 0


def _end(trace: Trace, times: array[int], start: int, every: int) -> int:
    """Where the segment that begins at `start` ends."""
    bare, fault = isnan(trace.kelvins[start]), trace.fault_at(start)
    longest = _GAP * every
    for index in range(start + 1, len(times)):
        if not 0 <= times[index] - times[index - 1] <= longest:
            return index
        if isnan(trace.kelvins[index]) != bare or trace.fault_at(index) != fault:
            return index
        if bare and index - start == _MOST_COUNTED:
            return index
        if (index - start) % _LOOK == 0:
            now = _spacing(times, index)
            if now and not every <= 1.5 * now <= 2.25 * every:
                return index
    return len(times)


def _segment(trace: Trace, times: array[int], start: int, end: int, every: int) -> dict[str, Any]:
    segment: dict[str, Any] = {"from_seconds": times[start] / 1000, "every_seconds": every / 1000}
    late = [times[index] - times[index - 1] - every for index in range(start + 1, end)]
    if any(late):
        segment["late_milliseconds"] = late
    fault = trace.fault_at(start)
    if fault is not None:
        segment["fault"] = fault
    if isnan(trace.kelvins[start]):
        segment["count"] = end - start
        return segment
    tenths = [to_tenths(kelvin) for kelvin in trace.kelvins[start:end]]
    segment["celsius_tenths"] = tenths[:1] + [b - a for a, b in pairwise(tenths)]
    return segment


def decode(segments: object) -> Trace:
    """The trace from segments that `encode` made.

    Raises:
        ValueError, KeyError, TypeError, OverflowError: the segments are not ours, or of no sitting.
    """
    trace, counted = Trace(), 0
    for segment in records_of(segments):
        tenths = segment.get("celsius_tenths")
        if tenths is None:
            count = count_of(segment["count"], 1, MOST_OF_ALL - counted)
            counted += count
        else:
            count = len(_integers(tenths))
        fault = None if segment.get("fault") is None else text_of(segment["fault"])
        first, step = (round(seconds_of(segment[key]) * 1000) for key in ("from_seconds", "every_seconds"))
        late = _integers(segment.get("late_milliseconds") or [0] * (count - 1))
        if not count or len(late) != count - 1:
            raise ValueError("a segment of the trace does not add up")
        times = array("d", (at / 1000 for at in accumulate((step + more for more in late), initial=first)))
        if times[0] < 0 or times[-1] > LATEST:
            raise ValueError("a segment of the trace is of no sitting")
        if tenths is None:
            if count > _MOST_COUNTED + _MOST_A_SECOND * (times[-1] - times[0]):
                raise ValueError("a segment of the trace counts more than any probe says")
            trace.extend(times, repeat(nan, count), fault)
            continue
        values = list(accumulate(tenths))
        if min(values) < -10 * HOTTEST or max(values) > 10 * HOTTEST:
            raise ValueError("a temperature of the trace is none")
        trace.extend(times, map(from_tenths, values), fault)
    return trace


def _integers(values: object) -> list[int]:
    found = list_of(values)
    if not set(map(type, found)) <= {int}:
        raise TypeError("whole numbers were expected")
    return found
