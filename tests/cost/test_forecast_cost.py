"""What a forecast costs and how exact it is, beside scipy's solve_ivp on the same bar in the same run."""

from __future__ import annotations

from collections.abc import Callable
from statistics import median
from time import perf_counter

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from plans.section import Section
from plans.warmth.bar import BarShape
from plans.warmth.forecast import hammer_time, skin_time, soak_time
from plans.warmth.model import WarmModel
from plans.warmth.steel import DENSITY
from plans.warmth.surroundings import Surroundings, fire, still_air

COLD, FIRE, SOAKED, LIMIT = (celsius + 273.15 for celsius in (20.0, 1250.0, 1200.0, 900.0))
SECTIONS = [
    Section(0.0254, 0.0254),
    Section(0.030, 0.010),
    Section(0.050, 0.025),
    Section(0.025, 0.025, is_round=True),
    Section(0.006, 0.006),
    Section(0.080, 0.080),
]


def specific_heat(kelvin: np.ndarray) -> np.ndarray:
    """EN 1993-1-2:2005 eq. 3.2, over arrays."""
    c = np.clip(kelvin - 273.15, 20.0, 1200.0)
    rising = 666 + 13002 / (738 - np.minimum(c, 735.0))
    falling = 545 + 17820 / (np.maximum(c, 735.0) - 731)
    cold = 425 + 0.773 * c - 1.69e-3 * c**2 + 2.22e-6 * c**3
    return np.select([c < 600, c < 735, c < 900], [cold, rising, falling], 650.0)


def conductivity(kelvin: np.ndarray) -> np.ndarray:
    """EN 1993-1-2:2005 eq. 3.3, over arrays."""
    return np.where(kelvin < 800 + 273.15, 54 - 3.33e-2 * np.maximum(kelvin - 273.15, 20.0), 27.3)


def reference(
    shape: BarShape, start: float, around: Surroundings, seen: Callable[[np.ndarray, float], float], cells: int
) -> float:
    """Seconds until `seen` of cells and skin crosses zero: plain finite volumes in temperature, LSODA with a band."""
    edges = np.linspace(0.0, shape.half_thickness, cells + 1)
    p, dx = shape.exponent, edges[1]
    areas = (edges / shape.half_thickness) ** p
    volumes = np.diff(edges ** (p + 1)) / (p + 1) / shape.half_thickness**p

    def skin_of(outermost: float) -> float:
        skin = outermost
        for _ in range(6):
            through = 2 * float(conductivity(np.array((skin + outermost) / 2))) / dx
            skin += (around.flux(skin) - through * (skin - outermost)) / (through + around.coefficient(skin))
        return skin

    def rate(_: float, kelvin: np.ndarray) -> np.ndarray:
        flow = np.zeros(cells + 1)
        flow[1:-1] = areas[1:-1] * conductivity((kelvin[1:] + kelvin[:-1]) / 2) * np.diff(kelvin) / dx
        flow[-1] = around.flux(skin_of(kelvin[-1]))
        return np.diff(flow) / (volumes * DENSITY * specific_heat(kelvin))

    def event(_: float, kelvin: np.ndarray) -> float:
        return seen(kelvin, skin_of(kelvin[-1]))

    event.terminal = True  # type: ignore[attr-defined]
    solved = solve_ivp(
        rate,
        (0.0, 3000.0),
        np.full(cells, start),
        method="LSODA",
        rtol=1e-6,
        atol=1e-3,
        max_step=5.0,
        lband=1,
        uband=1,
        events=event,
    )
    return float(solved.t_events[0][0])


def soak_in(cells: int, section: Section) -> float:
    def left(kelvin: np.ndarray, _: float) -> float:
        return SOAKED - (9 * kelvin[0] - kelvin[1]) / 8

    return reference(BarShape.of(section), COLD, fire(FIRE), left, cells)


@pytest.mark.parametrize("section", SECTIONS)
def test_forecasts_are_within_1_percent_of_a_fine_reference(section: Section) -> None:
    cold, hot = WarmModel(section, None, COLD), WarmModel(section, None, FIRE)
    shape = BarShape.of(section)
    assert soak_time(cold, fire(FIRE), SOAKED) == pytest.approx(soak_in(60, section), rel=0.01)
    skin = reference(shape, COLD, fire(FIRE), lambda _, skin: SOAKED - skin, 60)
    assert skin_time(cold, fire(FIRE), SOAKED) == pytest.approx(skin, rel=0.01)
    left = reference(shape, FIRE, still_air(COLD), lambda _, skin: skin - LIMIT, 60)
    assert hammer_time(hot, still_air(COLD), LIMIT) == pytest.approx(left, rel=0.01)


def cost(forecast: Callable[[], object]) -> float:
    begun = perf_counter()
    forecast()
    return perf_counter() - begun


def test_a_soak_forecast_costs_a_fraction_of_scipy() -> None:
    section = SECTIONS[0]
    model = WarmModel(section, None, COLD)

    # Side by side, and as few cells for scipy as for us, though it is less exact with them.
    pairs = [
        (cost(lambda: soak_time(model, fire(FIRE), SOAKED)), cost(lambda: soak_in(model.bar.count, section)))
        for _ in range(7)
    ]
    ratio = median(theirs for _, theirs in pairs) / median(ours for ours, _ in pairs)
    assert ratio > 20


@pytest.mark.parametrize("section", SECTIONS)
def test_a_forecast_through_the_arrest_costs_no_more_than_a_soak(section: Section) -> None:
    # Until the work is black and cold, with the arrest on the way.
    cold, hot = WarmModel(section, None, COLD), WarmModel(section, None, FIRE)
    pairs = [
        (
            cost(lambda: hammer_time(hot, still_air(COLD), 400 + 273.15)),
            cost(lambda: soak_time(cold, fire(FIRE), SOAKED)),
        )
        for _ in range(15)
    ]
    assert median(ours for ours, _ in pairs) < 1.5 * median(theirs for _, theirs in pairs)
