"""Carbon in austenite against worked examples, the paper's own figures, and scipy as solver."""

from __future__ import annotations

from itertools import pairwise
from math import sqrt

import pytest
from scipy.integrate import quad
from scipy.special import erfinv

from plans.steel.carbon import (
    agren_diffusivity,
    content_at,
    decarb_depth,
    depth_at_share,
    inverse_erf,
    spread_over,
    textbook_diffusivity,
)
from plans.steel.evenness import carbon_difference_left, spread_to_even_out
from plans.steel.history import hold
from plans.units import kelvin


def test_carburizing_time_example_5_2() -> None:
    # Callister, Materials Science and Engineering, Example Problem 5.2: 0.25 %C, surface at 1.20, 0.80 wanted at
    # 0.5 mm, D = 1.6e-11 m2/s: 25,400 s (7.1 h).
    assert content_at(0.5e-3, 1.6e-11 * 25400, 1.20, 0.25) == pytest.approx(0.80, abs=0.005)
    # And the other way round; a depth goes as the root of its time, so that this is the book's time to 1 %.
    share = (0.80 - 1.20) / (0.25 - 1.20)
    assert depth_at_share(share, 1.6e-11 * 25400) == pytest.approx(0.5e-3, rel=0.005)


def test_carburizing_time_design_example_5_1() -> None:
    # Callister, Design Example 5.1: 0.20 %C, surface at 1.00, 0.60 at 0.75 mm, D0 2.3e-5, Q 148 kJ/mol, R 8.31,
    # 1000 degC: 9.0 h; the book interpolates in a table of the error function. A depth goes as the root of its time.
    # Its R for our 8.314 is as a temperature that is lower by their ratio.
    spread = textbook_diffusivity(kelvin(1000) * 8.31 / 8.314) * 9.0 * 3600
    assert depth_at_share((0.60 - 1.00) / (0.20 - 1.00), spread) == pytest.approx(0.75e-3, rel=0.0075)
    assert content_at(0.75e-3, spread, 1.00, 0.20) == pytest.approx(0.60, abs=0.005)


def test_textbook_diffusivity() -> None:
    # Callister, Table 5.2 (9th ed., after Smithells, 7th ed.), evaluated at 1200 degC: 1.3e-10 m2/s.
    assert textbook_diffusivity(kelvin(1200)) == pytest.approx(1.3e-10, rel=0.005)


@pytest.mark.parametrize(("carbon", "expected"), [(0.8, 1.134e-10), (0.2, 6.736e-11)])
def test_agren_diffusivity(carbon: float, expected: float) -> None:
    # J. Agren, Scripta Metall. 20 (1986) 1507, evaluated elsewhere at 1100 degC.
    assert agren_diffusivity(kelvin(1100), carbon) == pytest.approx(expected, rel=0.01)


@pytest.mark.parametrize(("share", "expected"), [(0.95, 2.7718), (0.50, 0.9539)])
def test_depth_in_units_of_the_root_of_dt(share: float, expected: float) -> None:
    # C/C0 = erf(x / 2 sqrt(Dt)): Crank, The Mathematics of Diffusion.
    assert depth_at_share(share, 1.0) == pytest.approx(expected, abs=1e-3)


def test_decarburized_depth() -> None:
    # erf profile with Agren's D at 0.8 %C, evaluated elsewhere: 10 min at 1200 degC to 95 % of the core, 1.088 mm.
    # In truth a factor of two either way.
    depth = decarb_depth(hold(kelvin(1200), 600), 0.8)
    assert depth.value * 1e3 == pytest.approx(1.088, rel=0.05)
    assert depth.least is not None
    assert depth.most is not None
    assert depth.most / depth.least == 4


def test_time_for_layers_to_even_out() -> None:
    # (4/pi) exp(-pi^2 D t / L^2), evaluated elsewhere: 0.1 mm layers at 1100 degC by Callister's D, to 5 %: 60.9 s.
    seconds = spread_to_even_out(0.05, 0.1e-3) / textbook_diffusivity(kelvin(1100))
    assert seconds == pytest.approx(60.9, rel=0.02)
    assert carbon_difference_left([(hold(kelvin(1100), 60.9), 0.1e-3)]).value == pytest.approx(0.05, rel=0.02)


def test_the_textbook_is_about_half_of_agren_at_blade_carbon() -> None:
    # Three other sources give twice Callister's figure at 0.8 %C; Agren's is the one that is kept.
    ratio = textbook_diffusivity(kelvin(1100)) / agren_diffusivity(kelvin(1100), 0.8)
    assert ratio == pytest.approx(0.5, abs=0.05)


@pytest.mark.parametrize("share", [1e-6, 0.1, 0.5, 0.9, 0.95, 0.999])
def test_the_inverse_error_function_against_scipy(share: float) -> None:
    # scipy.special.erfinv.
    assert inverse_erf(share) == pytest.approx(float(erfinv(share)), rel=1e-9)


def test_a_heat_and_its_cooling_against_scipy() -> None:
    # scipy.integrate.quad over the same temperatures: up to 1250 degC in 200 s, a soak, down to 800 in 60 s.
    history = [(0.0, kelvin(20)), (200.0, kelvin(1250)), (350.0, kelvin(1250)), (410.0, kelvin(800))]

    def at(seconds: float) -> float:
        for (start, first), (end, last) in pairwise(history):
            if seconds <= end:
                return first + (last - first) * (seconds - start) / (end - start)
        return history[-1][1]

    begins = 200.0 * (727 - 20) / (1250 - 20)
    exact, _ = quad(lambda t: agren_diffusivity(at(t), 0.8), begins, 410.0, points=[200.0, 350.0], limit=200)
    assert spread_over(history, 0.8).value == pytest.approx(exact, rel=0.002)
    depth = decarb_depth(history, 0.8).value
    assert depth == pytest.approx(2 * float(erfinv(0.95)) * sqrt(exact), rel=0.001)
