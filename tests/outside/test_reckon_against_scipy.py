"""The reckoner's command line beside scipy: differential equations solved by its integrators, and its functions."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
import thermocouple_its90
from scipy.integrate import solve_ivp
from scipy.special import erfinv

Reckon = Callable[..., dict[str, Any]]

SIGMA = 5.670374419e-8  # W/(m2 K4), CODATA 2018
RHO = 7850.0  # kg/m3, EN 1993-1-2


def specific_heat(celsius: np.ndarray) -> np.ndarray:
    """EN 1993-1-2:2005 eq. 3.2 [J/(kg K)]."""
    c = np.clip(celsius, 20.0, 1200.0)
    rising, falling = 666 + 13002 / (738 - np.minimum(c, 735.0)), 545 + 17820 / (np.maximum(c, 735.0) - 731)
    cold = 425 + 0.773 * c - 1.69e-3 * c**2 + 2.22e-6 * c**3
    return np.select([c < 600, c < 735, c < 900], [cold, rising, falling], 650.0)


DEGREES = np.arange(600.0, 900.0, 0.02)
LINE = np.interp(DEGREES, (600.0, 900.0), (float(specific_heat(np.array(600.0))), 650.0))
TAKEN = np.concatenate(([0.0], np.cumsum((specific_heat(DEGREES) - LINE)[1:] * 0.02)))  # J/kg
PAST = np.clip((DEGREES - 660.0) / 40.0, 0.0, 1.0)
HELD = TAKEN + (TAKEN[-1] - TAKEN) * PAST**2 * (3 - 2 * PAST)
COOLED = LINE + np.gradient(HELD, DEGREES)


def cooled_specific_heat(celsius: np.ndarray) -> np.ndarray:
    """The same from above 900 degC: what the standard has above a line from 600 to 900 degC comes at 660 to 700."""
    inside = (celsius > 600.0) & (celsius < 900.0)
    return np.where(inside, np.interp(celsius, DEGREES, COOLED), specific_heat(celsius))


def conductivity(celsius: np.ndarray) -> np.ndarray:
    """EN 1993-1-2:2005 eq. 3.3 [W/(m K)]."""
    return np.where(celsius < 800, 54 - 3.33e-2 * np.maximum(celsius, 20.0), 27.3)


def round_bar(radius: float, start: float, around: float, convection: float, until: Callable[..., float]) -> float:
    """Seconds until an event in a long round bar, eps 0.8, by BDF over 60 rings; temperatures in degC."""
    count = 60
    heat = specific_heat if around > start else cooled_specific_heat
    edges = np.linspace(0.0, radius, count + 1)
    volumes, dr = np.diff(edges**2) / 2, edges[1]

    def rate(_: float, celsius: np.ndarray) -> np.ndarray:
        flow = np.zeros(count + 1)
        flow[1:-1] = edges[1:-1] * conductivity((celsius[1:] + celsius[:-1]) / 2) * np.diff(celsius) / dr
        skin = celsius[-1]
        radiated = 0.8 * SIGMA * ((around + 273.15) ** 4 - (skin + 273.15) ** 4)
        flow[-1] = radius * (radiated + convection * (around - skin))
        return np.diff(flow) / (volumes * RHO * heat(celsius))

    def event(_: float, celsius: np.ndarray) -> float:
        return until(celsius)

    event.terminal = True  # type: ignore[attr-defined]
    banded = np.abs(np.subtract.outer(np.arange(count), np.arange(count))) <= 1
    solved = solve_ivp(
        rate,
        (0, 3600),
        np.full(count, start),
        "BDF",
        events=event,
        jac_sparsity=banded,
        rtol=1e-5,
        atol=1e-2,
        max_step=5,
    )
    return float(solved.t_events[0][0])


@pytest.mark.parametrize(("diameter", "end"), [(12, 900), (25, 900), (25, 650), (40, 800), (12, 400)])
def test_cooling_of_a_round_bar(reckon: Reckon, diameter: int, end: int) -> None:
    expected = round_bar(diameter / 2000, 1250.0, 20.0, 10.0, lambda celsius: celsius[-1] - end)
    found = reckon(
        *("cooling", "--section", f"round {diameter} mm", "--from", "1250 degC", "--to", f"{end} degC"),
        *("--emissivity", "0.8", "--convection", "10 W/m^2/K"),
    )
    assert found["seconds"] == pytest.approx(expected, rel=0.01)


@pytest.mark.parametrize(("diameter", "fire", "middle"), [(12, 1250, 1200), (25, 1250, 1200), (40, 1100, 1000)])
def test_soak_of_a_round_bar(reckon: Reckon, diameter: int, fire: int, middle: int) -> None:
    expected = round_bar(diameter / 2000, 20.0, float(fire), 20.0, lambda celsius: middle - celsius[0])
    found = reckon(
        *("soak", "--section", f"round {diameter} mm", "--fire", f"{fire} degC", "--middle", f"{middle} degC"),
        *("--emissivity", "0.8"),
    )
    assert found["seconds"] == pytest.approx(expected, rel=0.01)


@pytest.mark.parametrize("share", [0.05, 0.5, 0.9, 0.95, 0.99])
def test_decarb_by_the_inverse_error_function(reckon: Reckon, share: float) -> None:
    found = reckon("carbon", "--carbon", "0.8", "--at", "1200 degC", "--for", "10 min", "--share", str(share))
    expected = 2 * float(erfinv(share)) * (found["diffusivity_m2_s"] * 600) ** 0.5
    assert found["decarb_depth_mm"] == pytest.approx(expected * 1000, rel=1e-6)


@pytest.mark.parametrize("seconds", [5, 20, 60, 120])
def test_layers_by_finite_volumes(reckon: Reckon, seconds: int) -> None:
    # Two half layers and the joint between them, closed at both ends by symmetry: one begins at 1, the other at 0.
    found = reckon("carbon", "--layer", "0.1 mm", "--at", "1100 degC", "--for", f"{seconds} s")
    count, layer = 200, 1e-4
    dx = layer / count
    start = np.where(np.arange(count) < count // 2, 1.0, 0.0)

    def rate(_: float, content: np.ndarray) -> np.ndarray:
        flow = np.concatenate(([0.0], np.diff(content), [0.0])) * found["diffusivity_m2_s"] / dx
        return np.diff(flow) / dx

    solved = solve_ivp(rate, (0, seconds), start, "LSODA", lband=1, uband=1, rtol=1e-8, atol=1e-10)
    assert found["remaining_fraction"] == pytest.approx(solved.y[0, -1] - solved.y[-1, -1], abs=1e-4)


@pytest.mark.parametrize("kind", "KNSRBJ")
def test_thermocouples_with_a_warm_cold_junction(reckon: Reckon, kind: str) -> None:
    # thermocouple-its90 (PyPI, MIT), made from NIST's own files: emfs are taken from one another.
    theirs = thermocouple_its90.get(kind)
    for celsius in range(300, 1101, 160):
        emf = theirs.emf(celsius) - theirs.emf(35.0)
        couple = ("thermocouple", "--type", kind, "--cold-junction", "35 degC")
        assert reckon(*couple, "--at", f"{celsius} degC")["millivolts"] == pytest.approx(emf, abs=1e-5)
        assert reckon(*couple, "--mv", repr(float(emf)))["celsius"] == pytest.approx(celsius, abs=0.01)
