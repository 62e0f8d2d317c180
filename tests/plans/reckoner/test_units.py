"""Reckoned figures as they are kept and as people read them."""

from __future__ import annotations

from math import inf

import pytest

from plans.reckoner import units
from plans.reckoner.units import Unit, digits
from plans.shown import kelvin


@pytest.mark.parametrize(
    ("value", "count", "text"),
    [
        (0.0, 3, "0"),
        (0.048236, 3, "0.0482"),
        (12.349, 3, "12.3"),
        (1239.6, 3, "1240"),
        (-143.4, 3, "-143"),
        (0.0999, 2, "0.10"),
        (9.996, 3, "10.0"),
    ],
)
def test_digits(value: float, count: int, text: str) -> None:
    assert digits(value, count) == text


@pytest.mark.parametrize(
    ("unit", "value", "metric", "inch"),
    [
        (units.TEMPERATURE, kelvin(1250), "1250 degC", "2282 degF"),
        (units.FINE_TEMPERATURE, kelvin(1000.006), "1000.01 degC", "1832.01 degF"),
        (units.DIFFERENCE, 7.5, "7.5 K", "13.5 degF"),
        (units.LENGTH, 0.0254, "25.4 mm", "1 in"),
        (units.SECONDS, 65.91, "65.9 s", "65.9 s"),
        (units.SECONDS, 60.0, "60 s", "60 s"),
        (units.SECONDS, 258.2, "4 min 18 s", "4 min 18 s"),
        (units.SECONDS, 8308.0, "2 h 18 min", "2 h 18 min"),
        (units.SECONDS, 0.0, "0 s", "0 s"),
        (units.THIN, 0.0010882, "1.1 mm", "0.043 in"),
        (units.SHARE, 0.882932, "88.3 %", "88.3 %"),
        (units.MASS_PERCENT, 0.8839, "0.88 %", "0.88 %"),
        (units.NUMBER, 0.8, "0.8", "0.8"),
        (units.NUMBER, 10.0, "10", "10"),
        (units.HRC, 61.52, "61.5 HRC", "61.5 HRC"),
        (units.DIFFUSIVITY, 2.571e-10, "2.57e-10 m2/s", "2.57e-10 m2/s"),
        (units.LUMINANCE, 438.2, "438 cd/m2", "438 cd/m2"),
        (units.LUMINANCE, 1.2e-7, "1e-07 cd/m2", "1e-07 cd/m2"),
        (units.MILLIVOLTS, 0.041276, "41.276 mV", "41.276 mV"),
        (units.CONVECTION, 10.0, "10 W/m^2/K", "10 W/m^2/K"),
    ],
)
def test_what_people_read(unit: Unit, value: float, metric: str, inch: str) -> None:
    assert (unit.text(value), unit.text(value, True)) == (metric, inch)


def test_a_figure_that_is_no_number() -> None:
    assert units.SECONDS.text(inf) == "--"


@pytest.mark.parametrize(
    ("unit", "value", "kept"),
    [
        (units.TEMPERATURE, kelvin(0.1), 0.1),
        (units.THIN, 0.000123456789012, 0.12345679),
        (units.LENGTH, 0.1, 100.0),
        (units.MILLIVOLTS, 0.041276, 41.276),
        (units.SECONDS, 65.908891234, 65.908891),
    ],
)
def test_what_a_record_holds(unit: Unit, value: float, kept: float) -> None:
    assert unit.record(value) == kept


def test_both_scales() -> None:
    assert units.both(kelvin(900)) == "900 degC (1652 degF)"
