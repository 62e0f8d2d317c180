"""Quantities: what is read, what is refused and with what hint, and that printing and reading agree."""

from __future__ import annotations

import dataclasses
import re
import subprocess
import sys
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from math import isfinite
from typing import get_args

import pytest
from hypothesis import given, strategies as st

from plans.quantities import (
    PLAIN,
    SECTION,
    Dimension,
    QuantityError,
    by_pint,
    parse,
    parse_section,
    pattern,
    plain,
    registry,
)
from plans.quantity_grammar import UNITS
from plans.shapes import Form, Section
from plans.shown import show_clock, show_duration
from plans.units import Units, celsius, fahrenheit, kelvin
from tests.plans.warmth.sections import of

METRIC, INCH = Units.METRIC, Units.INCH
UNITS_SET = st.sampled_from(Units)
DIMENSIONS = st.sampled_from(get_args(Dimension))


def attempt(read: Callable[[], float]) -> float | QuantityError:
    """What comes of reading: the number or the error."""
    try:
        return read()
    except QuantityError as error:
        return error


# NIST Special Publication 811 (2008), appendix B.8 (all exact) and table 8 with B.1.1 for the temperature scales
NIST = [
    ("1 in", "length", 0.0254),
    ("1 ft", "length", 0.3048),
    ("1 lb", "mass", 0.45359237),
    ("1 h", "time", 3600.0),
    ("0 degC", "temperature", 273.15),
    ("32 degF", "temperature", 273.15),
    ("212 degF", "temperature", 373.15),
    ("-40 degF", "temperature", 233.15),
    ("-40 degC", "temperature", 233.15),
    ("-459.67 degF", "temperature", 0.0),
    ("-273.15 degC", "temperature", 0.0),
    ("9 degF", "temperature difference", 5.0),
    ("1 lbf", "force", 4.4482216152605),
    ("1 kgf", "force", 9.80665),
    ("1 tonne", "force", 9806.65),
    ("1 US ton", "force", 8896.443230521),
    ("1 long ton", "force", 9964.01641818352),
    ("250 kN", "force", 250e3),
]


