"""What tools take by touching again and again, beside touches that scipy solves; and still air in a textbook."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from plans.blows import USUAL, Blows, StruckBy
from plans.warmth.contact import CONDUCTANCE, averaged
from plans.warmth.natural_convection import natural_convection

WORK, TOOL = (27.3, 7850.0 * 650.0), (40.0, 7850.0 * 500.0)
"""Conductivity [W/(m K)] and heat in a cubic metre [J/(m3 K)] of hot work, and of an anvil or a die."""


def one_touch(conductance: float, seconds: float, apart: float) -> float:
    """Heat that one square metre of a thick tool takes in one touch [J/m2]: two half-spaces, 200 cells each."""
    count = 200
    faces = 0.03 * (np.arange(count + 1) / count) ** 2
    deep, middle = np.diff(faces), (faces[1:] + faces[:-1]) / 2

    def rate(_: float, state: np.ndarray) -> np.ndarray:
        both = []
        work, tool = state[:count], state[count : 2 * count]
        resistance = 1 / conductance + middle[0] / WORK[0] + middle[0] / TOOL[0]
        through = (work[0] - tool[0]) / resistance
        for kelvin, (conductivity, heat), sign in ((work, WORK, -1.0), (tool, TOOL, 1.0)):
            flow = np.concatenate([[sign * through], -conductivity * np.diff(kelvin) / np.diff(middle), [0.0]])
            both.append(-np.diff(flow) / heat / deep)
        return np.concatenate([*both, [through]])

    start = np.concatenate([np.full(count, apart), np.zeros(count + 1)])
    return float(solve_ivp(rate, (0, seconds), start, "BDF", rtol=1e-6, atol=1e-3).y[-1, -1])


@pytest.mark.parametrize(
    "blows",
    [
        *USUAL.values(),
        Blows(StruckBy.PRESS, 0.3, 3.0),
        Blows(StruckBy.PRESS, 3.0, 6.0),
        Blows(StruckBy.HAND, 0.05, 0.5),
    ],
)
@pytest.mark.parametrize("times", [1 / 3, 1.0, 3.0])
def test_the_mean_of_many_touches(blows: Blows, times: float) -> None:
    # Half-spaces that come to rest between touches; the program has one conductance in their place.
    apart = 1000.0
    expected = one_touch(CONDUCTANCE[blows.by] * times, blows.seconds, apart) / blows.every / apart
    assert averaged(blows, times) == pytest.approx(expected, rel=0.01)


def test_a_steam_pipe_in_still_air() -> None:
    # Incropera et al., 6th ed., Example 9.4, from memory: a horizontal pipe of 0.1 m at 165 degC in air of 23 degC has
    # a Nusselt number of 23.3, with 0.0313 W/(m K) for the air: 7.29 W/(m2 K).
    assert natural_convection(0.1, 165 + 273.15, 23 + 273.15) == pytest.approx(7.29, rel=0.02)
