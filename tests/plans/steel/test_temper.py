"""Tempers: there and back again, one after another, and hardness only where there are points."""

from __future__ import annotations

from math import inf, nan

import pytest
from hypothesis import assume, given, strategies as st

from plans.steel.errors import SteelError
from plans.steel.hardness import COLDEST, HOTTEST, LEAST_CARBON, MOST_CARBON, SCATTER, tempered_hardness
from plans.steel.oxide import COLOURS, SPREAD, oxide_colour
from plans.steel.temper import (
    combined,
    constant,
    one_hour,
    parameter,
    temperature_for,
    time_for,
)
from plans.units import Units, kelvin

HOUR = 3600.0
temperatures = st.floats(kelvin(150), kelvin(400))
seconds = st.floats(60, 24 * HOUR)
constants = st.floats(12, 22)
tempers = st.tuples(temperatures, seconds)


@given(tempers, seconds, constants)
def test_another_time_and_back(temper: tuple[float, float], time: float, at: float) -> None:
    there = temperature_for([temper], time, at)
    assert temperature_for([(there, time)], temper[1], at) == pytest.approx(temper[0])
    assert time_for([(there, time)], temper[0], at) == pytest.approx(temper[1], rel=1e-6)


@given(tempers, st.floats(1, 20), constants)
def test_longer_asks_for_less_heat(temper: tuple[float, float], times: float, at: float) -> None:
    assert temperature_for([temper], temper[1] * times, at) <= temper[0] + 1e-9


@given(tempers, st.floats(0, 50), st.floats(1, 3), constants)
def test_hotter_and_longer_is_more(temper: tuple[float, float], hotter: float, longer: float, at: float) -> None:
    assert parameter(temper[0] + hotter, temper[1] * longer, at) >= parameter(*temper, at)


@given(tempers, st.floats(0.1, 0.9), constants)
def test_a_hold_cut_in_two_is_one_hold(temper: tuple[float, float], share: float, at: float) -> None:
    cut = [(temper[0], temper[1] * share), (temper[0], temper[1] * (1 - share))]
    assert combined(cut, at) == pytest.approx(parameter(*temper, at))


@given(st.lists(tempers, min_size=1, max_size=4), tempers, constants)
def test_one_more_temper_never_takes_back(
    done: list[tuple[float, float]], more: tuple[float, float], at: float
) -> None:
    assert combined([*done, more], at) >= combined(done, at) - 1e-9
    assert combined([*done, more], at) >= parameter(*more, at) - 1e-9


def test_a_cool_hold_after_a_hot_one_adds_next_to_nothing() -> None:
    hot, cool = (kelvin(300), HOUR), (kelvin(180), HOUR)
    assert combined([hot, cool], 15) == pytest.approx(parameter(*hot, 15), rel=1e-4)
    assert combined([cool, hot], 15) == pytest.approx(parameter(*hot, 15), rel=1e-4)


@given(tempers, constants)
def test_one_hour_is_its_own_measure(temper: tuple[float, float], at: float) -> None:
    assert one_hour(parameter(temper[0], HOUR, at), at) == pytest.approx(temper[0])
    assert parameter(one_hour(parameter(*temper, at), at), HOUR, at) == pytest.approx(parameter(*temper, at))


@given(st.floats(0, 2), st.floats(0, 0.5))
def test_more_carbon_never_has_a_larger_constant(carbon: float, more: float) -> None:
    assert constant(min(carbon + more, 2.0)).value <= constant(carbon).value + 1e-12
    assert 14 <= constant(carbon).value <= 20


def test_a_constant_without_data_is_told() -> None:
    assert not constant(0.8).outside
    assert constant(1.5).outside
    assert "1.5 % lies outside" in Units.METRIC.text(constant(1.5).validity)
    with pytest.raises(SteelError, match="from 0 to 2 %"):
        constant(nan)


