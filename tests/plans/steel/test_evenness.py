"""How far layers even out: from all of the difference to none, and never the other way."""

from __future__ import annotations

from math import exp, inf, nan, pi

import pytest
from hypothesis import given, strategies as st

from plans.steel.carbon import spread_over
from plans.steel.errors import SteelError
from plans.steel.evenness import carbon_difference_left, remaining_fraction, spread_to_even_out
from plans.steel.history import hold
from plans.units import Units, kelvin

times = st.floats(0, 3)
layers = st.floats(1e-6, 1e-2)


def first_term(time: float) -> float:
    """The first wave of the series alone, by D t over the square of a layer's thickness."""
    return 4 / pi * exp(-(pi**2) * time)


@given(times, layers, st.floats(0, 1))
def test_the_rest_lies_between_all_and_nothing_and_falls(time: float, layer: float, more: float) -> None:
    now, later = (remaining_fraction(at * layer**2, layer) for at in (time, time + more))
    assert 0 <= later <= now + 1e-12 <= 1 + 1e-12


@given(times, layers)
def test_the_first_term_is_never_below_the_series(time: float, layer: float) -> None:
    assert first_term(time) >= remaining_fraction(time * layer**2, layer) - 1e-12


@given(st.floats(0.05, 3), layers)
def test_the_first_term_soon_does(time: float, layer: float) -> None:
    assert first_term(time) == pytest.approx(remaining_fraction(time * layer**2, layer), rel=0.01)


@given(st.floats(0.001, 0.999), layers)
def test_the_time_to_even_out_comes_to_that_rest(remaining: float, layer: float) -> None:
    spread = spread_to_even_out(remaining, layer)
    assert remaining_fraction(spread, layer) == pytest.approx(remaining, rel=1e-6)


@pytest.mark.parametrize("time", [0.003, 0.02, 0.08, 0.149, 0.151, 0.3, 0.7])
def test_against_a_difference_scheme(time: float) -> None:
    # Two half layers, mirrored at both middles, solved by brute force.
    count = 80
    width = 1.0 / count
    carbon = [1.0 if (i + 0.5) * width < 0.5 else -1.0 for i in range(count)]
    step = 0.25 * width**2
    for _ in range(round(time / step)):
        padded = [carbon[0], *carbon, carbon[-1]]
        carbon = [b + 0.25 * (a - 2 * b + c) for a, b, c in zip(padded, padded[1:], padded[2:], strict=False)]
    assert remaining_fraction(time, 1.0) == pytest.approx(carbon[0], abs=2e-3)


def test_nothing_has_happened_at_the_start() -> None:
    assert remaining_fraction(0.0, 1e-4) == 1.0
    assert carbon_difference_left([(hold(300.0, 3600), 1e-4)]).value == 1.0


def test_thinner_layers_and_more_carbon_even_out_sooner() -> None:
    history = hold(kelvin(1100), 60)
    rests = [carbon_difference_left([(history, layer)], 0.6).value for layer in (1e-4, 2e-4, 4e-4, 8e-4)]
    assert rests == sorted(rests)
    assert carbon_difference_left([(history, 2e-4)], 1.0).value < carbon_difference_left([(history, 2e-4)], 0.3).value


def test_layers_that_get_thinner_on_the_way() -> None:
    # Half the thickness counts four times as much: 60 s, and then 60 s at half, are as 300 s at the first thickness.
    history = hold(kelvin(1000), 60)
    both = carbon_difference_left([(history, 4e-4), (history, 2e-4)], 0.6)
    assert both.value == pytest.approx(carbon_difference_left([(hold(kelvin(1000), 300), 4e-4)], 0.6).value)


def test_the_range_is_a_factor_of_two_in_diffusivity() -> None:
    history = hold(kelvin(1100), 60)
    left = carbon_difference_left([(history, 2e-4)], 0.6)
    spread = spread_over(history, 0.6).value
    assert left.least == pytest.approx(remaining_fraction(spread * 2, 2e-4))
    assert left.most == pytest.approx(remaining_fraction(spread / 2, 2e-4))
    assert left.least is not None
    assert left.most is not None
    assert left.least < left.value < left.most
    assert "nickel" in Units.METRIC.text(left.validity)


def test_gaps_and_heat_beyond_the_formula_are_told() -> None:
    left = carbon_difference_left([([(0, 1800.0), (10, 1800.0), (11, None), (100, 1800.0)], 1e-3)], 0.6)
    assert left.outside
    assert "90 s without a temperature" in Units.METRIC.text(left.validity)


@pytest.mark.parametrize("layer", [0.0, -1e-4, nan, inf])
def test_impossible_layers(layer: float) -> None:
    with pytest.raises(SteelError, match="thickness above 0"):
        remaining_fraction(1e-9, layer)
    with pytest.raises(SteelError, match="thickness above 0"):
        carbon_difference_left([(hold(1400.0, 60), layer)], 0.6)


def test_other_impossible_things() -> None:
    with pytest.raises(SteelError, match="no history"):
        carbon_difference_left([])
    with pytest.raises(SteelError, match="from 0 up"):
        remaining_fraction(-1e-9, 1e-4)
    for remaining in (0.0, 1.0, nan):
        with pytest.raises(SteelError, match="between 0 and 1"):
            spread_to_even_out(remaining, 1e-4)
