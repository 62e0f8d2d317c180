"""The heat of the change to austenite and back, beside a calorimeter, and its two ways beside scipy."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from plans.shapes import Section
from plans.warmth.model import WarmModel
from plans.warmth.steel import ARREST, DENSITY, carbon_steel
from plans.warmth.surroundings import STEFAN_BOLTZMANN, fire, still_air

EMISSIVITY, IN_AIR, IN_FIRE = 0.8, 10.0, 20.0
DEGREES = np.arange(20.0, 1200.0, 0.02)


def test_the_heat_of_the_change_beside_a_calorimeter() -> None:
    # Hagel, Pound and Mehl, Calorimetric study of the austenite:pearlite transformation, Acta Metallurgica 4, 1956, in
    # its abstract: 19.6 cal/g for plain eutectoid steel at 727 degC, good to 5 %; 20.0 from thermodynamic tables.
    change = carbon_steel().transformation
    assert change is not None
    assert change.latent == pytest.approx(19.6 * 4184, rel=0.05)
    assert change.latent == pytest.approx(20.0 * 4184, rel=0.05)


def test_the_arrest_lies_below_the_temperature_of_the_change() -> None:
    # 727 degC for eutectoid steel (Hagel, as above): austenite never gives its heat back at or above that.
    assert max(ARREST) - 273.15 < 727


def parted() -> tuple[np.ndarray, np.ndarray, np.ndarray, float]:
    """Over `DEGREES`: specific heat without the change, and the shares of austenite up and down; heat of the change."""
    c = DEGREES
    rising, falling = 666 + 13002 / (738 - np.minimum(c, 735.0)), 545 + 17820 / (np.maximum(c, 735.0) - 731)
    whole = np.select(
        [c < 600, c < 735, c < 900], [425 + 0.773 * c - 1.69e-3 * c**2 + 2.22e-6 * c**3, rising, falling], 650.0
    )
    inside = (c >= 600) & (c < 900)
    line = np.interp(c, (600.0, 900.0), (666 + 13002 / 138, 650.0))
    bare = np.where(inside, line, whole)
    taken = np.cumsum((whole - bare) * 0.02)
    up = taken / taken[-1]
    past = np.clip((c - (ARREST[0] - 273.15)) / (ARREST[1] - ARREST[0]), 0.0, 1.0)
    return bare, up, 1 - (1 - up) * (1 - past**2 * (3 - 2 * past)), float(taken[-1])


BARE, UP, DOWN, LATENT = parted()
STEEPER_UP, STEEPER_DOWN = np.gradient(UP, DEGREES), np.gradient(DOWN, DEGREES)


def lumped(radius: float, start: tuple[float, float], around: float, until: float) -> tuple[float, float]:
    """Seconds of a long round bar from (temperature, share of austenite) to a temperature, and the share then."""
    convection = IN_FIRE if around > until else IN_AIR

    def rate(_: float, state: np.ndarray) -> tuple[float, float]:
        celsius, share = state
        radiated = EMISSIVITY * STEFAN_BOLTZMANN * ((around + 273.15) ** 4 - (celsius + 273.15) ** 4)
        watts = (radiated + convection * (around - celsius)) * 2 / radius / DENSITY
        steeper = 0.0
        if watts > 0 and share <= np.interp(celsius, DEGREES, UP):
            steeper = np.interp(celsius, DEGREES, STEEPER_UP)
        if watts < 0 and share >= np.interp(celsius, DEGREES, DOWN):
            steeper = np.interp(celsius, DEGREES, STEEPER_DOWN)
        faster = watts / (np.interp(celsius, DEGREES, BARE) + LATENT * steeper)
        return faster, steeper * faster

    def event(_: float, state: np.ndarray) -> float:
        return float(state[0] - until)

    event.terminal = True  # type: ignore[attr-defined]
    solved = solve_ivp(rate, (0, 1000), start, "RK45", events=event, max_step=0.05, rtol=1e-6)
    return float(solved.t_events[0][0]), float(solved.y_events[0][0][1])


@pytest.mark.slow
@pytest.mark.parametrize(
    "turns",
    [
        # Temperatures at which a bar is put into the fire or taken out, beginning cold.
        (20.0, 1000.0, 400.0),
        (20.0, 760.0, 400.0),
        (20.0, 1000.0, 685.0, 745.0, 400.0),
        (20.0, 760.0, 690.0, 740.0, 675.0, 790.0, 500.0),
    ],
)
def test_up_and_down_a_thin_bar_as_by_scipy(turns: tuple[float, ...]) -> None:
    # The share of austenite as a rate, where the program has it as a state: only the two curves are the same.
    model, share, step = WarmModel(Section.round(0.002), start=turns[0] + 273.15), 0.0, 0.01
    for begin, end in pairwise(turns):
        outside = fire(1050 + 273.15) if end > begin else still_air()
        expected, share = lumped(0.001, (begin, share), outside.radiating - 273.15, end)
        seconds, before = 0.0, model.mean
        while (model.mean - 273.15 < end) is (end > begin):
            before = model.mean
            model.step(step, outside)
            seconds += step
        seconds -= step * (model.mean - 273.15 - end) / (model.mean - before)
        assert seconds == pytest.approx(expected, rel=0.01)
        assert model.piece.mean(model.heat.latent) / LATENT == pytest.approx(share, abs=0.01)
