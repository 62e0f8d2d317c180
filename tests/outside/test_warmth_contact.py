"""What tools take by touching again and again, beside touches that scipy solves; and still air in a textbook."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.sparse import block_diag, csc_matrix, diags

from plans.blows import USUAL, Blows, StruckBy
from plans.warmth.contact import CONDUCTANCE, averaged
from plans.warmth.natural_convection import natural_convection

WORK, TOOL = (27.3, 7850.0 * 650.0), (40.0, 7850.0 * 500.0)
"""Conductivity [W/(m K)] and heat in a cubic metre [J/(m3 K)] of hot work, and of an anvil or a die."""


def faces_and_middles(thick: float) -> tuple[np.ndarray, np.ndarray]:
    faces = np.linspace(0.0, thick, 121)
    return np.diff(faces), (faces[1:] + faces[:-1]) / 2


def touched(half: float, conductance: float, blows: Blows, count: int) -> float:
    """What a plate of a half-thickness loses of 1000 K in the mean, by touches that are solved one by one [K].

    Between them the tool comes back to its own temperature.
    """
    (deep, middle), (below, under) = faces_and_middles(half), faces_and_middles(0.03)
    cells = len(deep)
    alone, tool = conducting(WORK, deep, middle), conducting(TOOL, below, under)
    both = block_diag([alone, tool], format="lil")
    passed = 1.0 / (1 / conductance + middle[0] / WORK[0] + under[0] / TOOL[0])
    for here, there, heat in ((0, cells, WORK[1] * deep[0]), (cells, 0, TOOL[1] * below[0])):
        both[here, here] -= passed / heat
        both[here, there] += passed / heat
    work = np.full(cells, 1000.0)
    for _ in range(count):
        work = later(both, np.concatenate([work, np.zeros(len(below))]), blows.seconds)[:cells]
        work = later(alone, work, blows.every - blows.seconds)
    return float(1000.0 - work @ deep / half)


def evenly(half: float, conductance: float, seconds: float) -> float:
    """What it loses in the mean through one conductance all along [K]."""
    deep, middle = faces_and_middles(half)
    losing = conducting(WORK, deep, middle).tolil()
    losing[0, 0] -= 1.0 / (1 / conductance + middle[0] / WORK[0]) / (WORK[1] * deep[0])
    return float(1000.0 - later(losing, np.full(len(deep), 1000.0), seconds) @ deep / half)


def conducting(material: tuple[float, float], deep: np.ndarray, middle: np.ndarray) -> csc_matrix:
    """What the temperatures of cells make of their own rates, as conduction alone does; nothing passes either end."""
    conductivity, heat = material
    between = conductivity / np.diff(middle)
    out = -np.concatenate([[0.0], between]) - np.concatenate([between, [0.0]])
    passing = diags([between, out, between], [-1, 0, 1])
    return csc_matrix(diags(1 / (heat * deep)) @ passing)


def later(rates: Any, kelvin: np.ndarray, seconds: float) -> np.ndarray:
    """Temperatures after some seconds, of which the rates are linear."""
    rates = csc_matrix(rates)
    solved = solve_ivp(lambda _, now: rates @ now, (0, seconds), kelvin, "BDF", jac=rates, rtol=1e-5, atol=1e-2)
    return np.asarray(solved.y[:, -1])


@pytest.mark.parametrize("half", [0.004, 0.0125])
@pytest.mark.parametrize(
    ("blows", "times"),
    [
        (USUAL[StruckBy.PRESS], 1.0),
        (USUAL[StruckBy.PRESS], 1 / 3),
        (USUAL[StruckBy.PRESS], 3.0),
        (Blows(StruckBy.PRESS, 0.5, 2.0), 1.0),
        (Blows(StruckBy.PRESS, 2.0, 4.0), 1.0),
        (USUAL[StruckBy.POWER_HAMMER], 1.0),
        (USUAL[StruckBy.HAND], 3.0),
    ],
)
def test_touches_take_what_their_average_takes(half: float, blows: Blows, times: float) -> None:
    count = 3
    expected = touched(half, CONDUCTANCE[blows.by] * times, blows, count)
    assert evenly(half, averaged(blows, times), count * blows.every) == pytest.approx(expected, rel=0.055)


def test_a_steam_pipe_in_still_air() -> None:
    # Incropera et al., 6th ed., Example 9.4, from memory: a horizontal pipe of 0.1 m at 165 degC in air of 23 degC has
    # a Nusselt number of 23.3, with 0.0313 W/(m K) for the air: 7.29 W/(m2 K).
    assert natural_convection(0.1, 165 + 273.15, 23 + 273.15) == pytest.approx(7.29, rel=0.02)