@given(st.floats(LEAST_CARBON, MOST_CARBON), tempers, st.floats(1, 20))
def test_more_temper_is_never_harder(carbon: float, temper: tuple[float, float], hotter: float) -> None:
    try:
        before = tempered_hardness(carbon, [temper])
        after = tempered_hardness(carbon, [(temper[0] + hotter, temper[1])])
    except SteelError:
        assume(False)
    assert after.value < before.value
    assert (before.least, before.most) == (before.value - SCATTER, before.value + SCATTER)


@given(st.floats(LEAST_CARBON, MOST_CARBON), st.floats(0, 0.3))
def test_more_carbon_is_never_softer(carbon: float, more: float) -> None:
    # One hour, where the constant plays no part.
    richer = min(carbon + more, MOST_CARBON)
    hold = [(kelvin(200), HOUR)]
    assert tempered_hardness(richer, hold).value >= tempered_hardness(carbon, hold).value - 1e-9


def test_two_tempers_are_a_little_softer_than_one() -> None:
    hold = (kelvin(200), 2 * HOUR)
    once, twice = tempered_hardness(0.9, [hold]), tempered_hardness(0.9, [hold, hold])
    assert 0.2 < once.value - twice.value < 1


def test_hardness_is_not_extrapolated() -> None:
    assert tempered_hardness(0.9, [(COLDEST, HOUR)]).value > tempered_hardness(0.9, [(HOTTEST, HOUR)]).value
    for at in (COLDEST - 1, HOTTEST + 1):
        with pytest.raises(SteelError, match=r"measurements from 148 degC \(298 degF\) to 316 degC"):
            tempered_hardness(0.9, [(at, HOUR)])
    for carbon in (0.2, 1.4, nan):
        with pytest.raises(SteelError, match=r"not extrapolated: there are measurements from 0.45 to 1.15 %C"):
            tempered_hardness(carbon, [(kelvin(200), HOUR)])


def test_how_thin_the_data_is_is_told() -> None:
    hardness = tempered_hardness(0.9, [(kelvin(200), HOUR)])
    assert "from 36 points and none between" in Units.METRIC.text(hardness.validity)
    assert "fully hardened" in Units.METRIC.text(hardness.validity)
    assert hardness.basis == "modelled"


@pytest.mark.parametrize("at", [0.0, -1.0, kelvin(800), nan, inf])
def test_impossible_temperatures(at: float) -> None:
    with pytest.raises(SteelError, match="up to 727 degC"):
        parameter(at, HOUR, 20)


@pytest.mark.parametrize("time", [0.0, -1.0, 0.5, 1e9, nan, inf])
def test_impossible_times(time: float) -> None:
    with pytest.raises(SteelError, match="from 1 s to 1000 h"):
        parameter(kelvin(200), time, 20)
    with pytest.raises(SteelError, match="from 1 s to 1000 h"):
        temperature_for([(kelvin(200), HOUR)], time, 20)


def test_tempers_that_no_one_can_make() -> None:
    hold = [(kelvin(220), HOUR)]
    with pytest.raises(SteelError, match="less than 1 s"):
        time_for(hold, kelvin(600), 20)
    with pytest.raises(SteelError, match="more than 1000 h"):
        time_for(hold, kelvin(60), 20)
    with pytest.raises(SteelError, match=r"would need .* give it longer"):
        temperature_for([(kelvin(700), 100 * HOUR)], 1, 20)
    with pytest.raises(SteelError, match="at least one"):
        combined([], 20)


def test_colours_come_in_order_and_only_where_the_table_has_them() -> None:
    assert [colour.kelvin for colour in COLOURS] == sorted(colour.kelvin for colour in COLOURS)
    assert all(oxide_colour(colour.kelvin) is colour for colour in COLOURS)
    assert oxide_colour(COLOURS[0].kelvin - SPREAD - 1) is None
    assert oxide_colour(COLOURS[-1].kelvin + SPREAD + 1) is None
    assert oxide_colour(COLOURS[0].kelvin - SPREAD + 1) is COLOURS[0]
