"""Lumped cooling of steel bars and the textbook's lumped examples."""

from __future__ import annotations

from math import atan, log

import pytest

from plans.shapes import Section
from plans.warmth.bar import BarShape
from plans.warmth.conduction import Conduction
from plans.warmth.cross_section import cross_section
from plans.warmth.lumped import biot_number, cooling_time
from plans.warmth.material import Material
from plans.warmth.steel import DENSITY, enthalpy, temperature
from plans.warmth.surroundings import STEFAN_BOLTZMANN, Surroundings, still_air
from tests.outside.chains import chain

HOT, COLD, ROOM = 1250 + 273.15, 900 + 273.15, 20 + 273.15

# Reference values: rho c(T) V/A dT/dt = -[eps sigma (T^4-Ta^4) + h (T-Ta)] integrated elsewhere, with c by EN 1993-1-2
# held above 1200 degC, rho 7850, eps 0.8, h 10, Ta 20 degC; square bars 100 mm long with all six faces bare.
BARS = [(6.0, 100.0, 17.099446), (12.7, 100.0, 35.053767), (25.4, 100.0, 66.157305), (50.0, 100.0, 117.416194)]
LONG_BAR = (25.4, None, 74.559283)
CONSTANT = Material.constant(7850.0, 650.0, 27.3)


def shape_of(side: float, length: float | None) -> BarShape:
    return BarShape.of(Section(side / 1000, side / 1000), None if length is None else length / 1000)


@pytest.mark.parametrize(("side", "length", "expected"), [*BARS, LONG_BAR])
def test_square_bars_from_1250_to_900(side: float, length: float | None, expected: float) -> None:
    assert cooling_time(HOT, COLD, shape_of(side, length), still_air()) == pytest.approx(expected, rel=0.0001)


@pytest.mark.parametrize(("side", "length", "expected"), [*BARS, LONG_BAR])
def test_the_solver_comes_to_the_same_where_heat_runs_freely_inside(
    side: float, length: float | None, expected: float
) -> None:
    free = 1e5  # W/(m K): a bar as good as lumped
    copper_like = Material(
        DENSITY, enthalpy, temperature, lambda _: free, lambda kelvin: free * kelvin, lambda watts: watts / free
    )
    section = Section(side / 1000, side / 1000)
    bar = Conduction(cross_section(section, None if length is None else length / 1000), copper_like)
    heat, skin, seconds, step = copper_like.even(HOT, bar.count), HOT, 0.0, expected / 1000
    while skin > COLD:
        before = skin
        heat = bar.solve(heat, step, still_air())
        skin = bar.warmth(heat).skin
        seconds += step
    seconds -= step * (COLD - skin) / (before - skin)
    assert seconds == pytest.approx(expected, rel=0.002)


def test_radiation_alone_in_closed_form() -> None:
    # Incropera et al., 6th ed., eq. 5.18, evaluated elsewhere: 25.4 mm square x 100 mm, c 650, eps 0.8, 1250 to 900.
    shape = shape_of(25.4, 100)
    expected = 71.243039
    radiating = still_air(convection=0.0)
    assert cooling_time(HOT, COLD, shape, radiating, CONSTANT) == pytest.approx(expected, rel=0.001)
    # Steel by the standard must come to the same: above 900 degC its c is 650.
    assert cooling_time(HOT, COLD, shape, radiating) == pytest.approx(expected, rel=0.001)


def test_radiation_against_another_printing_of_the_formula() -> None:
    # Bejan & Kraus, Heat Transfer Handbook, 2003, eq. 3.283, for a black body: the logarithms set apart.
    ts, t, ti = ROOM, COLD, HOT
    bracket = log(abs((ts + t) / (ts - t))) - log(abs((ts + ti) / (ts - ti))) + 2 * (atan(t / ts) - atan(ti / ts))
    expected = 7850 * 650 * 0.005 / (4 * STEFAN_BOLTZMANN * ts**3) * bracket
    plate, black = BarShape(0.005, 0.0), still_air(ROOM, 1.0, 0.0)
    assert cooling_time(ti, t, plate, black, CONSTANT) == pytest.approx(expected, rel=1e-9)


