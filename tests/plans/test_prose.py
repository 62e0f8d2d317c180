"""Quantities in braces: a plan's texts in the units that are set.

What comes out is reckoned by hand from the exact inch of 25.4 mm and degF = 1.8 degC + 32 (NIST SP 811, B.8).
"""

from __future__ import annotations

import pytest

from plans.errors import PlanError
from plans.prose import in_braces, in_units, unreadable
from plans.reader import read_plan
from plans.units import Units

PLAN = 'heatbook = 1\ntitle = "Cut {150 mm}"\n[[step]]\ntitle = "Look"\nkind = "bench"\n'


@pytest.mark.parametrize(
    ("text", "metric", "inch"),
    [
        ("about {870 degC}, orange", "about 870 degC, orange", "about 1598 degF, orange"),
        ("{127 mm} of {25.4 x 12.7 mm}", "127 mm of 25.4 x 12.7 mm", "5 in of 1 x 1/2 in"),
        ("even within {15 K}", "even within 15 K", "even within 27 degF"),
        ("{round 1 in}, {wedge 2 x 1/2 in to 1/8 in}", "round 25.4 mm, wedge 50.8 x 12.7 mm to 3.2 mm", None),
        ("{900, 845 and 790 degC}", "900, 845 and 790 degC", "1652, 1553 and 1454 degF"),
        ("{12.7 to 25.4 mm}", "12.7 to 25.4 mm", "1/2 to 1 in"),
        ("{5 or 10 K}", "5 or 10 K", "9 or 18 degF"),
        ("{1 or 2 1/2 in}", "25.4 or 63.5 mm", "1 or 2 1/2 in"),
        ("{25.4 mm x 1/2 in}", "25.4 x 12.7 mm", "1 x 1/2 in"),
        ("{{as it is}} at {870 degC}", "{as it is} at 870 degC", "{as it is} at 1598 degF"),
        ("no figures, 15 mm", "no figures, 15 mm", "no figures, 15 mm"),
    ],
)
def test_a_text_is_shown_in_the_units_that_are_set(text: str, metric: str, inch: str | None) -> None:
    assert list(unreadable(text)) == []
    assert in_units(text, Units.METRIC) == metric
    assert in_units(text, Units.INCH) == (text.replace("{", "").replace("}", "") if inch is None else inch)


@pytest.mark.parametrize(
    ("text", "units"),
    [
        ("1 7/32 in", Units.INCH),  # finer than a rule shows it, which would make it 1 1/4
        ("2 ft 3 in", Units.INCH),
        ("2.5 cm", Units.METRIC),
        ("1603.5°F", Units.INCH),
        ("870.4 °C", Units.METRIC),
    ],
)
def test_what_is_written_in_the_units_that_are_set_stands_as_it_was_written(text: str, units: Units) -> None:
    assert in_units(f"{{{text}}}", units) == text
    (other,) = {Units.METRIC, Units.INCH} - {units}
    assert in_units(f"{{{text}}}", other) != text


@pytest.mark.parametrize("text", ["{4 min}", "{}", "{150}", "{1,200 degC}", "{", "a } b", "{0 x 3 mm}", "{-300 degC}"])
def test_what_is_no_quantity_is_told_and_stands_as_it_is(text: str) -> None:
    assert len(list(unreadable(text))) == 1
    assert in_units(text, Units.INCH) == text


def test_a_temperature_in_braces_is_shown_again() -> None:
    assert in_units(in_braces(1143.15), Units.METRIC) == "870 degC"
    fahrenheit = (2301 + 459.67) * 5 / 9
    assert in_units(in_braces(fahrenheit), Units.INCH) == "2301 degF"


def test_a_plan_that_the_log_kept_can_be_read_whatever_stands_in_its_braces() -> None:
    text = PLAN.replace("{150 mm}", "{as before}")
    with pytest.raises(PlanError):
        read_plan(text, "look", "look.toml")
    kept = read_plan(text, "look", "look.toml", kept=True)
    assert in_units(kept.title, Units.INCH) == "Cut {as before}"
