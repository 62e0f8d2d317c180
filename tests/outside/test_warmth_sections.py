"""The warm model's sections beside finer solutions in two dimensions, and beside products of the textbook's series."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, exp, pi, sin, tan
from statistics import median, quantiles

import pytest
from scipy.optimize import brentq

from plans.shapes import Form, Section
from plans.warmth.ahead import look_ahead
from plans.warmth.conduction import Conduction
from plans.warmth.course import Course, Part
from plans.warmth.cross_section import cross_section
from plans.warmth.forecast import hammer_time, soak_time
from plans.warmth.material import Material
from plans.warmth.model import WarmModel
from plans.warmth.steel import carbon_steel
from plans.warmth.surroundings import Surroundings, fire, still_air
from tests.outside.sections_by_scipy import BEVELLED, CORNERS, Case, Times, bevel_of, read, solve

ZERO = 273.15
TABLE = read()


def section_of(case: Case) -> Section:
    if case.form in ("round", *CORNERS):
        return Section.regular(Form(case.form), case.thickness / 1000)
    if case.form in BEVELLED:
        (over, radius), form = bevel_of(case), Form(BEVELLED[case.form][0])
        return Section(case.width / 1000, case.thickness / 1000, form, case.edge / 1000, over, radius or None)
    return Section(case.width / 1000, case.thickness / 1000, Form(case.form), case.edge / 1000 or None)


def course_of(case: Case) -> Course:
    around = Surroundings(
        case.outside + ZERO,
        case.outside + ZERO,
        case.emissivity,
        case.convection,
        case.contact,
        case.tool + ZERO,
        case.share,
        case.exposure == "dies",
    )
    piece = Conduction(cross_section(section_of(case)), carbon_steel())
    return Course(piece, piece.material.even(case.start + ZERO, piece.count), around)


def errors() -> Iterator[tuple[Case, Part, float, float]]:
    """Every case and part: the time by the reference [s], and how far ours lies from it, as a share."""
    for case, times in TABLE:
        course = course_of(case)
        for part in Part:
            expected = getattr(times, part.name.lower())
            ours = course.time_until(part, case.until + ZERO, falls=case.exposure != "fire")
            assert ours is not None
            yield case, part, expected, ours / expected - 1


@pytest.fixture(scope="module")
def found() -> list[tuple[Case, Part, float, float]]:
    return list(errors())


# What was measured over the 600 cases of the table: shares that 95 % of the cases, and all of them, stay within. Times
# below `_SHORT` seconds, as of a face between dies, are told to `_HAIR` seconds and left out.
_SHORT, _HAIR = 3.0, 0.35
BOUNDS = [
    # exposure, part, 95 %, all
    ("fire", Part.SKIN, 0.015, 0.020),
    ("fire", Part.MIDDLE, 0.015, 0.020),
    ("air", Part.SKIN, 0.012, 0.015),
    ("air", Part.FACE, 0.012, 0.015),
    ("air", Part.COLDEST, 0.045, 0.065),
    ("anvil", Part.SKIN, 0.017, 0.040),
    ("anvil", Part.FACE, 0.025, 0.050),
    ("anvil", Part.COLDEST, 0.060, 0.100),
    ("dies", Part.SKIN, 0.040, 0.065),
    ("dies", Part.FACE, 0.050, 0.065),
    ("dies", Part.COLDEST, 0.070, 0.075),
]


@pytest.mark.parametrize(("exposure", "part", "most_of_them", "all_of_them"), BOUNDS)
def test_every_section_within_what_is_stated(
    found: list[tuple[Case, Part, float, float]], exposure: str, part: Part, most_of_them: float, all_of_them: float
) -> None:
    these = [
        (case, abs(error))
        for case, one, seconds, error in found
        if case.exposure == exposure and one is part and seconds >= _SHORT
    ]
    assert len(these) > 15
    worst = max(these, key=lambda one: one[1])
    assert worst[1] < all_of_them, worst
    assert quantiles([error for _, error in these], n=20)[-1] < most_of_them


def test_short_times_within_a_hair(found: list[tuple[Case, Part, float, float]]) -> None:
    assert max(abs(error) * seconds for _, _, seconds, error in found if seconds < _SHORT) < _HAIR


def test_no_lean_to_either_side(found: list[tuple[Case, Part, float, float]]) -> None:
    assert abs(median(error for _, part, _, error in found if part is not Part.COLDEST)) < 0.005


@pytest.mark.parametrize("row", range(15, len(TABLE), 90))
def test_the_table_is_what_scipy_finds(row: int) -> None:
    case, times = TABLE[row]
    again = solve(case)
    for name in Times.__dataclass_fields__:
        assert getattr(again, name) == pytest.approx(getattr(times, name), rel=0.01, abs=0.02)


@pytest.mark.parametrize(
    ("section", "expected"),
    [
        # From 20 degC in a fire of 1250 degC, emissivity 0.8, 20 W/(m2 K), until the middle is at 1200: two solvers in
        # two dimensions that were written independently of this project, which agree within 0.1 %.
        (Section(0.050, 0.050), 558.5),
        (Section(0.075, 0.025), 408.5),
        (Section(0.040, 0.008), 136.7),
        (Section(0.0254, 0.0254), 265.7),
        (Section(0.030, 0.010), 153.9),
        (Section(0.050, 0.025), 357.8),
    ],
)
def test_soaks_of_bars(section: Section, expected: float) -> None:
    soak = soak_time(WarmModel(section, start=20 + ZERO), fire(1250 + ZERO), 1200 + ZERO)
    assert soak == pytest.approx(expected, rel=0.015 if section.thickness < 0.026 else 0.01)


@pytest.mark.parametrize(
    ("section", "skin"), [(Section(0.0254, 0.0254), 74.1), (Section(0.030, 0.010), 43.9), (Section(0.050, 0.025), 96.7)]
)
def test_cooling_of_bars(section: Section, skin: float) -> None:
    # The same two solvers: still air, 10 W/(m2 K), from 1250 until the mean skin is at 900 degC.
    bar = WarmModel(section, start=1250 + ZERO)
    assert hammer_time(bar, still_air(20 + ZERO), 900 + ZERO, Part.SKIN) == pytest.approx(skin, rel=0.01)


# Constant properties, and a stream of air without radiation: then a rectangle is the product of two plates and a bar of
# some length that of three (Incropera et al., 6th ed., section 5.8), each by its series (eq. 5.39).
K, RHO, C = 27.3, 7850.0, 650.0
STEEL = Material.constant(RHO, C, K)
START, STREAM = 1400.0, 300.0


def plate(half: float, at: float, coefficient: float, seconds: float) -> float:
    """Share of the first difference that is left at `at` from the middle of a plate [m]."""
    biot, fourier = coefficient * half / K, K / (RHO * C) * seconds / half**2
    total = 0.0
    for n in range(40):
        zeta = brentq(lambda z: z * tan(z) - biot, n * pi + 1e-9, n * pi + pi / 2 - 1e-9)
        first = 4 * sin(zeta) / (2 * zeta + sin(2 * zeta))
        total += first * exp(-(zeta**2) * fourier) * cos(zeta * at / half)
    return total


@pytest.mark.parametrize("coefficient", [150.0, 600.0])
@pytest.mark.parametrize(("width", "thickness"), [(0.025, 0.025), (0.060, 0.012), (0.040, 0.030)])
@pytest.mark.parametrize("seconds", [10.0, 40.0])
def test_a_rectangle_is_the_product_of_two_plates(
    width: float, thickness: float, seconds: float, coefficient: float
) -> None:
    piece = Conduction(cross_section(Section(width, thickness)), STEEL)
    for moment in look_ahead(
        piece, STEEL.even(START, piece.count), Surroundings(STREAM, STREAM, 0.0, coefficient), 2.0
    ):
        if moment.seconds >= seconds:
            break
    seen, at = piece.warmth(moment.heat), moment.seconds
    middle = plate(width / 2, 0.0, coefficient, at) * plate(thickness / 2, 0.0, coefficient, at)
    corner = plate(width / 2, width / 2, coefficient, at) * plate(thickness / 2, thickness / 2, coefficient, at)
    assert seen.middle == pytest.approx(STREAM + (START - STREAM) * middle, abs=6.0)
    assert seen.coldest == pytest.approx(STREAM + (START - STREAM) * corner, abs=15.0)