def test_radiative_coefficient() -> None:
    # h_r = eps sigma (T1^2+T2^2)(T1+T2) at 1100 degC in a room of 20 degC, eps 0.8: 149.02 W/(m2 K).
    skin = 1100 + 273.15
    air = still_air(ROOM, 0.8, 0.0)
    assert -air.flux(skin) / (skin - ROOM) == pytest.approx(149.020775, abs=0.1)


# Incropera, DeWitt, Bergman, Lavine, Fundamentals of Heat and Mass Transfer, 6th ed., Examples 5.1 and 5.2: a
# thermocouple's junction, a sphere of k 20, c 400, rho 8500, in gas at 200 degC with h 400, from 25 degC.
JUNCTION = Material.constant(8500.0, 400.0, 20.0)
GAS = Surroundings(200 + 273.15, 200 + 273.15, 0.0, 400.0)
GAS_AND_WALLS = Surroundings(400 + 273.15, 200 + 273.15, 0.9, 400.0)


def sphere(diameter: float) -> BarShape:
    return BarShape(diameter / 2, 2.0)


def test_example_5_1_diameter_for_a_time_constant_of_one_second() -> None:
    # Printed: 7.06e-4 m. After one time constant the difference has fallen to 1/e.
    start, end = 25 + 273.15, 200 + 273.15 - 175 / 2.718281828459045
    assert cooling_time(start, end, sphere(7.06e-4), GAS, JUNCTION) == pytest.approx(1.0, rel=0.01)
    assert biot_number(sphere(7.06e-4), 400.0, 20.0) == pytest.approx(2.35e-3, rel=0.01)  # printed 2.35e-3


def test_example_5_1_time_to_199() -> None:
    assert cooling_time(25 + 273.15, 199 + 273.15, sphere(7.06e-4), GAS, JUNCTION) == pytest.approx(5.2, rel=0.015)


def test_example_5_2_steady_temperature() -> None:
    assert GAS_AND_WALLS.steady() - 273.15 == pytest.approx(218.7, abs=0.1)


def test_example_5_2_time_to_217_7() -> None:
    # The book integrates numerically and prints 4.9 s; an exact integration gives 4.98 s.
    seconds = cooling_time(25 + 273.15, 217.7 + 273.15, sphere(7.0588e-4), GAS_AND_WALLS, JUNCTION)
    assert seconds == pytest.approx(4.98, rel=0.02)


def test_example_5_3_curing_in_two_steps() -> None:
    # A 3 mm aluminium panel, k 177, c 875, rho 2770, eps 0.8: oven at 175 degC with h 40 until 300 s after it reaches
    # 150 degC, then a chamber at 25 degC with h 10 down to 37 degC. Exact integration 986.3 s, printed 989 s.
    panel = Conduction(chain(BarShape(0.0015, 0.0)), Material.constant(2770.0, 875.0, 177.0))
    oven = Surroundings(175 + 273.15, 175 + 273.15, 0.8, 40.0)
    chamber = Surroundings(25 + 273.15, 25 + 273.15, 0.8, 10.0)
    skin, step, seconds, cured_at, total = 25 + 273.15, 0.25, 0.0, None, None
    heat = panel.material.even(skin, panel.count)
    while total is None and seconds < 2000:
        curing = cured_at is None or seconds < cured_at + 300
        heat = panel.solve(heat, step, oven if curing else chamber)
        skin = panel.warmth(heat).skin
        seconds += step
        if cured_at is None and skin >= 150 + 273.15:
            cured_at = seconds
        if not curing and skin <= 37 + 273.15:
            total = seconds
    assert cured_at == pytest.approx(124, rel=0.01)  # printed: 124 s
    assert total == pytest.approx(986.3, rel=0.003)
