from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from plans.warmth.steel import ARREST, carbon_steel, enthalpy
from plans.warmth.transformation import Transformation

STEEL = carbon_steel()
assert STEEL.transformation is not None
CHANGE: Transformation = STEEL.transformation
KELVIN = st.floats(300.0, 2000.0)
IN_THE_CHANGE = st.floats(600.0, 900.0).map(lambda celsius: celsius + 273.15)


def degrees(celsius: float) -> float:
    return celsius + 273.15


def led(*celsius: float) -> list[tuple[float, float]]:
    """Enthalpy and latent heat of steel that is brought from one temperature to the next."""
    latent, seen = 0.0, []
    for each in celsius:
        joules, latent = STEEL.brought_to(degrees(each), latent)
        seen.append((joules, latent))
    return seen


@given(KELVIN)
def test_the_two_ways_have_inverses(kelvin: float) -> None:
    assert CHANGE.sensible_temperature(CHANGE.sensible(kelvin)) == pytest.approx(kelvin, abs=1e-6)
    assert CHANGE.cooled_temperature(CHANGE.cooled_enthalpy(kelvin)) == pytest.approx(kelvin, abs=1e-6)


@given(KELVIN, st.floats(0.01, 100.0))
def test_heat_rises_with_the_temperature_either_way(kelvin: float, more: float) -> None:
    assert CHANGE.sensible(kelvin + more) > CHANGE.sensible(kelvin)
    assert CHANGE.cooled_enthalpy(kelvin + more) > CHANGE.cooled_enthalpy(kelvin)


@given(KELVIN)
def test_what_cools_holds_more_than_what_is_heated_and_the_same_outside_the_change(kelvin: float) -> None:
    more = CHANGE.cooled_enthalpy(kelvin) - enthalpy(kelvin)
    assert 0 <= more < CHANGE.latent
    if not degrees(600) < kelvin < degrees(900):
        assert more == 0
    if degrees(660) < kelvin < degrees(890):
        assert more > 0


def test_all_of_it_is_there_until_the_arrest() -> None:
    for celsius in (701, 735, 800, 899):
        cooled = CHANGE.cooled_enthalpy(degrees(celsius))
        assert cooled - CHANGE.sensible(degrees(celsius)) == pytest.approx(CHANGE.latent)
    low, high = ARREST
    lost = CHANGE.cooled_enthalpy(high) - CHANGE.cooled_enthalpy(low) - CHANGE.sensible(high) + CHANGE.sensible(low)
    assert lost > 0.9 * CHANGE.latent


@given(IN_THE_CHANGE, IN_THE_CHANGE, st.lists(IN_THE_CHANGE, max_size=5))
def test_a_detour_that_stays_within_makes_no_difference(one: float, other: float, course: list[float]) -> None:
    # Down from above the change to one temperature, up to another and back, with any smaller detours: as it was.
    low, high = min(one, other), max(one, other)
    _, latent = STEEL.brought_to(low, CHANGE.latent)
    joules, turned = STEEL.brought_to(high, latent)
    before = STEEL.brought_to(low, turned)
    latent = before[1]
    for kelvin in [*(min(max(each, low), high) for each in course), high, low]:
        joules, latent = STEEL.brought_to(kelvin, latent)
    assert (joules, latent) == pytest.approx(before, abs=20.0)


def test_heated_to_760_and_cooled_again() -> None:
    start, hot, just_out, above, below, end = led(550, 760, 759, 705, 655, 550)
    # It takes what the standard says, and part of the change is done.
    assert hot[0] == enthalpy(degrees(760))
    assert 0.5 * CHANGE.latent < hot[1] < 0.9 * CHANGE.latent
    # Down to the arrest it gives back only what its temperature is worth.
    assert just_out[1] == above[1] == hot[1]
    worth = CHANGE.sensible(degrees(760)) - CHANGE.sensible(degrees(705))
    assert hot[0] - above[0] == pytest.approx(worth, abs=15.0)
    # In the arrest it gives back the part that was done, but for the foot that heating too begins below it.
    assert below[1] < 0.04 * CHANGE.latent
    assert end == (start[0], 0.0)


@given(KELVIN, st.floats(0.0, 1.0))
def test_the_tables_give_temperature_and_latent_heat(kelvin: float, share: float) -> None:
    joules, latent = STEEL.brought_to(kelvin, share * CHANGE.latent)
    assert STEEL.temperature_of(joules, latent) == pytest.approx(kelvin, abs=0.01)
    in_table = STEEL.temperature_at_potential(STEEL.tables.along((joules,), (latent,))[0][0])
    assert in_table == pytest.approx(kelvin, abs=0.02)
    assert latent == pytest.approx(joules - CHANGE.sensible(kelvin), abs=15.0)
    assert STEEL.brought_to(kelvin, latent) == pytest.approx((joules, latent), abs=15.0)
