from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, strategies as st

from plans.blows import USUAL, StruckBy
from plans.warmth.surroundings import ROOM, Surroundings, fire, oil, still_air, striking

KELVIN = st.floats(250.0, 1900.0)
ANY = st.builds(
    Surroundings,
    radiating=KELVIN,
    air=KELVIN,
    emissivity=st.floats(0, 1),
    convection=st.floats(1, 1000),
    contact=st.floats(0, 1000),
    touching=KELVIN,
    factor=st.floats(0.3, 3),
)


@given(ANY, KELVIN)
def test_the_steady_temperature_is_where_nothing_flows(around: Surroundings, skin: float) -> None:
    steady = around.steady()
    assert around.flux(steady) == pytest.approx(0, abs=1e-6 * around.incoming)
    assert (around.flux(skin) > 0) == (skin < steady) or skin == pytest.approx(steady)


@given(ANY, KELVIN)
def test_the_coefficient_is_how_steeply_the_flux_falls(around: Surroundings, skin: float) -> None:
    falls = (around.flux(skin - 0.01) - around.flux(skin + 0.01)) / 0.02
    assert falls == pytest.approx(around.coefficient(skin), rel=1e-3)


@given(ANY, st.floats(0.3, 3), KELVIN)
def test_scaled_surroundings_give_so_many_times_as_much_at_any_temperature(
    around: Surroundings, factor: float, skin: float
) -> None:
    scaled = around.scaled(factor)
    largest = around.factor * (around.incoming + around.linear * skin + around.radiation * skin**4)
    assert scaled.flux(skin) == pytest.approx(factor * around.flux(skin), abs=1e-9 * largest)
    assert scaled.steady() == pytest.approx(around.steady())
    assert scaled.contact == around.contact


def test_what_is_round_the_work_comes_to_its_own_temperature() -> None:
    assert still_air().steady() == pytest.approx(ROOM)
    assert fire(1500.0).steady() == pytest.approx(1500.0)
    assert oil(330.0).steady() == pytest.approx(330.0)


def test_tools_are_laid_on_what_is_round_the_work() -> None:
    hand, press = striking(), striking(USUAL[StruckBy.PRESS], still_air(emissivity=0.9))
    assert (hand.both_faces, press.both_faces) == (False, True)
    assert 0 < hand.contact < press.contact
    assert (hand.share, press.share) == pytest.approx((0.15, 1 / 3))
    assert press.emissivity == 0.9
    assert hand.flux(1450.0) == still_air().flux(1450.0)
    assert hand.scaled(1.0, 2.0).contact == pytest.approx(2 * hand.contact)
    assert hand.scaled(2.0).contact == hand.contact


@pytest.mark.parametrize(
    "wrong",
    [
        {"radiating": 0.0},
        {"air": float("nan")},
        {"touching": 1e6},
        {"emissivity": 1.2},
        {"share": 1.2},
        {"convection": -1.0},
        {"contact": float("inf")},
    ],
)
def test_impossible_surroundings_are_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(ValueError, match="surroundings"):
        replace(Surroundings(300.0, 300.0), **wrong)  # type: ignore[arg-type]
