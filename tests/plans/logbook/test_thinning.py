from __future__ import annotations

from bisect import bisect_right
from math import inf
from random import Random

import pytest
from hypothesis import given, settings, strategies as st

from plans.logbook.thinning import Points, pieces_of, smooth, swinging_door, thin
from plans.reading import ProbeOn, Reading
from plans.sitting.believed import Believed
from plans.trace import Trace


def on_the_lines(points: Points, at: float) -> float:
    """The height of straight lines through `points` at one time, worked out apart from the code under test."""
    times = [time for time, _ in points]
    right = min(max(bisect_right(times, at), 1), len(points) - 1)
    (t0, v0), (t1, v1) = points[right - 1], points[right]
    return v0 + (v1 - v0) * (at - t0) / (t1 - t0)


@st.composite
def noisy(draw: st.DrawFn) -> Trace:
    random = Random(draw(st.integers(0, 2**32)))
    hertz, step = draw(st.sampled_from([1, 4, 10])), draw(st.sampled_from([0.1, 2, 30]))
    trace, kelvin, at = Trace(), 1200.0, 0.0
    for _ in range(draw(st.integers(0, 400))):
        at += 1 / hertz
        kelvin += random.gauss(0, step)
        draw_fault = random.random() < 0.01
        trace.append(at, None if draw_fault else kelvin, "lost" if draw_fault else None)
        if random.random() < 0.01:
            at += random.uniform(0, 60)
    return trace


@given(noisy(), st.sampled_from([0.5, 2.0, 10.0]))
@settings(deadline=None)
def test_the_drawing_passes_within_the_bound_of_every_smoothed_point(trace: Trace, within: float) -> None:
    pieces = Believed.of(trace, ProbeOn.WORK).pieces(0.0, inf)
    smoothed, thinned = smooth(pieces), thin(pieces, within)
    assert len(smoothed) == len(thinned)
    for full, kept in zip(smoothed, thinned, strict=True):
        assert set(kept) <= set(full)
        assert (kept[0], kept[-1]) == (full[0], full[-1])
        if len(kept) > 1:
            assert max(abs(on_the_lines(kept, at) - value) for at, value in full) <= within + 1e-6


@pytest.mark.parametrize("power", [0, 1, 2, 3])
def test_smoothing_leaves_curves_up_to_the_third_power_alone(power: int) -> None:
    # Savitzky and Golay 1964, Anal. Chem. 36, 1627: the seven-point quadratic and cubic filter is one and the same.
    curve = Trace(Reading(at, 1000 + 1e-3 * (at - 20) ** power) for at in range(40))
    (points,) = smooth(pieces_of(curve))
    assert [value for _, value in points] == pytest.approx(list(curve.kelvins), abs=1e-9)


def test_smoothing_takes_noise_away() -> None:
    # Savitzky and Golay 1964: noise falls by the root of the sum of the squared weights, sqrt(147)/21 = 0.577 here.
    random = Random(3)
    (points,) = smooth(pieces_of(Trace(Reading(at, 1200 + random.gauss(0, 2)) for at in range(20_000))))
    spread = (sum((value - 1200) ** 2 for _, value in points) / len(points)) ** 0.5
    assert spread == pytest.approx(2 * 147**0.5 / 21, rel=0.05)


def test_readings_of_one_second_become_their_mean() -> None:
    trace = Trace(Reading(3 + index / 10, 1000.0 + index) for index in range(10))
    ((point,),) = smooth(pieces_of(trace))
    assert point == pytest.approx((3.45, 1004.5))


def test_gaps_and_faults_part_the_curve() -> None:
    trace = Trace(Reading(at, 1000.0) for at in range(10))
    trace.append(10, None, "lost")
    for at in [*range(11, 20), *range(40, 50)]:
        trace.append(at, 1000.0)
    # A probe that was lost, or silent for more than 5 s, is believed from its third reading on.
    pieces = Believed.of(trace, ProbeOn.WORK).pieces(0.0, inf)
    assert [(piece[0][0], piece[-1][0]) for piece in thin(pieces)] == [(2, 9), (13, 19), (42, 49)]


def test_a_straight_line_needs_two_points() -> None:
    assert swinging_door([(at, 5.0 * at) for at in range(100)], 2.0) == [(0, 0.0), (99, 495.0)]


def test_an_hour_of_noise_becomes_few_points() -> None:
    random = Random(5)
    trace = Trace(Reading(index / 10, 1200 + index / 100 + random.gauss(0, 2)) for index in range(36_000))
    (piece,) = thin(pieces_of(trace))
    assert len(piece) < 360


def test_nothing_to_draw() -> None:
    assert thin(pieces_of(Trace())) == []
    assert thin(pieces_of(Trace([Reading(1, None, "lost")]))) == []
    assert thin(pieces_of(Trace([Reading(1, 300.0)]))) == [[(1, 300.0)]]


def test_beside_a_jump_no_curve_goes_where_the_work_never_was() -> None:
    jump = [(float(at), 313.0 if at < 20 else 1517.0) for at in range(40)]
    (piece,) = smooth([jump])
    assert all(313.0 <= kelvin <= 1517.0 for _, kelvin in piece)
