"""Thermocouples against the published tables, and against another library over the whole range."""

from __future__ import annotations

from math import ceil, floor
from typing import Any

import pytest
import thermocouple_its90
from thermocouple_its90 import _data as published

from devices.thermocouple import (
    Kind,
    emf,
    inverse_range,
    reference_range,
    temperature,
    tolerance,
    wire_limit,
    wire_limits,
)
from plans.units import celsius, kelvin

PUBLISHED: dict[str, Any] = published.TYPES

# NIST ITS-90 thermocouple database, SRD 60, the tables by whole degrees (= NIST Monograph 175, 1993 = IEC 60584-1),
# reference junction at 0 degC; printed to 0.001 mV.
TABLE = [
    (Kind.K, 500, 20.644),
    (Kind.K, 1000, 41.276),
    (Kind.K, 1200, 48.838),
    (Kind.K, 1300, 52.410),
    (Kind.N, 1300, 47.513),
    (Kind.S, 1000, 9.587),
    (Kind.S, 1300, 13.159),
    (Kind.R, 1000, 10.506),
    (Kind.B, 1300, 7.848),
    (Kind.J, 750, 42.281),
]


@pytest.mark.parametrize(("kind", "degrees", "millivolts"), TABLE)
def test_emf_by_the_nist_tables(kind: Kind, degrees: float, millivolts: float) -> None:
    assert emf(kind, kelvin(degrees)) * 1000 == pytest.approx(millivolts, abs=0.0005)


@pytest.mark.parametrize(("kind", "degrees", "millivolts"), TABLE)
def test_temperature_by_the_nist_tables(kind: Kind, degrees: float, millivolts: float) -> None:
    # Half a unit of the last printed place is 0.08 degC for a type S; 0.01 for a K.
    slope = (emf(kind, kelvin(degrees)) - emf(kind, kelvin(degrees - 1))) * 1000
    assert celsius(temperature(kind, millivolts / 1000)) == pytest.approx(degrees, abs=0.0005 / slope * 1.01)


@pytest.mark.parametrize("kind", Kind)
def test_the_whole_range_against_another_library(kind: Kind) -> None:
    # thermocouple-its90 1.0 (PyPI, MIT), parsed from NIST's own files and checked by its author against all 12,026
    # points of the NIST tables; at every quarter of a degree, and at both sides of each join.
    theirs = thermocouple_its90.get(kind.value)
    low, high = theirs.range
    assert (celsius(reference_range(kind).lowest), celsius(reference_range(kind).highest)) == pytest.approx((low, high))
    joins = [piece["t_max_c"] for piece in PUBLISHED[kind.value]["forward"]]
    # On a join itself, a rounding decides which piece speaks, and they differ by a tenth of a nanovolt.
    grid = [at for at in (low + i / 4 for i in range(int((high - low) * 4) + 1)) if at not in joins]
    for degrees in [*grid, high, *(join - 1e-6 for join in joins), *(join + 1e-6 for join in joins[:-1])]:
        volts = emf(kind, kelvin(degrees))
        assert volts * 1000 == pytest.approx(theirs.emf(degrees), abs=1e-9)
        if kelvin(degrees) in inverse_range(kind):
            assert celsius(temperature(kind, volts)) == pytest.approx(degrees, abs=1e-4)


def test_ours_lies_within_the_printed_error_of_nists_inverse_polynomial() -> None:
    # NIST type_k.tab prints the error of its inverse for 500 to 1372 degC as -0.05 to 0.06 degC, rounded away from
    # zero: so far apart, and hardly less, must that polynomial and an exact inversion be.
    inverse = PUBLISHED["K"]["inverse"][2]
    apart = []
    for degrees in range(500, 1373):
        millivolts = emf(Kind.K, kelvin(degrees)) * 1000
        polynomial = sum(term * millivolts**power for power, term in enumerate(inverse["coeffs"]))
        apart.append(polynomial - celsius(temperature(Kind.K, millivolts / 1000)))
    assert floor(min(apart) * 100) / 100 == -0.05
    assert ceil(max(apart) * 100) / 100 == 0.06


def test_a_cold_junction_is_added_as_emf() -> None:
    # NIST K table: 41.276 mV at 1000 degC, 1.000 mV at 25 degC: 40.276 mV measured.
    assert celsius(temperature(Kind.K, 40.275758e-3, kelvin(25))) == pytest.approx(1000.0, abs=0.05)


def test_an_ignored_cold_junction() -> None:
    # Worked out elsewhere from the NIST functions: type K at 1250 degC, junction at 30 degC taken for 0.
    read = temperature(Kind.K, emf(Kind.K, kelvin(1250), kelvin(30)))
    assert read - kelvin(1250) == pytest.approx(-33.44, abs=0.1)


@pytest.mark.parametrize(
    ("kind", "number", "degrees", "expected"),
    [
        (Kind.K, 1, 1000, 4.0),
        (Kind.K, 2, 1200, 9.0),
        (Kind.S, 1, 1200, 1.3),
        (Kind.S, 1, 500, 1.0),
        (Kind.B, 2, 1200, 3.0),
    ],
)
def test_tolerances(kind: Kind, number: int, degrees: float, expected: float) -> None:
    # IEC 60584-1:2013, table of tolerances (formerly IEC 60584-2).
    assert tolerance(kind, number, kelvin(degrees)).value == pytest.approx(expected, abs=0.05)


@pytest.mark.parametrize("kind", [Kind.K, Kind.N])
def test_protected_wire_of_base_metal(kind: Kind) -> None:
    # ASTM E230, upper limits for protected thermocouples: 8 AWG, 3.25 mm, 2300 degF.
    assert celsius(wire_limit(kind, 3.25e-3).value) == pytest.approx(1260, abs=10)
    # The same: 14 AWG 2000 degF, 20 AWG 1800 degF.
    assert celsius(wire_limit(kind, 1.63e-3).value) == pytest.approx(1093, abs=10)
    assert celsius(wire_limit(kind, 0.81e-3).value) == pytest.approx(982, abs=10)
    # The same as a maker prints it (Watlow, Sensor and Controller Catalog): 24 AWG, 0.51 mm, and 28 AWG, 0.32 mm,
    # 1600 degF (870 degC).
    assert celsius(wire_limit(kind, 0.51e-3).value) == pytest.approx(870, abs=1)
    assert celsius(wire_limit(kind, 0.32e-3).value) == pytest.approx(870, abs=1)


@pytest.mark.parametrize(("wire", "fahrenheit"), [(3.26, 1400), (1.63, 1100), (0.81, 900), (0.51, 700), (0.32, 700)])
def test_protected_wire_of_iron_and_constantan(wire: float, fahrenheit: float) -> None:
    # The same table, type J, 8 to 28 AWG.
    assert celsius(wire_limit(Kind.J, wire / 1000).value) == pytest.approx((fahrenheit - 32) / 1.8, abs=2)


@pytest.mark.parametrize("kind", [Kind.S, Kind.R])
def test_protected_wire_of_platinum(kind: Kind) -> None:
    # ASTM E230: 24 AWG, 2700 degF.
    assert celsius(wire_limits(kind)[0][1].value) == pytest.approx(1480, abs=10)
