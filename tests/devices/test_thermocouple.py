"""Thermocouples: both ways invert, and every error says the range."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from devices.errors import DeviceError
from devices.thermocouple import (
    Kind,
    emf,
    inverse_range,
    kind_of,
    reference_range,
    temperature,
    tolerance,
    wire_limit,
    wire_limits,
)
from plans.units import kelvin

kinds = st.sampled_from(Kind)
shares = st.floats(0, 1)
benches = st.floats(kelvin(0), kelvin(60))


def within(kind: Kind, share: float) -> float:
    known = inverse_range(kind)
    return known.lowest + share * (known.highest - known.lowest)


@given(kinds, shares, benches)
def test_a_temperature_comes_back_from_its_emf_whatever_the_cold_junction(
    kind: Kind, share: float, cold_junction: float
) -> None:
    warm = within(kind, share)
    assert temperature(kind, emf(kind, warm, cold_junction), cold_junction) == pytest.approx(warm, abs=1e-6)


@given(kinds, shares)
def test_an_emf_comes_back_from_its_temperature(kind: Kind, share: float) -> None:
    low, high = (emf(kind, end) for end in (inverse_range(kind).lowest, inverse_range(kind).highest))
    volts = low + share * (high - low)
    assert emf(kind, temperature(kind, volts)) == pytest.approx(volts, abs=1e-12)


@given(kinds, shares, st.floats(0.01, 1))
def test_warmer_gives_more(kind: Kind, share: float, more: float) -> None:
    warm = within(kind, share)
    warmer = min(warm + more, inverse_range(kind).highest)
    # Less than a microkelvin is lost in the last digits.
    assert emf(kind, warmer) > emf(kind, warm) or warmer - warm < 1e-6


@given(kinds, benches)
def test_no_difference_no_emf(kind: Kind, bench: float) -> None:
    assert emf(kind, bench, bench) == 0


@given(st.sampled_from([kind for kind in Kind if kind is not Kind.B]), shares, st.floats(kelvin(1), kelvin(50)))
def test_a_cold_junction_taken_for_colder_than_it_is_reads_low(kind: Kind, share: float, junction: float) -> None:
    warm = kelvin(100) + share * (reference_range(kind).highest - kelvin(100))
    measured = emf(kind, warm, junction)
    assert temperature(kind, measured) < warm
    assert temperature(kind, measured, junction) == pytest.approx(warm, abs=1e-6)


def test_type_b_turns_round_near_21_degrees_and_is_not_inverted_there() -> None:
    assert emf(Kind.B, kelvin(21)) < emf(Kind.B, kelvin(0)) == 0
    assert emf(Kind.B, kelvin(21)) < emf(Kind.B, kelvin(42))
    with pytest.raises(DeviceError, match=r"250 to 1820 degC.*two temperatures"):
        temperature(Kind.B, emf(Kind.B, kelvin(100)))


@pytest.mark.parametrize(
    ("kind", "celsius", "said"),
    [
        (Kind.K, 1372.1, r"type K.*1372.1 degC \(2501.78 degF\).*-270 to 1372 degC \(-454 to 2501.6 degF\).*Choose"),
        (Kind.K, -271, "type K.*-270 to 1372 degC"),
        (Kind.B, -1, "type B.*0 to 1820 degC"),
        (Kind.S, float("nan"), "type S.*-50 to 1768.1 degC"),
    ],
)
def test_a_temperature_out_of_range_says_the_range(kind: Kind, celsius: float, said: str) -> None:
    with pytest.raises(DeviceError, match=said):
        emf(kind, kelvin(celsius))


def test_the_ends_as_tables_print_them_are_within_the_range() -> None:
    # A little beyond what the function gives.
    assert temperature(Kind.N, 0.047513) == pytest.approx(kelvin(1300), abs=1e-6)
    assert temperature(Kind.B, 0.000291) == pytest.approx(kelvin(250), abs=0.2)


@pytest.mark.parametrize("millivolts", [54.9, -6.5, 1e6, float("nan"), float("inf")])
def test_an_emf_out_of_range_says_the_range(millivolts: float) -> None:
    with pytest.raises(
        DeviceError, match=r"-6.458 to 54.886 mV, which is -270 to 1372 degC \(-454 to 2501.6 degF\).*[Cc]heck"
    ):
        temperature(Kind.K, millivolts / 1000)


def test_a_cold_junction_out_of_range_says_so() -> None:
    with pytest.raises(DeviceError, match=r"cold junction of -5 degC.*0 to 1820 degC"):
        temperature(Kind.B, 0.005, kelvin(-5))


def test_letters() -> None:
    assert kind_of(" k") is Kind.K
    with pytest.raises(DeviceError, match=r"'Q'.*K, N, S, R, B, J"):
        kind_of("Q")


@given(kinds, st.sampled_from([1, 2]), st.floats(0, 1))
def test_a_better_class_allows_no_more(kind: Kind, number: int, share: float) -> None:
    if kind is Kind.B:
        return
    warm = kelvin(share * 750)
    assert tolerance(kind, 1, warm).value <= tolerance(kind, 2, warm).value
    assert tolerance(kind, number, warm).basis == ("from memory" if kind is Kind.J else "published")


def test_a_class_that_says_nothing_says_so() -> None:
    with pytest.raises(DeviceError, match=r"nothing about 1100 degC \(2012 degF\), only about -40 to 1000 degC"):
        tolerance(Kind.K, 1, kelvin(1100))
    with pytest.raises(DeviceError, match=r"no tolerance class 1 is known. Choose class 2"):
        tolerance(Kind.B, 1, kelvin(1100))
    with pytest.raises(DeviceError, match="class 1 or 2"):
        tolerance(Kind.R, 3, kelvin(100))


@given(kinds, st.floats(0.3e-3, 5e-3), st.floats(1, 3))
def test_a_thicker_wire_stands_no_less(kind: Kind, diameter: float, times: float) -> None:
    thicker = wire_limit(kind, diameter * times * 1.7).value
    assert thicker <= wire_limits(kind)[0][1].value
    try:
        thinner = wire_limit(kind, diameter).value
    except DeviceError:
        assert diameter < 0.5e-3
    else:
        assert thinner <= thicker


def test_a_wire_thinner_than_any_in_the_standard_says_what_is_known() -> None:
    with pytest.raises(DeviceError, match=r"wire of 0.3 mm \(0.012 in\), only from 0.32 mm \(0.013 in\)"):
        wire_limit(Kind.K, 0.3e-3)
