"""How exact a forecast is, beside scipy's solve_ivp on the same bar."""

from __future__ import annotations

import pytest

from plans.section import Section
from plans.warmth.bar import BarShape
from plans.warmth.forecast import hammer_time, skin_time, soak_time
from plans.warmth.model import WarmModel
from plans.warmth.surroundings import fire, still_air
from tests.outside.bar_by_scipy import COLD, FIRE, LIMIT, SECTIONS, SOAKED, reference, soak_in


@pytest.mark.parametrize("section", SECTIONS)
def test_forecasts_are_within_1_percent_of_a_fine_reference(section: Section) -> None:
    cold, hot = WarmModel(section, None, COLD), WarmModel(section, None, FIRE)
    shape = BarShape.of(section)
    assert soak_time(cold, fire(FIRE), SOAKED) == pytest.approx(soak_in(60, section), rel=0.01)
    skin = reference(shape, COLD, fire(FIRE), lambda _, skin: SOAKED - skin, 60)
    assert skin_time(cold, fire(FIRE), SOAKED) == pytest.approx(skin, rel=0.01)
    left = reference(shape, FIRE, still_air(COLD), lambda _, skin: skin - LIMIT, 60)
    assert hammer_time(hot, still_air(COLD), LIMIT) == pytest.approx(left, rel=0.01)
