"""Quantities as they are printed in the units that are set, and the definitions behind them."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from plans.shapes import Section
from plans.units import INCH as METRES_OF_AN_INCH, ZERO_CELSIUS, Units, celsius, digits, fahrenheit, in_both, kelvin

METRIC, INCH = Units.METRIC, Units.INCH

FIXED_POINTS = [
    (0.0, -273.15, -459.67),
    (233.15, -40.0, -40.0),
    (255.372222222222222, -17.777777777777778, 0.0),
    (273.15, 0.0, 32.0),
    (373.15, 100.0, 212.0),
    (1273.15, 1000.0, 1832.0),
]
"""Temperatures [K], [degC], [degF]: t/degC = T/K - 273.15 and t/degF = 9/5 t/degC + 32, exact (NIST SP 811, B.8)."""


@pytest.mark.parametrize(("in_kelvin", "in_celsius", "in_fahrenheit"), FIXED_POINTS)
def test_scales_meet_at_the_points_that_define_them(in_kelvin: float, in_celsius: float, in_fahrenheit: float) -> None:
    assert celsius(in_kelvin) == METRIC.to_degrees(in_kelvin) == pytest.approx(in_celsius, abs=1e-9)
    assert fahrenheit(in_kelvin) == INCH.to_degrees(in_kelvin) == pytest.approx(in_fahrenheit, abs=1e-9)
    assert kelvin(in_celsius) == METRIC.from_degrees(in_celsius) == pytest.approx(in_kelvin, abs=1e-9)
    assert INCH.from_degrees(in_fahrenheit) == pytest.approx(in_kelvin, abs=1e-9)


@pytest.mark.parametrize(("units", "shown"), [(METRIC, "100 degC"), (INCH, "212 degF")])
def test_water_boils_at_100_degc_which_is_212_degf(units: Units, shown: str) -> None:
    assert units.temperature(373.15) == shown


def test_a_difference_is_of_degrees_and_has_no_zero_point() -> None:
    """A kelvin and a degree Celsius are the same step, 9/5 of a degree Fahrenheit (NIST SP 811, B.8)."""
    assert (METRIC.difference(100.0), INCH.difference(100.0)) == ("100 K", "180 degF")
    assert (METRIC.difference(0.0), INCH.difference(0.0)) == ("0 K", "0 degF")
    assert INCH.difference(-5.0) == "-9 degF"


def test_an_inch_is_25_4_mm_exactly() -> None:
    """International inch, exact since 1959 (NIST SP 811, B.8)."""
    assert METRES_OF_AN_INCH == 25.4 / 1000
    assert METRIC.length(METRES_OF_AN_INCH) == "25.4 mm"
    assert INCH.length(0.3048) == "12 in", "a foot, exact too"
    assert INCH.depth(0.0000254) == "0.0010 in", "a thousandth of an inch"


@pytest.mark.parametrize(
    ("typed", "inches", "millimetres"),
    [
        ("39/64 in", 39 / 64, "15.478 mm"),
        ("1 1/64 in", 65 / 64, "25.797 mm"),
        ("0.04 in", 0.04, "1.016 mm"),
        ("0.3 in", 0.3, "7.62 mm"),
    ],
)
def test_what_was_typed_comes_back_as_exactly(typed: str, inches: float, millimetres: str) -> None:
    assert INCH.exact_length(inches * METRES_OF_AN_INCH) == typed
    assert METRIC.exact_length(inches * METRES_OF_AN_INCH) == millimetres, "25.4 mm each"
    square = Section(inches * METRES_OF_AN_INCH, inches * METRES_OF_AN_INCH)
    assert INCH.section(square, exact=True) == f"{typed.removesuffix(' in')} x {typed}"


def test_widths_add_up() -> None:
    # Three equal parts of 1 1/4 in: by the nearest 32nd they would come to 1 7/32 in.
    assert INCH.width(1.25 / 3 * METRES_OF_AN_INCH) == "0.417 in"


def test_ice_melts_at_zero_celsius() -> None:
    """0 degC is 273.15 K by definition of the scale (NIST SP 811, B.8)."""
    assert ZERO_CELSIUS == 273.15


@given(st.floats(0.0, 3000.0), st.sampled_from(Units))
def test_degrees_lead_back_to_the_same_temperature(temperature: float, units: Units) -> None:
    assert units.from_degrees(units.to_degrees(temperature)) == pytest.approx(temperature, abs=1e-9)


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("unknown", [None, float("nan"), float("inf")])
def test_what_is_not_known_is_printed_as_two_dashes(units: Units, unknown: float | None) -> None:
    assert (units.degrees(unknown), units.temperature(unknown)) == ("--", "--")
    if unknown is not None:
        assert (units.difference(unknown), units.length(unknown), units.depth(unknown)) == ("--", "--", "--")


def test_a_text_with_figures_is_written_in_the_units_that_are_set() -> None:
    assert INCH.text("as it stands") == "as it stands"
    assert [units.text(lambda units: f"to {units.temperature(kelvin(500))}") for units in (METRIC, INCH)] == [
        "to 500 degC",
        "to 932 degF",
    ]


def test_both_scales() -> None:
    assert in_both(kelvin(900)) == "900 degC (1652 degF)"


@pytest.mark.parametrize(
    ("shown", "text"),
    [
        (METRIC.temperature(kelvin(1250)), "1250 degC"),
        (INCH.temperature(kelvin(1250)), "2282 degF"),
        (METRIC.temperature(kelvin(-0.4)), "0 degC"),
        (METRIC.temperature(float("nan")), "--"),
        (METRIC.difference(15), "15 K"),
        (INCH.difference(15), "27 degF"),
        (METRIC.length(0.231), "231 mm"),
        (METRIC.length(0.0127), "12.7 mm"),
        (METRIC.length(0.025), "25 mm"),
        (INCH.length(0.03175), "1 1/4 in"),
        (INCH.length(0.0047625), "3/16 in"),
        (INCH.length(0.0254), "1 in"),
        (INCH.length(0.0001), "0.004 in"),
        (INCH.length(0.0), "0 in"),
        (METRIC.depth(0.00016), "0.16 mm"),
        (INCH.depth(0.00016), "0.0063 in"),
        (INCH.depth(1e-7), "0.0000039 in"),
        (METRIC.depth(0.0002, unit=False), "0.20"),
        (METRIC.section(Section(0.04, 0.012)), "40 x 12 mm"),
        (INCH.section(Section(0.04, 0.012)), "1 9/16 x 15/32 in"),
        (METRIC.section(Section.round(0.025)), "round 25 mm"),
        (INCH.section(Section.round(0.0254)), "round 1 in"),
    ],
)
def test_prints(shown: str, text: str) -> None:
    assert shown == text


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
