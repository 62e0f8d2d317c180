"""Thermal properties of steel beside EN 1993-1-2:2005 clause 3.4.1."""

from __future__ import annotations

import pytest

from plans.warmth.steel import DENSITY, conductivity, enthalpy, specific_heat


@pytest.mark.parametrize(
    ("celsius", "expected"),
    [
        (100, 487.62),
        (400, 605.88),
        (700, 1008.158),
        (736, 4109.0),
        (800, 803.2609),
        (900, 650.0),
        (1200, 650.0),
    ],
)
def test_specific_heat_by_equation_3_2(celsius: float, expected: float) -> None:
    # EN 1993-1-2:2005 eq. 3.2a-d evaluated by hand; 100 and 400 degC also in a published reference library. At 900 degC
    # itself the standard's last branch begins.
    assert specific_heat(celsius + 273.15) == pytest.approx(expected, abs=0.01)


def test_the_peak_of_the_standard() -> None:
    # EN 1993-1-2:2005 figure 3.4: 5000 J/(kg K) at 735 degC.
    assert specific_heat(735 + 273.15) == pytest.approx(5000.0, abs=0.01)


@pytest.mark.parametrize(("celsius", "expected"), [(20, 53.334), (500, 37.35), (800, 27.3), (1200, 27.3)])
def test_conductivity_by_equation_3_3(celsius: float, expected: float) -> None:
    # EN 1993-1-2:2005 eq. 3.3a-b.
    assert conductivity(celsius + 273.15) == pytest.approx(expected, abs=0.005)


def test_heat_from_cold_to_welding_heat() -> None:
    # The integral of EN 1993-1-2 eq. 3.2 from 20 to 1200 degC, done elsewhere by quadrature: 827.064 kJ/kg.
    assert (enthalpy(1200 + 273.15) - enthalpy(20 + 273.15)) / 1000 == pytest.approx(827.064, abs=0.05)


def test_density() -> None:
    # EN 1993-1-2, unit mass of steel.
    assert DENSITY == 7850