@pytest.mark.parametrize(("text", "dimension", "si"), NIST)
def test_units_are_those_of_nist(text: str, dimension: Dimension, si: float) -> None:
    assert parse(text, dimension) == pytest.approx(si, rel=1e-14, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "dimension", "si"),
    [
        ("1250 degC", "temperature", 1523.15),
        ("1250°C", "temperature", 1523.15),
        ("1250 C", "temperature", 1523.15),
        ("1250 deg C", "temperature", 1523.15),
        ("1250 ℃", "temperature", 1523.15),
        ("\u22125 °C", "temperature", 268.15),
        ("1523.15 K", "temperature", 1523.15),
        ("2282 F", "temperature", 1523.15),
        ("15 K", "temperature difference", 15.0),
        ("15 degC", "temperature difference", 15.0),
        ("27 °F", "temperature difference", 15.0),
        ("25.4 mm", "length", 0.0254),
        ("25.4mm", "length", 0.0254),
        ("25.4\u00a0mm", "length", 0.0254),
        (" 2.54 cm ", "length", 0.0254),
        (".0254 m", "length", 0.0254),
        ("1 1/4 in", "length", 0.03175),
        ("1-1/4 in", "length", 0.03175),
        ("1¼ in", "length", 0.03175),
        ("1 ¼″", "length", 0.03175),
        ('1 1/4"', "length", 0.03175),
        ("3/16 in", "length", 0.0047625),
        ("⅜ inch", "length", 0.009525),
        ("5' 3\"", "length", 1.6002),
        ("1 ft 3 in", "length", 0.381),
        ("4 min", "time", 240.0),
        ("90 s", "time", 90.0),
        ("2.5 h", "time", 9000.0),
        ("2 1/2 hours", "time", 9000.0),
        ("½ h", "time", 1800.0),
        ("1 h 30 min", "time", 5400.0),
        ("1h30min10s", "time", 5410.0),
        ("1:12:08", "time", 4328.0),
        ("200 ms", "time", 0.2),
        ("20 W/m^2/K", "convection", 20.0),
        ("20 W/(m² K)", "convection", 20.0),
        ("1.2 kg", "mass", 1.2),
        ("2 lb 10 oz", "mass", 2.625 * 0.45359237),
        ("0.8", "number", 0.8),
        ("80 %", "number", 0.8),
        ("1e3 degC", "temperature", 1273.15),
    ],
)
def test_reads_what_people_write(text: str, dimension: Dimension, si: float) -> None:
    assert parse(text, dimension) == pytest.approx(si, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "dimension", "hint"),
    [
        ("", "length", "nothing is written"),
        ("25", "length", 'the unit is missing; write "25 mm"'),
        ("1250", "temperature", 'the unit is missing; write "1250 degC"'),
        ("25,4 mm", "length", "a comma is not read"),
        ("1,250 degC", "temperature", "a comma is not read"),
        ("1 250 degC", "temperature", "without a space"),
        ("25 mmm", "length", 'perhaps "mm"'),
        ("1250 degc", "temperature", 'perhaps "degC"'),
        ("25 furlongs", "length", "is not known"),
        ("5 min", "length", "that is a time"),
        ("25 mm", "time", "that is a length"),
        ("1250 degC", "time", "that is a temperature"),
        ("-3 mm", "length", "can't be below zero"),
        ("-3 K", "temperature difference", "can't be below zero"),
        ("-3 min", "time", "can't be below zero"),
        ("-300 degC", "temperature", "below absolute zero"),
        ("-1 K", "temperature", "below absolute zero"),
        ("4:30", "time", "could be minutes or hours"),
        ("3 in 1 ft", "length", "the larger one first"),
        ("1 h 1 h", "time", "the larger one first"),
        ("25 ton", "force", 'say which ton: "25 tonne" (1000 kgf), "25 US tons" (2000 lbf)'),
        ("25 Tons", "force", "say which ton"),
        ("25 kg", "force", "that is a mass"),
        ("nan mm", "length", "does not begin with a number"),
        ("inf degC", "temperature", "does not begin with a number"),
        ("1e99 mm", "length", "far too large"),
        ("9" * 50 + " K", "temperature", "far too large"),
        ("1e400 mm", "length", "write"),
        ("1/0 in", "length", "write"),
        ("9" * 80 + " mm", "length", "longer than 60 characters"),
        ("25 mm\n", "length", "write"),
        ("__import__('os') mm", "length", "does not begin with a number"),
    ],
)
def test_refuses_with_a_hint(text: str, dimension: Dimension, hint: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse(text, dimension)
    assert hint in str(caught.value)
    assert f"is no {dimension}" in str(caught.value)


@given(st.text(max_size=80) | st.from_regex("[0-9 ./,:+eE-]{1,9} ?(mm|in|degC|K|min|h|x)", fullmatch=True), DIMENSIONS)
def test_any_text_is_a_finite_quantity_or_a_quantity_error(text: str, dimension: Dimension) -> None:
    well_formed = len(text) <= 60 and re.fullmatch(pattern(dimension), text) is not None
    read = attempt(lambda: parse(text, dimension))
    if isinstance(read, QuantityError):
        assert read.syntax is not well_formed
        assert str(read).isprintable()
    else:
        assert well_formed
        assert isfinite(read)


@given(DIMENSIONS.flatmap(lambda one: st.tuples(st.just(one), st.from_regex(pattern(one), fullmatch=True))))
def test_what_the_pattern_lets_through_has_good_syntax(case: tuple[Dimension, str]) -> None:
    dimension, text = case
    read = attempt(lambda: parse(text, dimension))
    assert not isinstance(read, QuantityError) or not read.syntax or len(text) > 60


METRES = {"mm": "0.001", "cm": "0.01", "m": "1", "in": "0.0254"}


@given(st.decimals(0, 10_000, places=3), st.sampled_from(list(METRES)))
def test_decimal_lengths(number: Decimal, unit: str) -> None:
    metres = float(number * Decimal(METRES[unit]))
    assert parse(f"{number} {unit}", "length") == pytest.approx(metres, rel=1e-12)


@given(st.integers(0, 99), st.integers(1, 63), st.sampled_from([2, 4, 8, 16, 32, 64]), st.sampled_from(" -"))
def test_mixed_fractions(whole: int, over: int, under: int, between: str) -> None:
    metres = float((whole + Fraction(over, under)) * Fraction("0.0254"))
    assert parse(f"{whole}{between}{over}/{under} in", "length") == pytest.approx(metres, rel=1e-12)


def test_every_spelling_of_a_unit_is_known_to_the_registry() -> None:
    wanted = {
        "temperature": "[temperature]",
        "temperature difference": "[temperature]",
        "length": "[length]",
        "time": "[time]",
        "mass": "[mass]",
        "volume": "[length] ** 3",
        "force": "[mass] * [length] / [time] ** 2",
        "convection": "[mass] / [time] ** 3 / [temperature]",
        "number": "",
    }
    for dimension, spellings in UNITS.items():
        for unit in spellings.values():
            assert registry().Unit(unit).dimensionality == registry().get_dimensionality(wanted[dimension])


def test_a_foot_is_what_it_was_agreed_to_be_to_the_last_bit() -> None:
    # International yard and pound agreement, 1959: a yard is 0.9144 m.
    assert [parse(f"{feet} ft", "length") for feet in ("1", "2", "10")] == [0.3048, 0.6096, 3.048]


@pytest.mark.parametrize("dimension", UNITS)
@given(number=st.floats(-1e6, 1e6))
def test_a_plain_unit_is_worth_what_pint_says(dimension: Dimension, number: float) -> None:
    for spelling, unit in UNITS[dimension].items():
        if unit in PLAIN:
            assert PLAIN[unit](number) == pytest.approx(by_pint(number, spelling, dimension), rel=1e-12, abs=1e-9)


DECIMALS = st.from_regex(r"[-+]?[0-9]{0,14}[.,/]?[0-9]{0,4}", fullmatch=True)


@given(DIMENSIONS, DECIMALS, st.sampled_from(["", " ", "  ", "\u00a0"]), st.data())
def test_the_quick_way_reads_nothing_that_the_grammar_reads_otherwise(
    dimension: Dimension, number: str, space: str, data: st.DataObject
) -> None:
    text = number + space + data.draw(st.sampled_from(sorted({unit for units in UNITS.values() for unit in units})))
    quick = plain(text, dimension)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("plans.quantities.plain", lambda *_: None)
        assert quick is None or attempt(lambda: parse.__wrapped__(text, dimension)) == quick


@given(DECIMALS, DECIMALS, st.sampled_from(["mm", "in", "cm", "kg", "x", ""]))
def test_a_section_that_is_read_the_quick_way_is_the_one_that_the_grammar_reads(
    one: str, other: str, unit: str
) -> None:
    def read(text: str) -> Section | None:
        try:
            return parse_section(text)
        except QuantityError:
            return None

    text = f"{one} x {other} {unit}"
    assert read(text) == read(f" {text}")  # with a space before it, it goes by the grammar


@pytest.mark.parametrize(
    "text", ["1250 degC", "-40 degC", "5. mm", ".5 mm", "25 mm ", "1e3 mm", "1 1/4 in", "٣ mm", "25mm", "0.8", "80 %"]
)
def test_the_quick_way_is_taken_for_a_decimal_and_a_unit(text: str) -> None:
    taken = [dimension for dimension in UNITS if plain(text, dimension) is not None]
    assert bool(taken) == (text in ("1250 degC", "5. mm", ".5 mm", "0.8", "80 %"))


def test_pint_is_loaded_for_the_first_unit_that_is_not_plain() -> None:
    program = (
        "import sys, plans.quantities as q, plans.reader as r, plans.reader.schema;"
        "early = any(r.read_entry(file).error for file in r.files_at_hand(None)) or 'pint' in sys.modules;"
        "q.parse('20 W/m^2/K', 'convection'); sys.exit(early or 'pint' not in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", program], check=False).returncode == 0


