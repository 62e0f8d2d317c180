"""Thin ends beside a bar cut into slices by scipy, and beside the textbook's product for the end of a bar."""

from __future__ import annotations

from math import cos, erfc, exp, pi, sin, sqrt, tan

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from plans.shapes import Section
from plans.warmth.ahead import look_ahead
from plans.warmth.conduction import Conduction
from plans.warmth.course import Course, Part
from plans.warmth.material import Material
from plans.warmth.steel import DENSITY, carbon_steel, enthalpy, potential
from plans.warmth.surroundings import STEFAN_BOLTZMANN, Surroundings, still_air
from plans.warmth.thin_end import thin_end

ZERO = 273.15
KELVIN = np.arange(250.0, 1700.0, 0.05)
HEAT = np.array([enthalpy(kelvin) for kelvin in KELVIN])
POTENTIAL = np.array([potential(kelvin) for kelvin in KELVIN])


def sliced(body: Section, tip: Section, length: float, start: float, limit: float, convection: float) -> float:
    """Seconds until the tip is at a limit: slices across the length, each at one temperature, 200 of them.

    The body behind is ten times as long as heat comes in that time. Nothing is shared with the program but the steel.
    """
    count, behind = 200, 0.12
    edges = np.concatenate([np.linspace(0, length, count), length + np.linspace(0, behind, 40)[1:]])
    middle, deep = (edges[1:] + edges[:-1]) / 2, np.diff(edges)

    def sides(at: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        share = np.minimum(at / length, 1.0)
        return (
            tip.width + share * (body.width - tip.width),
            tip.thickness + share * (body.thickness - tip.thickness),
        )

    wide, thick = sides(middle)
    faces = np.prod(sides(edges), axis=0)
    slope_wide = np.where(middle < length, (body.width - tip.width) / 2 / length, 0.0)
    slope_thick = np.where(middle < length, (body.thickness - tip.thickness) / 2 / length, 0.0)
    skin = 2 * deep * (wide * np.hypot(1, slope_thick) + thick * np.hypot(1, slope_wide))
    skin[0] += faces[0]
    mass = DENSITY * wide * thick * deep

    def rate(_: float, heat: np.ndarray) -> np.ndarray:
        kelvin = np.interp(heat, HEAT, KELVIN)
        flow = np.zeros(len(edges))
        flow[1:-1] = faces[1:-1] * np.diff(np.interp(kelvin, KELVIN, POTENTIAL)) / np.diff(middle)
        lost = 0.8 * STEFAN_BOLTZMANN * (kelvin**4 - 293.15**4) + convection * (kelvin - 293.15)
        return (np.diff(flow) - skin * lost) / mass

    def event(_: float, heat: np.ndarray) -> float:
        return float(np.interp(heat[0], HEAT, KELVIN) - limit)

    event.terminal = True  # type: ignore[attr-defined]
    solved = solve_ivp(
        rate,
        (0, 200),
        np.full(len(middle), enthalpy(start)),
        "LSODA",
        events=event,
        rtol=1e-5,
        atol=10.0,
        lband=1,
        uband=1,
    )
    return float(solved.t_events[0][0])


@pytest.mark.parametrize(
    ("body", "tip", "length"),
    [
        (Section(0.020, 0.010), Section(0.004, 0.003), 0.03),
        (Section(0.020, 0.010), Section(0.004, 0.003), 0.06),
        (Section(0.014, 0.008), Section(0.010, 0.008), 0.10),
        (Section(0.032, 0.008), Section(0.010, 0.008), 0.10),
        (Section(0.030, 0.008), Section(0.012, 0.002), 0.15),
        (Section(0.012, 0.012), Section(0.003, 0.003), 0.08),
    ],
)
def test_points_tangs_and_tapers_within_10_percent(body: Section, tip: Section, length: float) -> None:
    piece = Conduction(thin_end(body, tip, length), carbon_steel())
    course = Course(piece, piece.material.even(1100 + ZERO, piece.count), still_air(convection=15.0))
    ours = course.time_until(Part.COLDEST, 900 + ZERO, falls=True)
    # The reference has each slice at one temperature; the corners of the tip are a little colder than that.
    assert ours == pytest.approx(sliced(body, tip, length, 1100 + ZERO, 900 + ZERO, 15.0), rel=0.10)


# Constant properties, a stream of air without radiation.
K, RHO, C = 27.3, 7850.0, 650.0
ALPHA = K / (RHO * C)
START, STREAM, H = 1400.0, 300.0, 150.0


def plate(half: float, at: float, seconds: float) -> float:
    """Share of the first difference that is left in a plate: Incropera et al., 6th ed., eq. 5.39."""
    biot, fourier, total = H * half / K, ALPHA * seconds / half**2, 0.0
    for n in range(30):
        zeta = brentq(lambda z: z * tan(z) - biot, n * pi + 1e-9, n * pi + pi / 2 - 1e-9)
        total += 4 * sin(zeta) / (2 * zeta + sin(2 * zeta)) * exp(-(zeta**2) * fourier) * cos(zeta * at / half)
    return total


def half_space(at: float, seconds: float) -> float:
    """Share of the first difference that is left at a depth of a half-space: eq. 5.60."""
    root = sqrt(ALPHA * seconds)
    taken = erfc(at / 2 / root) - exp(H * at / K + H * H * ALPHA * seconds / K**2) * erfc(at / 2 / root + H * root / K)
    return 1 - taken


@pytest.mark.parametrize("seconds", [4.0, 10.0])
def test_the_bare_end_of_a_bar_is_the_product_of_three(seconds: float) -> None:
    # Two plates and a half-space: Incropera et al., 6th ed., section 5.8 and Figure 5.11.
    bar = Section(0.012, 0.008)
    steel = Material.constant(RHO, C, K)
    piece = Conduction(thin_end(bar, bar, 0.06), steel)
    for moment in look_ahead(piece, steel.even(START, piece.count), Surroundings(STREAM, STREAM, 0.0, H), 2.0):
        if moment.seconds >= seconds:
            break
    at = moment.seconds
    # The program has the width at one temperature: its mean, which lies between the middle and the side.
    across = (plate(0.006, 0.0, at) + plate(0.006, 0.006, at)) / 2
    corner = across * plate(0.004, 0.004, at) * half_space(0.0, at)
    assert piece.warmth(moment.heat).coldest == pytest.approx(STREAM + (START - STREAM) * corner, abs=12.0)
