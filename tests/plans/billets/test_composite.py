"""Bars side by side, and where their borders come out."""

from __future__ import annotations

from itertools import accumulate, pairwise
from math import radians, tan

import pytest

from plans.billets.composite import Blade, bars_for, borders_of, shares_of
from plans.billets.cutting import between
from plans.billets.errors import BilletError
from plans.drawing import Point

DOUBLE = Blade(40e-3, 6e-3, 0.8e-3)
SINGLE = Blade(30e-3, 4e-3, 0.4e-3, is_double=False)


def area(outline: tuple[Point, ...]) -> float:
    """By Gauss's shoelace."""
    return abs(sum(x * b - a * y for (x, y), (a, b) in pairwise([*outline, outline[0]]))) / 2


def test_equal_bars_give_a_core_of_a_third_and_one_twice_as_wide_of_a_half() -> None:
    # Common practice, no source.
    assert shares_of([0.0127] * 3)[1] == pytest.approx(1 / 3)
    assert shares_of([0.0127, 0.0254, 0.0127])[1] == pytest.approx(1 / 2)
    assert borders_of([0.0127, 0.0254, 0.0127], 40e-3) == (pytest.approx(10e-3), pytest.approx(30e-3))


def test_bevels_by_hand() -> None:
    # 20 mm of bevel rise from 0.8 to 6 mm: 2.6 mm of it on either face, 0.26 in all a millimetre.
    assert [DOUBLE.thickness_at(across) for across in (10e-3, 30e-3)] == pytest.approx([3.4e-3, 3.4e-3])
    # 2.6 / 20 = 0.13: 10 mm across are 10 sqrt(1 + 0.13^2) = 10.0841 mm on the steel.
    assert DOUBLE.up_the_bevel(30e-3) == pytest.approx(10.0841e-3, abs=1e-7)
    # 20 (0.8 + 6) / 2 = 68 mm2 a bevel; 0.8 x + 0.13 x^2 = 34 mm2 at x = (sqrt(0.64 + 17.68) - 0.8) / 0.26 = 13.3853.
    assert DOUBLE.across_at(0.25) == pytest.approx(13.3853e-3, abs=1e-7)
    assert DOUBLE.across_at(0.75) == pytest.approx((40 - 13.3853) * 1e-3, abs=1e-7)


@pytest.mark.parametrize("blade", [DOUBLE, SINGLE])
@pytest.mark.parametrize("lean", [-30.0, -7.0, 0.0, 12.0])
def test_a_border_comes_out_where_it_meets_the_outline(blade: Blade, lean: float) -> None:
    """By halving the way along each face, and by cutting the outline: neither knows the formula."""
    slope = tan(radians(lean))
    for across in (0.2 * blade.face, 0.48 * blade.face, 0.7 * blade.face):
        found = blade.out_at(across, lean)
        for side, place in zip((1, -1), found, strict=True):
            low, high = 0.0, blade.face
            for _ in range(60):
                middle = (low + high) / 2
                right = middle - slope * side * blade.thickness_at(middle) / 2 > across
                low, high = (low, middle) if right else (middle, high)
            assert place == pytest.approx(low, abs=1e-9)
        cut = between(blade.outline, -1.0, across, slope)
        assert all(any(abs(x - place) < 1e-9 for x, _ in cut) for place in found)


@pytest.mark.parametrize("blade", [DOUBLE, SINGLE])
def test_shares_of_the_area_by_cutting_the_outline(blade: Blade) -> None:
    whole = area(blade.outline)
    for share in (0.1, 0.37, 0.5, 0.9):
        across = blade.across_at(share)
        assert area(between(blade.outline, -1.0, across)) == pytest.approx(share * whole)
        assert blade.area_up_to(across) == pytest.approx(share)


def test_backwards_and_forwards_are_one() -> None:
    for blade in (DOUBLE, SINGLE):
        start = bars_for(blade, 18e-3)
        jacket = (blade.face - 18e-3) / 2 if blade.is_double else blade.face - 18e-3
        assert borders_of(start.ground, blade.face)[0] == pytest.approx(jacket)
        assert next(blade.across_at(share) for share in accumulate(start.forged)) == pytest.approx(jacket)
        assert sum(start.ground) == sum(start.forged) == pytest.approx(1)


def test_what_is_ground_off_the_edge_is_jacket() -> None:
    # Core of 20 of 40 mm, 1 mm off each edge: 11 of 42. Forged: 0.8 x 10 + 0.13 x 100 + 0.8 = 21.8 of 137.6 mm2.
    start = bars_for(DOUBLE, 20e-3, trim=1e-3)
    assert start.ground[0] == pytest.approx(11 / 42)
    assert start.forged[0] == pytest.approx(21.8 / 137.6)


@pytest.mark.parametrize("lean", [46.0, float("nan")])
def test_what_no_border_does(lean: float) -> None:
    with pytest.raises(BilletError) as error:
        DOUBLE.out_at(10e-3, lean)
    assert error.value.given == "lean"
    with pytest.raises(BilletError, match="at the edge"):
        DOUBLE.out_at(0.1e-3, 40.0)
    with pytest.raises(BilletError, match="core"):
        bars_for(DOUBLE, 40e-3)
