"""The conduction solver beside textbook examples, Table 5.1, full series and grid-converged solutions."""

from __future__ import annotations

from collections.abc import Callable
from math import exp, log, tan

import pytest

from plans.shapes import Section
from plans.warmth.bar import BarShape
from plans.warmth.forecast import soak_time
from plans.warmth.material import Material
from plans.warmth.model import WarmModel
from plans.warmth.surroundings import Surroundings, fire

StateAt = Callable[[BarShape, Material, float, Surroundings, float], tuple[float, float]]

L, K, RHO, C = 0.0125, 27.0, 7850.0, 650.0
START, AROUND = 1400.0, 400.0
PLATE, ROUND = 0.0, 1.0


def theta(state_at: StateAt, exponent: float, biot: float, fourier: float) -> tuple[float, float]:
    """Middle and skin as shares of the first difference, with constant properties; `biot` is on the half-thickness."""
    surroundings = Surroundings(AROUND, AROUND, 0.0, biot * K / L)
    seconds = fourier * L**2 * RHO * C / K
    middle, skin = state_at(BarShape(L, exponent), Material.constant(RHO, C, K), START, surroundings, seconds)
    return (middle - AROUND) / (START - AROUND), (skin - AROUND) / (START - AROUND)


@pytest.mark.parametrize(
    ("biot", "fourier", "plate_middle", "plate_skin", "round_middle"),
    [
        # Full Fourier and Bessel series, 50 terms, evaluated elsewhere.
        (0.1, 0.5, 0.96798, 0.92178, 0.92934),
        (0.5, 1.0, 0.69838, 0.55459, 0.45985),
        (1.0, 0.5, 0.77253, 0.50452, 0.54859),
    ],
)
def test_full_series(
    state_at: StateAt, biot: float, fourier: float, plate_middle: float, plate_skin: float, round_middle: float
) -> None:
    middle, skin = theta(state_at, PLATE, biot, fourier)
    assert middle == pytest.approx(plate_middle, abs=2e-5)
    assert skin == pytest.approx(plate_skin, abs=2e-5)
    assert theta(state_at, ROUND, biot, fourier)[0] == pytest.approx(round_middle, abs=2e-5)


@pytest.mark.parametrize(
    ("exponent", "biot", "zeta", "first"),
    [
        # Incropera et al., 6th ed., Table 5.1: plane wall and infinite cylinder.
        (PLATE, 0.1, 0.3111, 1.0161),
        (PLATE, 10.0, 1.4289, 1.2620),
        (ROUND, 0.1, 0.4417, 1.0246),
    ],
)
def test_table_5_1(state_at: StateAt, exponent: float, biot: float, zeta: float, first: float) -> None:
    # Late enough, only the first term is left: theta = C1 exp(-zeta^2 Fo) in the middle.
    early, late = (theta(state_at, exponent, biot, fourier)[0] for fourier in (1.0, 2.0))
    assert log(early / late) ** 0.5 == pytest.approx(zeta, abs=1e-4)
    assert early * exp(log(early / late)) == pytest.approx(first, abs=1e-4)


def test_example_5_4(state_at: StateAt) -> None:
    # Incropera, Example 5.4: a pipe's wall, 40 mm, one face adiabatic, oil at 60 degC and h 500 on the other, from -20.
    wall = Material.constant(7832.0, 434.0, 63.9)
    oil = Surroundings(60 + 273.15, 60 + 273.15, 0.0, 500.0)
    middle, _ = state_at(BarShape(0.04, PLATE), wall, -20 + 273.15, oil, 480.0)
    assert middle - 273.15 == pytest.approx(42.9, abs=0.2)


def test_example_5_5(state_at: StateAt) -> None:
    # Incropera, Example 5.5: a sphere of 10 mm, alpha 6.66e-6, k 20, quenched in water at 20 degC with h 6000 from 335
    # degC until its centre is at 50 degC. The book prints 3.1 s, from zeta 1.800 and C1 1.376 interpolated along a
    # straight line in Table 5.1; the root of 1 - zeta cot zeta = 1.5 itself is 1.8366, C1 1.3850, which gives 2.98 s.
    zeta, first = 1.8366, 1.3850
    assert 1 - zeta / tan(zeta) == pytest.approx(1.5, abs=1e-3)
    seconds = log(first / (30 / 315)) / zeta**2 * 0.005**2 / 6.66e-6
    assert seconds == pytest.approx(3.1, rel=0.045)
    ball = Material.constant(3000.0, 20.0 / 6.66e-6 / 3000.0, 20.0)
    water = Surroundings(20 + 273.15, 20 + 273.15, 0.0, 6000.0)
    middle, _ = state_at(BarShape(0.005, 2.0), ball, 335 + 273.15, water, seconds)
    assert middle - 273.15 == pytest.approx(50, abs=0.1)


def test_a_shaft_after_20_minutes(state_at: StateAt) -> None:
    # Cengel's shaft, 350 mm, k 14.9, alpha 3.95e-6, h 60, 400 degC into air of 150 degC. The book's one term gives 390
    # degC although Fo is 0.155, below the 0.2 that one term needs; the full series gives 385.7.
    shaft = Material.constant(7900.0, 14.9 / 3.95e-6 / 7900.0, 14.9)
    air = Surroundings(150 + 273.15, 150 + 273.15, 0.0, 60.0)
    middle, _ = state_at(BarShape(0.175, ROUND), shaft, 400 + 273.15, air, 1200.0)
    assert middle - 273.15 == pytest.approx(385.7, abs=0.1)


def test_soak_of_a_round_bar_as_in_use() -> None:
    # 25 mm round from 20 degC in a fire of 1250 degC until the middle is at 1200, eps 0.8, h 20, EN 1993-1-2: 258.0 s
    # by one-dimensional finite volumes in another program, the same with 60 and 120 cells.
    bar = WarmModel(Section.round(0.025), None, 20 + 273.15)
    assert soak_time(bar, fire(1250 + 273.15), 1200 + 273.15) == pytest.approx(258.0, rel=0.01)


def test_soak_of_a_plate_as_in_use() -> None:
    # The same for a plate of 25 mm heated from both sides: 519.2 s.
    start, around = 20 + 273.15, fire(1250 + 273.15)
    wide = WarmModel(Section(250.0, 0.025), None, start)
    assert soak_time(wide, around, 1200 + 273.15) == pytest.approx(519.2, rel=0.01)
