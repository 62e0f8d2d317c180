"""Bounds on how fast steel changes its temperature, held against physics of its own and sums done by hand."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest

from plans.plan import Plan
from plans.shapes import Section
from plans.sitting.pace import (
    LATENT,
    TRANSFORMS_BELOW,
    fastest_change,
    longest_pause,
    section_at,
    slowest_fall,
    untransformed_fall,
)

ICE = 273.15
FLAT, ROUND = Section(0.040, 0.006), Section.round(0.020)


def black_body(kelvin: float) -> float:
    """What a black body at a temperature gives to surroundings at 20 degC, CODATA 2018 [W/m2]."""
    return 5.670374419e-8 * (kelvin**4 - 293.15**4)


def test_no_fire_warms_a_cold_bar_faster_and_no_still_air_cools_it_faster(plan: Plan) -> None:
    """A black skin in a fire of 1290 degC, the hottest of the plan, on 440 J/(kg K), steel's heat in the cold.

    440 J/(kg K): EN 1993-1-2:2005, 3.4.1.2. The thinnest section of the plan is 40 x 6 mm, 92 mm round 240 mm2.
    """
    fastest = fastest_change(plan)
    assert fastest is not None
    assert fastest > black_body(1290 + ICE) * (0.092 / 240e-6) / (7850 * 440)
    assert fastest < 100, "and a loose contact, 1000 K in a tenth of a second, is far beyond it"


def test_without_a_section_there_is_no_bound(plan: Plan) -> None:
    bare = replace(plan, steps=tuple(replace(step, section=None, reach=None, thin=None) for step in plan.steps))
    assert fastest_change(bare) is None


@pytest.mark.parametrize("celsius", [850.0, 1000.0, 1250.0])
@pytest.mark.parametrize(("section", "skin_per_volume"), [(FLAT, 0.092 / 240e-6), (ROUND, 0.02 * pi / (1e-4 * pi))])
def test_bare_bright_steel_in_still_air_falls_no_slower(
    section: Section, skin_per_volume: float, celsius: float
) -> None:
    """Oxidised steel has an emissivity of 0.79 to 0.8 or more; 650 J/(kg K) is EN 1993-1-2:2005, 3.4.1.2."""
    real = (0.79 * black_body(celsius + ICE) + 8 * celsius) * skin_per_volume / (7850 * 650)
    assert 0.5 * real < slowest_fall(section, celsius + ICE) < real


def test_where_it_may_transform_no_fall_is_too_slow() -> None:
    below = TRANSFORMS_BELOW - 1
    assert slowest_fall(FLAT, below) == 0.0
    assert untransformed_fall(FLAT, below) > 0
    assert untransformed_fall(FLAT, 280.0) == 0.0


def test_a_pause_is_the_heat_of_the_change_over_the_loss() -> None:
    """At 680 degC, emissivity 0.8 and 10 W/(m2 K): 0.8 x 46.4 + 6.6 = 43.6 kW/m2, by hand."""
    assert longest_pause(ROUND, 680 + ICE) == pytest.approx(LATENT * 7850 * 0.02 / 4 / 43.6e3, rel=0.01)


def test_a_step_without_a_section_has_that_of_the_one_before(plan: Plan) -> None:
    assert section_at(plan, 0, 1) == Section(0.040, 0.014)
    assert section_at(plan, 6, 1) == Section(0.040, 0.006)
    bare = replace(plan, steps=(replace(plan.steps[0], section=None, reach=None), *plan.steps[1:]))
    assert section_at(bare, 0, 1) is None
