"""Conduction beside pychemengg (PyPI, MIT), which sums the series solutions of the textbooks."""

from __future__ import annotations

import warnings
from collections.abc import Callable
from math import pi

import pytest
from pychemengg.heattransfer import transient

from plans.warmth.bar import BarShape
from plans.warmth.lumped import biot_number, cooling_time
from plans.warmth.material import Material
from plans.warmth.surroundings import Surroundings

StateAt = Callable[[BarShape, Material, float, Surroundings, float], tuple[float, float]]

# Steel at forging heat with constant properties; the library takes any scale of temperature.
K, RHO, C = 27.3, 7850.0, 650.0
STEEL = Material.constant(RHO, C, K)
HALF = 0.0125  # m
START, AROUND = 1523.15, 293.15  # K
BODIES = {
    0: (transient.NonLumpedSlab, {"thickness": 2 * HALF}, "xposition_tofindtemp"),
    1: (transient.NonLumpedCylinder, {"radius": HALF}, "rposition_tofindtemp"),
    2: (transient.NonLumpedSphere, {"radius": HALF}, "rposition_tofindtemp"),
}


def series(exponent: int, coefficient: float, seconds: float) -> tuple[float, float]:
    """Middle and skin by the library [K]."""
    body, size, position = BODIES[exponent]
    solid = body(
        **size,
        surfacearea=1.0,
        volume=1.0,
        density=RHO,
        specificheat=C,
        thermalconductivity=K,
        heattransfercoefficient=coefficient,
        T_infinity=AROUND,
        T_initial=START,
    )
    solid.calc_Bi()
    solid.calc_Fo(time=seconds)
    with warnings.catch_warnings():
        # Its search for the roots runs over the poles between them.
        warnings.simplefilter("ignore")
        solid.calc_eigenvalues(numberof_eigenvalues_desired=20)
    # Its formulas for round bodies divide by the radius, and are 0/0 in the very middle of a sphere.
    middle, skin = (float(solid.calc_temperature_of_solid_at_time_t(**{position: at})) for at in (1e-6 * HALF, HALF))
    return middle, skin


@pytest.mark.parametrize("exponent", BODIES)
@pytest.mark.parametrize(("coefficient", "seconds"), [(200.0, 20.0), (200.0, 90.0), (2000.0, 5.0), (2000.0, 30.0)])
def test_middle_and_skin_in_a_stream(state_at: StateAt, exponent: int, coefficient: float, seconds: float) -> None:
    stream = Surroundings(AROUND, AROUND, 0.0, coefficient)
    ours = state_at(BarShape(HALF, exponent), STEEL, START, stream, seconds)
    assert ours == pytest.approx(series(exponent, coefficient, seconds), abs=0.05)


def test_lumped_cooling_and_biot_number() -> None:
    side, length, coefficient = 0.0254, 0.1, 150.0
    solid = transient.LumpedSystem(
        surfacearea=4 * side * length + 2 * side**2,
        volume=side**2 * length,
        density=RHO,
        specificheat=C,
        thermalconductivity=K,
        heattransfercoefficient=coefficient,
        T_infinity=AROUND,
        T_initial=START,
    )
    volume_for_area = side**2 * length / (4 * side * length + 2 * side**2)
    shape = BarShape(volume_for_area, 0.0)
    assert biot_number(shape, coefficient, K) == pytest.approx(solid.calc_Bi(), rel=1e-9)
    for seconds in (10.0, 60.0, 300.0):
        then = float(solid.calc_temperature_of_solid_at_time_t(time=seconds))
        stream = Surroundings(AROUND, AROUND, 0.0, coefficient)
        assert cooling_time(START, then, shape, stream, STEEL) == pytest.approx(seconds, rel=1e-4)


def test_volume_for_area_of_round_bodies() -> None:
    # The library is told volume and area; ours come from the shape: r/2 for a long cylinder, r/3 for a ball.
    cylinder = transient.LumpedSystem(
        surfacearea=2 * pi * HALF,
        volume=pi * HALF**2,
        thermalconductivity=K,
        heattransfercoefficient=100.0,
        density=RHO,
        specificheat=C,
    )
    assert biot_number(BarShape(HALF, 1.0), 100.0, K) == pytest.approx(cylinder.calc_Bi())
    ball = transient.LumpedSystem(
        surfacearea=4 * pi * HALF**2,
        volume=4 / 3 * pi * HALF**3,
        thermalconductivity=K,
        heattransfercoefficient=100.0,
        density=RHO,
        specificheat=C,
    )
    assert biot_number(BarShape(HALF, 2.0), 100.0, K) == pytest.approx(ball.calc_Bi())
