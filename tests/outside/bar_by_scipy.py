"""A bar that warms or cools, by plain finite volumes and scipy's solve_ivp: what forecasts are held against."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from scipy.integrate import solve_ivp

from plans.section import Section
from plans.warmth.bar import BarShape
from plans.warmth.steel import DENSITY
from plans.warmth.surroundings import Surroundings, fire

COLD, FIRE, SOAKED, LIMIT = (celsius + 273.15 for celsius in (20.0, 1250.0, 1200.0, 900.0))
"""Work from the rack, the fire, the middle when it is soaked, and the coldest skin to be struck [K]."""
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
