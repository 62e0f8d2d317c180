"""Carbon in austenite: it moves faster when hotter and with more carbon, and a longer history takes it further."""

from __future__ import annotations

from math import erf, inf, nan

import pytest
from hypothesis import given, strategies as st

from plans.reading import Reading
from plans.steel.carbon import (
    AUSTENITE,
    CARBON_FACTOR,
    agren_diffusivity,
    content_at,
    decarb_depth,
    depth_at_share,
    diffusivity,
    grinding_allowance,
    inverse_erf,
    spread_over,
    textbook_diffusivity,
)
from plans.steel.errors import SteelError
from plans.steel.history import hold
from plans.units import Units, kelvin

hot = st.floats(AUSTENITE, kelvin(1390))
carbons = st.floats(0, 1.9)
spreads = st.floats(1e-14, 1e-5)


@given(hot, carbons, st.floats(0.1, 10))
def test_faster_when_hotter(at: float, carbon: float, more: float) -> None:
    assert agren_diffusivity(at + more, carbon) > agren_diffusivity(at, carbon)
    assert textbook_diffusivity(at + more) > textbook_diffusivity(at)


@given(hot, carbons, st.floats(0.01, 0.1))
def test_faster_with_more_carbon(at: float, carbon: float, more: float) -> None:
    assert agren_diffusivity(at, carbon + more) > agren_diffusivity(at, carbon)


@given(st.floats(0, 0.999999))
def test_the_error_function_inverts(share: float) -> None:
    assert erf(inverse_erf(share)) == pytest.approx(share, abs=1e-14)


@given(st.floats(0.01, 0.99), spreads, st.floats(0.3, 1.5))
def test_depth_and_content_invert(share: float, spread: float, core: float) -> None:
    depth = depth_at_share(share, spread)
    assert content_at(depth, spread, 0.0, core) == pytest.approx(share * core, rel=1e-9)


@given(spreads, st.floats(0, 1e-2), st.floats(0, 1e-3))
def test_carbon_never_leaves_its_bounds_and_grows_with_depth(spread: float, depth: float, more: float) -> None:
    shallow, deep = (content_at(at, spread, 0.0, 0.8) for at in (depth, depth + more))
    assert 0 <= shallow <= deep <= 0.8


def test_nothing_has_moved_before_the_start() -> None:
    assert content_at(1e-6, 0.0, 0.0, 0.8) == 0.8
    assert content_at(0.0, 0.0, 0.0, 0.8) == 0.0


@given(st.lists(st.tuples(st.floats(1, 300), st.floats(300, 1600)), min_size=2, max_size=6), st.floats(1, 600))
def test_a_longer_history_never_goes_less_deep(steps: list[tuple[float, float]], more: float) -> None:
    at, history = 0.0, []
    for seconds, temperature in steps:
        at += seconds
        history.append((at, temperature))
    longer = [*history, (at + more, history[-1][1])]
    assert decarb_depth(longer, 0.8).value >= decarb_depth(history, 0.8).value


@given(hot, st.floats(10, 3600), st.floats(1.5, 4))
def test_depth_goes_by_the_root_of_time(at: float, seconds: float, times: float) -> None:
    once, longer = decarb_depth(hold(at, seconds), 0.8), decarb_depth(hold(at, seconds * times**2), 0.8)
    assert longer.value == pytest.approx(times * once.value, rel=1e-9)


def test_pearlite_keeps_its_carbon() -> None:
    assert spread_over(hold(AUSTENITE - 1, 3600), 0.8).value == 0
    assert spread_over(hold(AUSTENITE + 1, 3600), 0.8).value > 0


def test_a_lost_probe_is_told_and_not_counted() -> None:
    readings = [Reading(0, 1473.0), Reading(60, 1473.0), Reading(61, None, "lost"), Reading(160, 1473.0)]
    depth = decarb_depth(readings, 0.8)
    assert depth.value == decarb_depth(hold(1473.0, 60), 0.8).value
    assert "100 s without a temperature" in Units.METRIC.text(depth.validity)


def test_the_depth_says_its_factor_of_two_and_the_allowance_follows() -> None:
    depth, allowance = (reckon(hold(kelvin(1150), 600), 0.9) for reckon in (decarb_depth, grinding_allowance))
    assert (depth.least, depth.most) == (depth.value / CARBON_FACTOR, depth.value * CARBON_FACTOR)
    assert (allowance.least, allowance.value, allowance.most) == (depth.least, depth.value, depth.most)
    assert depth.basis == "modelled"
    assert "factor of 2" in Units.METRIC.text(depth.validity)
    assert "Agren" in str(depth.source)


def test_a_deeper_share_lies_deeper() -> None:
    depths = [decarb_depth(hold(kelvin(1200), 600), 0.8, share).value for share in (0.5, 0.8, 0.95, 0.99)]
    assert depths == sorted(depths)


def test_a_thin_piece_without_a_core_is_told() -> None:
    depth = decarb_depth(hold(kelvin(1200), 600), 0.8).value
    assert not decarb_depth(hold(kelvin(1200), 600), 0.8, thickness=depth * 2.01).outside
    thin = decarb_depth(hold(kelvin(1200), 600), 0.8, thickness=depth * 1.99)
    assert thin.outside
    assert "both sides meet" in Units.METRIC.text(thin.validity)


def test_where_the_formula_was_not_found_is_told() -> None:
    assert diffusivity(kelvin(600), 0.8).outside
    assert "600 degC is outside" in Units.METRIC.text(diffusivity(kelvin(600), 0.8).validity)
    assert not diffusivity(kelvin(1200), 0.8).outside
    assert spread_over(hold(kelvin(1450), 60), 0.8).outside
    assert "1450 degC" in Units.METRIC.text(spread_over(hold(kelvin(1450), 60), 0.8).validity)


def test_without_a_carbon_content_the_textbook_speaks() -> None:
    assert diffusivity(kelvin(1100)).value == textbook_diffusivity(kelvin(1100))
    assert "Callister" in str(diffusivity(kelvin(1100)).source)
    assert diffusivity(kelvin(1100), 0.8).value == agren_diffusivity(kelvin(1100), 0.8)


@pytest.mark.parametrize("carbon", [-0.1, 5.0, nan, inf])
def test_impossible_carbon_says_what_is_possible(carbon: float) -> None:
    with pytest.raises(SteelError, match=r"carbon content.*from 0 to 2 %"):
        decarb_depth(hold(1473.0, 60), carbon)
    with pytest.raises(SteelError, match="from 0 to 2 %"):
        diffusivity(1473.0, carbon)


@pytest.mark.parametrize("at", [0.0, -5.0, nan, inf])
def test_impossible_temperatures(at: float) -> None:
    with pytest.raises(SteelError, match="above absolute zero"):
        diffusivity(at, 0.8)


def test_impossible_shares_and_contents() -> None:
    with pytest.raises(SteelError, match="from 0 to below 1"):
        depth_at_share(1.0, 1e-9)
    with pytest.raises(SteelError, match="from 0 up"):
        depth_at_share(0.5, -1e-9)
