"""The stretch of a sitting that a trace shows."""

from __future__ import annotations

from typing import Any

import pytest

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reading import ProbeOn, Reading
from plans.sitting.believed import Believed
from plans.sitting.engine import Sitting
from plans.sitting.events import Said, Tick, Word
from plans.sitting.limits import Limit, LimitName, limits_of
from plans.sitting.phase_span import PhaseSpan
from tui.live.live_trace import LiveTrace
from tui.widgets.curves import floor_of, measured_curve, shades

ICE = 273.15


def span(phase: PhaseKind, began: float, ended: float, heat: int = 1) -> PhaseSpan:
    return PhaseSpan(1, heat, phase, began, ended, ended - began)


def test_a_soak_goes_with_its_fire_and_heats_stay_apart() -> None:
    parts = [
        span(PhaseKind.READY, 0, 10),
        span(PhaseKind.FIRE, 10, 300),
        span(PhaseKind.SOAK, 300, 400),
        span(PhaseKind.STRIKE, 400, 430),
        span(PhaseKind.FIRE, 430, 600, 2),
        span(PhaseKind.STRIKE, 600, 640, 2),
    ]
    assert shades(parts, 0, 1000) == [(10, 400, "1"), (430, 600, "2")]
    assert shades(parts, 0, 1000, apart=50) == [(10, 380, "1"), (430, 600, "2")]
    assert shades(parts, 410, 1000) == [(430, 600, "2")]
    assert shades(parts, 350, 1000)[0][1:] == (400, "1")


def test_a_gap_in_the_readings_is_a_gap_in_the_curve() -> None:
    readings = [Reading(at, 1000.0) for at in (1.0, 2.0, 3.0, 4.0)]
    readings += [Reading(30.0, None, "lost"), *(Reading(at, 990.0) for at in (31.0, 32.0, 33.0))]
    curve = measured_curve(Believed.of(readings, ProbeOn.WORK), 0.0, 100.0)
    # The third reading is the first that is believed, at the beginning and after the loss.
    assert list(curve.at) == [3.0, 4.0, 4.5, 33.0]
    assert list(curve.values) == [1000.0, 1000.0, None, 990.0]


def test_limits_come_by_the_phase_the_most_important_first(plan: Plan) -> None:
    weld, normalize = plan.steps[1], plan.steps[3]
    assert [limit.name for limit in limits_of(weld, 1, PhaseKind.STRIKE)] == ["cold", "burn", "heat to"]
    assert [limit.name for limit in limits_of(weld, 1, PhaseKind.SOAK)] == ["heat to", "burn", "cold"]
    about: Any = pytest.approx
    assert limits_of(normalize, 2, PhaseKind.AIR) == (Limit(LimitName.COOL_TO, about(480 + ICE)),)
    assert limits_of(normalize, 2, PhaseKind.FIRE)[0] == Limit(LimitName.HEAT_TO, about(845 + ICE))
    assert limits_of(plan.steps[0], 1, PhaseKind.BENCH) == ()


def test_the_foot_of_the_trace_leaves_the_room_to_what_counts(plan: Plan) -> None:
    floor = floor_of(plan.steps[1])
    assert floor is not None
    assert 900 < floor - ICE < 1100
    assert floor_of(plan.steps[0]) is None


def test_the_window_follows_the_time_and_costs_what_it_shows(plan: Plan) -> None:
    sitting = Sitting(plan, ProbeOn.WORK)
    sitting.open()
    for word in (Word.NEXT, Word.NEXT):
        sitting.take(Said(1.0, word))
    for quarter in range(8, 8000):
        sitting.take(Reading(quarter / 4, 1500.0))
    sitting.take(Tick(2000.0))
    trace = LiveTrace(sitting)
    data = trace.data(2000.0, 600.0, 60)
    assert data.end - data.begin == 600.0
    assert data.begin <= 1405
    assert data.end >= 2000.0
    assert len(data.measured.at) <= 600 * 4
    assert len(data.modelled.at) <= 600 * 2 + 1
    assert data.measured.at[0] >= data.begin
    assert data.now == 2000.0
    early = trace.data(2.0, 600.0, 60)
    assert early.begin == 0.0


def test_a_trace_that_is_looked_at_again_and_again_is_what_it_is_at_one_look(plan: Plan) -> None:
    """Readings that come two at one time, a probe that is lost and comes back, and a window that moves on."""
    sitting = Sitting(plan, ProbeOn.WORK)
    sitting.open()
    for word in (Word.NEXT, Word.NEXT):
        sitting.take(Said(1.0, word))
    watched = LiveTrace(sitting)
    for second in range(2, 120):
        if not 40 <= second < 60:
            for kelvin in (1500.0 + second, 1501.0 + second):
                sitting.take(Reading(float(second), kelvin))
        seen = watched.data(float(second), 60.0, 60).measured
        at_once = LiveTrace(sitting).data(float(second), 60.0, 60).measured
        first = len(seen.at) - len(at_once.at)
        assert (seen.at[first:], seen.values[first:]) == (at_once.at, at_once.values)
        # A gap that lies before all that is shown is none.
        assert all(value is None for value in seen.values[:first])
    assert None in watched.data(90.0, 60.0, 60).measured.values