# Sections


@pytest.mark.parametrize(
    ("text", "width", "thickness", "is_round"),
    [
        ("25 x 10 mm", 0.025, 0.010, False),
        ("10x25mm", 0.025, 0.010, False),
        ("25 × 10 mm", 0.025, 0.010, False),
        ("25 X 10 mm", 0.025, 0.010, False),
        ("1 1/4 x 3/8 in", 0.03175, 0.009525, False),
        ('1¼" x ⅜"', 0.03175, 0.009525, False),
        ("25.4 mm x 1/2 in", 0.0254, 0.0127, False),
        ("round 25 mm", 0.025, 0.025, True),
        ("25 mm round", 0.025, 0.025, True),
        ("ø25 mm", 0.025, 0.025, True),
        ("⌀ 1 in", 0.0254, 0.0254, True),
        ("square 25 mm", 0.025, 0.025, False),
        ("1 in square", 0.0254, 0.0254, False),
    ],
)
def test_reads_sections(text: str, width: float, thickness: float, is_round: bool) -> None:
    section = parse_section(text)
    assert (section.width, section.thickness) == (pytest.approx(width), pytest.approx(thickness))
    assert section.is_round is is_round


@pytest.mark.parametrize(
    ("text", "section"),
    [
        ("wedge 37 x 8 mm to 3.5 mm", Section(0.037, 0.008, Form.WEDGE, 0.0035)),
        ("wedge 8x37mm to 3.5mm", Section(0.037, 0.008, Form.WEDGE, 0.0035)),
        ("diamond 40 mm x 6 mm to 1 mm", Section(0.040, 0.006, Form.DIAMOND, 0.001)),
        ("lens 1 x 1/4 in to 1/32 in", Section(0.0254, 0.00635, Form.LENS, 0.00079375)),
        ("wedge 30 x 4 mm edge 0.5 mm bevel 20 mm", Section(0.03, 0.004, Form.WEDGE, 0.0005, 0.02)),
        ("wedge 30 x 4mm to 0.5mm bevel 20mm hollow 150mm", Section(0.03, 0.004, Form.WEDGE, 0.0005, 0.02, -0.15)),
        ("diamond 40 x 6 mm to 1 mm convex radius 300 mm", Section(0.04, 0.006, Form.DIAMOND, 0.001, None, 0.3)),
        ("octagon 20 mm", Section.regular(Form.OCTAGON, 0.02)),
        ("3/4 in hexagon", Section.regular(Form.HEXAGON, 0.01905)),
        ("flat 25 x 10 mm", Section(0.025, 0.01)),
    ],
)
def test_reads_sections_of_every_form(text: str, section: Section) -> None:
    read = parse_section(text)
    assert read.form is section.form
    for name in ("width", "thickness", "edge", "bevel", "radius"):
        was = getattr(section, name)
        assert getattr(read, name) == (None if was is None else pytest.approx(was))


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("wedge 37 x 8 mm", 'write "wedge 40 x 6 mm to 1.5 mm"'),
        ("wedge 37 x 8 mm to 8 mm", "its edge must be thinner than its thickness"),
        ("lens 37 x 8 mm to 0 mm", "larger than zero"),
        ("wedge 30 x 4 mm to 0.5 mm hollow radius 150 mm", "a radius of 258 mm (10 3/16 in) at least"),
        ("wedge 30 x 4 mm to 0.5 mm bevel 40 mm", "room for 30 mm"),
        ("wedge 30 x 4 mm to 0.5 mm radius 150 mm", '"hollow radius 150 mm" or "convex radius 150 mm"'),
        ("lens 30 x 4 mm to 0.5 mm bevel 10 mm", "only a wedge and a diamond"),
        ("octagon 20 x 20 mm", 'write "octagon 20 mm"'),
        ("hexagon 0 mm", "larger than zero"),
        ("", "nothing is written"),
        ("30 x 8", "the unit is missing after the second side"),
        ("30 mm x 8", "the unit is missing after the second side"),
        ("25 mm", 'write "square 25 mm" or "round 25 mm", or two sides, as in "25 x 25 mm"'),
        ("25 x 10 x 200 mm", "more than two sides"),
        ("-25 x 10 mm", "can't be below zero"),
        ("25,4 x 10 mm", "a comma is not read"),
        ("0 x 10 mm", "larger than zero"),
        ("round 0 mm", "larger than zero"),
        ("25 x 10 mn", 'write "25 x 10 mm"'),
        ("nan x 10 mm", 'write "25 x 10 mm"'),
        ("flat bar", 'write "25 x 10 mm"'),
    ],
)
def test_refuses_sections_with_a_hint(text: str, hint: str) -> None:
    with pytest.raises(QuantityError, match=re.escape(hint)) as caught:
        parse_section(text)
    assert "is no section" in str(caught.value)


