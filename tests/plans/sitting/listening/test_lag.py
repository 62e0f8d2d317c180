"""A probe that is too slow to be struck by: it says so, and hammer time goes by the model."""

from __future__ import annotations

from math import exp
from typing import Any

import pytest

from plans.logbook.figures.heats import heat_figures
from plans.reading import ProbeOn
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Basis, Begun, Called, Cause
from tests.plans.sitting.listening.test_hands_free import ALL, STRIKE, Alone, Shop, play

Rows = list[tuple[float, float | None]]


def lagging(rows: Rows, lag: float) -> Rows:
    """As a thermocouple of this time constant has it: a lag of the first order."""
    felt, before = rows[0][1] or 20.0, rows[0][0]
    found: Rows = []
    for at, celsius in rows:
        if celsius is not None:
            felt += (1 - exp(-(at - before) / lag)) * (celsius - felt)
            before = at
        found.append((at, None if celsius is None else felt))
    return found


@pytest.fixture
def struck(shop: Shop) -> Any:
    """A heat of 14 mm, struck down to 1100 degC, where 1150 is the limit, and back in the fire."""
    work = shop(14.0, 1.0)
    work.go(10.0, 20.0)
    work.put_in(1290.0, 1255.0, soak=120.0)
    work.take_out(1100.0, chill=1.3)
    work.put_in(1290.0, 1200.0, soak=0.0)
    return work


def true_at_the_limit(rows: Rows, limit: float, after: float) -> float:
    return next(at for at, celsius in rows if at > after and celsius is not None and celsius < limit)


@pytest.mark.parametrize("lag", [8.0, 15.0])
def test_a_slow_probe_is_told_and_the_model_calls_in_its_place(steps_alone: Alone, struck: Any, lag: float) -> None:
    sitting = Sitting(steps_alone(0), ProbeOn.WORK, ALL, lag=lag)
    log = play(sitting, lagging(struck.rows, lag))
    slow = next(entry for entry in log if isinstance(entry, Called) and entry.call is Call.PROBE_SLOW)
    cold = next(entry for entry in log if isinstance(entry, Called) and entry.call is Call.TOO_COLD)
    assert (slow.basis, cold.basis) == (Basis.MODELLED, Basis.MODELLED)
    assert slow.kelvin is not None
    # What is taken for the skin as it is told is what the probe lags behind.
    real = next(celsius for at, celsius in struck.rows if at >= slow.at and celsius is not None)
    assert slow.kelvin - 273.15 == pytest.approx(real, abs=20)
    true = true_at_the_limit(struck.rows, 1150.0, struck.outs[0])
    by_probe = true_at_the_limit(lagging(struck.rows, lag), 1150.0, struck.outs[0])
    assert by_probe - true > 6 if lag < 10 else by_probe - true > 9
    assert cold.at - true < 0.5 * (by_probe - true)
    strike = next(entry for entry in log if isinstance(entry, Begun) and entry.phase is STRIKE)
    assert (strike.cause, strike.began) == (Cause.PROBE, pytest.approx(struck.outs[0], abs=5))
    lowest = heat_figures(sitting).steps[0].heats[0].lowest_struck
    assert lowest is not None
    assert lowest - 273.15 < 1130, "the probe alone would have it warmer than the limit"


def test_a_quick_probe_is_struck_by(steps_alone: Alone, struck: Any) -> None:
    sitting = Sitting(steps_alone(0), ProbeOn.WORK, ALL, lag=0.5)
    log = play(sitting, lagging(struck.rows, 0.5))
    calls = {entry.call: entry.basis for entry in log if isinstance(entry, Called)}
    assert Call.PROBE_SLOW not in calls
    assert calls[Call.TOO_COLD] is Basis.MEASURED


def test_a_logger_that_speaks_seldom_is_as_slow_as_one_that_lags(steps_alone: Alone, struck: Any) -> None:
    """A reading every 5 s: its median of three is 5 s behind, of a hammer time of some 8 s."""
    rows = [row for row in struck.rows if row[1] is not None]
    seldom: Rows = []
    for row in rows:
        if not seldom or row[0] - seldom[-1][0] >= 5.0:
            seldom.append(row)
    sitting = Sitting(steps_alone(0), ProbeOn.WORK, ALL)
    log = play(sitting, seldom)
    assert Call.PROBE_SLOW in {entry.call for entry in log if isinstance(entry, Called)}


def test_in_the_fire_a_slow_probe_measures(steps_alone: Alone, struck: Any) -> None:
    sitting = Sitting(steps_alone(0), ProbeOn.WORK, ALL, lag=8.0)
    play(sitting, lagging(struck.rows, 8.0))
    assert Call.PROBE_SLOW not in sitting.state.alarms, "it holds for the strike alone"
    assert sitting.is_measured
