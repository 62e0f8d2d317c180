"""Reckoned figures as they are kept and as people read them."""

from __future__ import annotations

from math import inf

import pytest

from plans.reckoner import kinds
from plans.reckoner.kinds import FigureKind
from plans.units import Units, kelvin


@pytest.mark.parametrize(
    ("kind", "value", "metric", "inch"),
    [
        (kinds.TEMPERATURE, kelvin(1250), "1250 degC", "2282 degF"),
        (kinds.FINE_TEMPERATURE, kelvin(1000.006), "1000.01 degC", "1832.01 degF"),
        (kinds.DIFFERENCE, 7.5, "7.5 K", "13.5 degF"),
        (kinds.LENGTH, 0.0254, "25.4 mm", "1 in"),
        (kinds.SECONDS, 65.91, "65.9 s", "65.9 s"),
        (kinds.SECONDS, 60.0, "60 s", "60 s"),
        (kinds.SECONDS, 258.2, "4 min 18 s", "4 min 18 s"),
        (kinds.SECONDS, 8308.0, "2 h 18 min", "2 h 18 min"),
        (kinds.SECONDS, 0.0, "0 s", "0 s"),
        (kinds.THIN, 0.0010882, "1.1 mm", "0.043 in"),
        (kinds.SHARE, 0.882932, "88.3 %", "88.3 %"),
        (kinds.SHARE, 4.8e-32, "under 0.01 %", "under 0.01 %"),
        (kinds.SHARE, 0.0, "0 %", "0 %"),
        (kinds.MASS_PERCENT, 0.8839, "0.88 %", "0.88 %"),
        (kinds.NUMBER, 0.8, "0.8", "0.8"),
        (kinds.NUMBER, 10.0, "10", "10"),
        (kinds.HRC, 61.52, "61.5 HRC", "61.5 HRC"),
        (kinds.DIFFUSIVITY, 2.571e-10, "2.57e-10 m2/s", "2.57e-10 m2/s"),
        (kinds.LUMINANCE, 438.2, "438 cd/m2", "438 cd/m2"),
        (kinds.LUMINANCE, 1.2e-7, "1e-07 cd/m2", "1e-07 cd/m2"),
        (kinds.MILLIVOLTS, 0.041276, "41.276 mV", "41.276 mV"),
        (kinds.CONVECTION, 10.0, "10 W/m^2/K", "10 W/m^2/K"),
    ],
)
def test_what_people_read(kind: FigureKind, value: float, metric: str, inch: str) -> None:
    assert (kind.text(value), kind.text(value, Units.INCH)) == (metric, inch)


def test_a_figure_that_is_no_number() -> None:
    assert kinds.SECONDS.text(inf) == "--"
    assert kinds.SECONDS.large(inf) == ("--", "")


@pytest.mark.parametrize(
    ("kind", "value", "metric", "inch"),
    [
        (kinds.TEMPERATURE, kelvin(1250), ("1250", "degC"), ("2282", "degF")),
        (kinds.DIFFERENCE, 7.5, ("7.5", "K"), ("13.5", "degF")),
        (kinds.LENGTH, 0.03175, ("31.8", "mm"), ("1 1/4", "in")),
        (kinds.SECONDS, 65.91, ("65.9", "s"), ("65.9", "s")),
        (kinds.SECONDS, 258.2, ("4:18", "min"), ("4:18", "min")),
        (kinds.SECONDS, 8308.0, ("2:18", "h"), ("2:18", "h")),
        (kinds.SHARE, 0.882932, ("88.3", "%"), ("88.3", "%")),
        (kinds.NUMBER, 0.8, ("0.8", ""), ("0.8", "")),
    ],
)
def test_what_is_read_from_afar(kind: FigureKind, value: float, metric: tuple[str, str], inch: tuple[str, str]) -> None:
    assert (kind.large(value), kind.large(value, Units.INCH)) == (metric, inch)


@pytest.mark.parametrize(
    ("kind", "value", "kept"),
    [
        (kinds.TEMPERATURE, kelvin(0.1), 0.1),
        (kinds.THIN, 0.000123456789012, 0.12345679),
        (kinds.LENGTH, 0.1, 100.0),
        (kinds.MILLIVOLTS, 0.041276, 41.276),
        (kinds.SECONDS, 65.908891234, 65.908891),
    ],
)
def test_what_a_record_holds(kind: FigureKind, value: float, kept: float) -> None:
    assert kind.record(value) == kept