@given(st.text(max_size=70) | st.from_regex("[0-9 ./,-]{1,6} ?[x×] ?[0-9 ./]{1,6} ?(mm|in|)", fullmatch=True))
def test_any_text_is_a_section_or_a_quantity_error(text: str) -> None:
    well_formed = len(text) <= 90 and re.fullmatch(SECTION, text) is not None
    read = attempt(lambda: parse_section(text).width)
    assert well_formed if not isinstance(read, QuantityError) else read.syntax is not well_formed


# What is printed is read again


@given(st.floats(1, 3000), UNITS_SET)
def test_a_temperature_comes_back_within_half_a_degree(temperature: float, units: Units) -> None:
    back = parse(units.temperature(temperature), "temperature")
    assert back == pytest.approx(temperature, abs=0.5 * (5 / 9 if units.fahrenheit else 1) + 1e-9)


@given(st.floats(-200, 3000))
def test_scales_agree_with_pint(degrees: float) -> None:
    assert parse(f"{degrees:.6f} degC", "temperature") == pytest.approx(kelvin(degrees), abs=1e-6)
    assert celsius(kelvin(degrees)) == pytest.approx(degrees, abs=1e-9)
    assert parse(f"{degrees:.6f} degF", "temperature") == pytest.approx((degrees + 459.67) * 5 / 9, abs=1e-6)
    assert fahrenheit(kelvin(degrees)) == pytest.approx(degrees * 9 / 5 + 32, abs=1e-9)


