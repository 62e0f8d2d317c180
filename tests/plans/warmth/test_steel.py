from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from plans.warmth.steel import (
    carbon_steel,
    conductivity,
    enthalpy,
    potential,
    specific_heat,
    temperature,
    temperature_at_potential,
)

KELVIN = st.floats(100.0, 2500.0)
JOINTS = [celsius + 273.15 for celsius in (20.0, 600.0, 735.0, 800.0, 900.0)]


@given(KELVIN)
def test_heat_and_temperature_are_inverse(kelvin: float) -> None:
    assert temperature(enthalpy(kelvin)) == pytest.approx(kelvin, abs=1e-6)


@given(KELVIN)
def test_potential_and_temperature_are_inverse(kelvin: float) -> None:
    assert temperature_at_potential(potential(kelvin)) == pytest.approx(kelvin, abs=1e-6)


@given(KELVIN.filter(lambda kelvin: all(abs(kelvin - joint) > 0.01 for joint in JOINTS)))
def test_the_integrals_rise_as_their_properties_say(kelvin: float) -> None:
    d = 0.002
    assert (enthalpy(kelvin + d) - enthalpy(kelvin - d)) / (2 * d) == pytest.approx(specific_heat(kelvin), rel=1e-4)
    assert (potential(kelvin + d) - potential(kelvin - d)) / (2 * d) == pytest.approx(conductivity(kelvin), rel=1e-4)


@pytest.mark.parametrize("joint", JOINTS)
def test_no_heat_is_lost_where_two_branches_meet(joint: float) -> None:
    assert enthalpy(joint + 1e-9) - enthalpy(joint - 1e-9) == pytest.approx(0, abs=1e-3)
    assert potential(joint + 1e-9) - potential(joint - 1e-9) == pytest.approx(0, abs=1e-4)


def test_the_ends_are_held() -> None:
    assert specific_heat(1800.0) == specific_heat(1300 + 273.15) == 650
    assert specific_heat(250.0) == pytest.approx(specific_heat(20 + 273.15))
    assert conductivity(250.0) == pytest.approx(conductivity(20 + 273.15))


@given(KELVIN)
def test_the_table_gives_the_potential(kelvin: float) -> None:
    material, joules = carbon_steel(), enthalpy(kelvin)
    in_table = material.temperature_at_potential(material.tables.along((joules,), (0.0,))[0][0])
    assert in_table == pytest.approx(kelvin, abs=0.005)
