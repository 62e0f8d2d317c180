"""Names of heats: each with the range that its chart has it for, in the units that are set."""

from __future__ import annotations

import re

import pytest

from plans.units import Units, celsius, kelvin
from plans.warmth.heat_names import BLACK_HEAT, HeatNames, heat_name
from tests.shelf_plans import shelf_plans

EACH = pytest.mark.parametrize("names", HeatNames)


@EACH
def test_each_heat_lies_in_the_range_of_its_name(names: HeatNames) -> None:
    for at in range(-50, 2000):
        found = heat_name(kelvin(at), names)
        assert found.low is None or found.low <= kelvin(at)
        assert found.high is None or kelvin(at) < found.high


@EACH
def test_from_black_heat_on_every_name_follows_the_one_before(names: HeatNames) -> None:
    found = heat_name(0.0, names)
    seen = [found.name]
    while found.high is not None:
        following = heat_name(found.high, names)
        assert following.low == found.high
        found = following
        seen.append(found.name)
    assert seen[0] == BLACK_HEAT
    assert len(seen) == len(set(seen)) >= 10
    assert names.source


@pytest.mark.parametrize(
    ("at", "units", "text"),
    [
        (1000, Units.METRIC, "orange 980-1095"),
        (1000, Units.INCH, "orange 1800-2000"),  # Chapman's own figures: 1,800 and 2,000 degF
        (20, Units.METRIC, "black heat"),
        (1400, Units.METRIC, "white from 1315"),
        (1400, Units.INCH, "white from 2400"),
    ],
)
def test_a_name_is_shown_with_its_range(at: float, units: Units, text: str) -> None:
    assert heat_name(kelvin(at), HeatNames.CHAPMAN).text(units) == text


def test_no_plan_that_ships_contradicts_the_chart() -> None:
    named = 0
    for entry in shelf_plans(None):
        assert entry.plan is not None
        for said, low, high in re.findall(
            r"((?:light )?cherry red|orange|yellow)[^.\n]{0,30}?(\d{3,4})(?: to (\d{3,4}))? degC", entry.plan.source
        ):
            for at in filter(None, (low, high)):
                found = heat_name(kelvin(float(at)))
                assert found.low is not None
                assert (found.name, celsius(found.low) <= float(at)) == (said, True)
            named += 1
    assert named >= 2
