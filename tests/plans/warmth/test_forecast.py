from __future__ import annotations

from itertools import islice

import pytest
from hypothesis import given, strategies as st

from plans.shapes import Section
from plans.warmth.ahead import look_ahead
from plans.warmth.course import HORIZON, Part
from plans.warmth.forecast import hammer_time, skin_time, soak_time
from plans.warmth.model import WarmModel
from plans.warmth.surroundings import fire, still_air, striking

WELDING = 1523.15
SQUARE = Section(0.025, 0.025)
FIRE = fire(WELDING)


@pytest.mark.parametrize("section", [Section(0.003, 0.003), Section(0.04, 0.04), Section(0.05, 0.006)])
def test_the_live_model_arrives_when_the_forecast_said(section: Section) -> None:
    model = WarmModel(section)
    soak, skin = soak_time(model, FIRE, 1473.15), skin_time(model, FIRE, 1473.15)
    assert soak is not None
    assert skin is not None
    skin_came = None
    seconds, step = 0.0, 0.1
    while model.middle < 1473.15:
        model.step(step, FIRE)
        seconds += step
        if skin_came is None and model.skin >= 1473.15:
            skin_came = seconds
    assert skin_came == pytest.approx(skin, rel=0.01, abs=0.3)
    assert seconds == pytest.approx(soak, rel=0.01, abs=0.3)
    left = hammer_time(model, striking(), 1173.15)
    seconds = 0.0
    while model.coldest >= 1173.15:
        model.step(step, striking())
        seconds += step
    assert seconds == pytest.approx(left, rel=0.01, abs=0.3)


@pytest.mark.parametrize("section", [Section(0.003, 0.003), SQUARE, Section(0.05, 0.006)])
def test_so_it_does_through_the_arrest_and_from_within_it(section: Section) -> None:
    model, step = WarmModel(section, start=1173.15), 0.1
    for limit in (953.15, 673.15):
        left = hammer_time(model, still_air(), limit)
        seconds = 0.0
        while model.coldest >= limit:
            model.step(step, still_air())
            seconds += step
        assert seconds == pytest.approx(left, rel=0.01, abs=0.3)


@pytest.mark.parametrize("section", [Section(0.003, 0.003), SQUARE, Section(0.05, 0.006)])
def test_so_it_does_where_the_work_turns_round_in_the_arrest(section: Section) -> None:
    model, step = WarmModel(section, start=1173.15), 0.1
    for _ in range(3):
        for outside, limit in ((still_air(), 953.15), (FIRE, 1023.15)):
            forecast = (skin_time if outside is FIRE else hammer_time)(model, outside, limit)
            seconds = 0.0
            while ((model.skin if outside is FIRE else model.coldest) < limit) is (outside is FIRE):
                model.step(step, outside)
                seconds += step
            assert seconds == pytest.approx(forecast, rel=0.01, abs=0.3)


def test_a_forecast_shrinks_as_time_passes() -> None:
    model = WarmModel(SQUARE)
    first = soak_time(model, FIRE, 1473.15)
    assert first is not None
    for _ in range(200):
        model.step(0.5, FIRE)
    assert soak_time(model, FIRE, 1473.15) == pytest.approx(first - 100, abs=0.6)


def test_a_forecast_leaves_the_model_alone() -> None:
    model = WarmModel(SQUARE, 0.1)
    model.step(30.0, FIRE)
    before = model.snapshot()
    soak_time(model, FIRE, 1473.15)
    assert model.snapshot() == before


@given(st.floats(0.004, 0.06), st.floats(1.1, 2.0))
def test_a_thicker_bar_soaks_longer_and_stays_warm_longer(thickness: float, more: float) -> None:
    thin, thick = (Section(side, side) for side in (thickness, thickness * more))
    soaks = [soak_time(WarmModel(section), FIRE, 1473.15) for section in (thin, thick)]
    bars = [WarmModel(section, start=WELDING) for section in (thin, thick)]
    hammers = [hammer_time(bar, still_air(), 1173.15, Part.SKIN) for bar in bars]
    for short, long in (soaks, hammers):
        assert short is not None
        assert long is not None
        assert short * more**0.75 < long < short * more**2


def test_a_hotter_fire_is_quicker_and_a_short_end_cools_sooner() -> None:
    slow, quick = (soak_time(WarmModel(SQUARE), fire(kelvin), 1473.15) for kelvin in (1500.0, 1600.0))
    assert slow is not None
    assert quick is not None
    assert quick < slow
    bar, stub = (hammer_time(WarmModel(SQUARE, length, WELDING), still_air(), 1173.15) for length in (None, 0.05))
    assert bar is not None
    assert stub is not None
    assert stub < bar


def test_what_is_already_so_takes_no_time() -> None:
    model = WarmModel(SQUARE, start=1300.0)
    assert soak_time(model, FIRE, 1200.0) == 0.0
    assert skin_time(model, FIRE, 1200.0) == 0.0
    assert hammer_time(model, still_air(), 1350.0) == 0.0


def test_never_is_none() -> None:
    model = WarmModel(SQUARE)
    assert soak_time(model, fire(1400.0), 1473.15) is None
    assert skin_time(model, fire(1400.0), 1400.5) is None
    hot = WarmModel(SQUARE, start=WELDING)
    assert hammer_time(hot, fire(1400.0), 1300.0) is None


def test_the_horizon_is_kept() -> None:
    model = WarmModel(SQUARE)
    seconds = soak_time(model, FIRE, 1473.15)
    assert seconds is not None
    assert soak_time(model, FIRE, 1473.15, within=seconds * 1.02) == pytest.approx(seconds)
    assert soak_time(model, FIRE, 1473.15, within=seconds * 0.98) is None
    slow = WarmModel(Section(0.9, 0.9))
    assert soak_time(slow, FIRE, 1473.15) is None
    assert soak_time(slow, FIRE, 1473.15, within=40 * HORIZON) is not None


def test_a_middle_that_is_warmed_by_its_own_skin_is_seen() -> None:
    # Skin hot, middle cold, then out of the fire: the middle still rises some way, though the bar cools.
    model = WarmModel(Section(0.06, 0.06))
    for _ in range(300):
        model.step(0.5, FIRE)
    assert soak_time(model, still_air(), model.middle + 5) is not None
    assert soak_time(model, still_air(), model.skin) is None


def test_steps_grow_as_the_bar_comes_to_rest() -> None:
    model = WarmModel(SQUARE)
    times = [moment.seconds for moment in islice(look_ahead(model.piece, model.heat, FIRE), 400)]
    assert times == sorted(times)
    assert times[-1] - times[-2] > 100 * (times[60] - times[59])
