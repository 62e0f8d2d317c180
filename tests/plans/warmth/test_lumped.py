from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from plans.shapes import Section
from plans.warmth.bar import BarShape
from plans.warmth.forecast import skin_time
from plans.warmth.lumped import biot_number, cooling_time
from plans.warmth.model import WarmModel
from plans.warmth.surroundings import fire, still_air

ROD = BarShape.of(Section(0.006, 0.006))


@given(st.floats(320.0, 1500.0), st.floats(320.0, 1500.0), st.floats(320.0, 1500.0))
def test_times_add_up(a: float, b: float, c: float) -> None:
    hot, between, cold = sorted((a, b, c), reverse=True)
    whole = cooling_time(hot, cold, ROD, still_air())
    parts = cooling_time(hot, between, ROD, still_air()) + cooling_time(between, cold, ROD, still_air())
    if 600 < between - 273.15 < 900:
        # What was only heated to here has less of the change to undo than what came from above it.
        assert parts <= whole * 1.001
    else:
        assert parts == pytest.approx(whole, rel=1e-3, abs=1e-6)


def test_a_thin_rod_warms_as_the_solver_has_it() -> None:
    model = WarmModel(Section(0.006, 0.006))
    expected = skin_time(model, fire(1500.0), 1300.0)
    assert cooling_time(model.skin, 1300.0, ROD, fire(1500.0)) == pytest.approx(expected, rel=0.01)


@pytest.mark.parametrize(("start", "end"), [(1000.0, 1100.0), (1000.0, 290.0), (280.0, 300.0)])
def test_a_temperature_on_the_wrong_side_is_refused(start: float, end: float) -> None:
    with pytest.raises(ValueError, match="between"):
        cooling_time(start, end, ROD, still_air())


def test_a_bar_of_25_mm_is_about_as_warm_inside_as_outside() -> None:
    # The rule that a Biot number below 0.1 may be lumped, at 1100 degC in air.
    bar = BarShape.of(Section(0.025, 0.025))
    assert biot_number(bar, still_air().coefficient(1373.15), 27.3) < 0.12
    assert biot_number(BarShape.of(Section(0.1, 0.1)), still_air().coefficient(1373.15), 27.3) > 0.4