@given(st.floats(0.0005, 20), UNITS_SET)
def test_a_length_comes_back_as_near_as_it_is_shown(length: float, units: Units) -> None:
    back = parse(units.length(length), "length")
    metric = 0.0005 if length >= 0.0999 else 0.00005
    sixteenth = 0.0254 / 32 if length >= 0.0254 * 0.99 else 0.0254 / 64 if length >= 0.0254 * 0.25 else 0.0254 / 128
    assert back == pytest.approx(length, abs=(sixteenth if units.inches else metric) + 1e-12)


@given(
    st.builds(of, st.sampled_from(Form), st.floats(0.004, 0.1), st.floats(1, 8), st.floats(0.2, 0.6), st.just(0.4)),
    UNITS_SET,
)
def test_a_section_comes_back_as_the_same_kind(section: Section, units: Units) -> None:
    back = parse_section(units.section(section))
    assert back.form is section.form
    for name in ("width", "thickness", "edge", "bevel", "radius"):
        was = getattr(section, name)
        near = None if was is None else pytest.approx(was, abs=0.001, rel=0.003)
        assert getattr(back, name) == near
    if section.radius is not None:
        hollow = dataclasses.replace(section, radius=-section.radius)
        assert parse_section(units.section(hollow)) == dataclasses.replace(back, radius=-(back.radius or 0))


@given(st.integers(0, 35_999))
def test_a_duration_comes_back(seconds: int) -> None:
    assert parse(show_duration(seconds), "time") == seconds
    if seconds >= 3600:
        assert parse(show_clock(seconds), "time") == seconds
