"""Layers by stacking and folding."""

from __future__ import annotations

from itertools import pairwise
from math import sqrt

import pytest

from plans.billets.errors import BilletError
from plans.billets.layers import (
    Meeting,
    Stage,
    band_on_bevel,
    carbon_left,
    in_order,
    layer_thickness,
    layers_after,
    shares_of_steels,
    stages,
)
from plans.units import kelvin


def test_counts_by_hand() -> None:
    # 7 in 4, three times: 7 28 112 448; where like faces meet 4 x 7 - 3 = 25, 4 x 25 - 3 = 97, 4 x 97 - 3 = 385.
    assert layers_after(7, 3, 4) == 448
    assert layers_after(7, 3, 4, Meeting.LIKE) == 385
    # Folded: 7 14 28 56; 2 x 7 - 1 = 13, 25, 49.
    assert [stage.layers for stage in stages(7, 3)] == [7, 14, 28, 56]
    assert [stage.layers for stage in stages(7, 3, meeting=Meeting.LIKE)] == [7, 13, 25, 49]


@pytest.mark.parametrize("pieces", [1, 2, 5, 6])
def test_a_stack_laid_layer_by_layer_has_as_many(pieces: int) -> None:
    """Every piece is laid down with its steel and its thickness, and borders are counted where the steel changes."""
    for cut_in in (2, 3):
        laid = in_order(pieces, 3, cut_in, Meeting.LIKE)
        changes = sum(one.steel != other.steel for one, other in pairwise(laid))
        assert changes + 1 == layers_after(pieces, 3, cut_in, Meeting.LIKE)
        if pieces % 2 == 0:  # with an odd number, both faces are of one steel
            laid = in_order(pieces, 3, cut_in)
            assert sum(one.steel != other.steel for one, other in pairwise(laid)) + 1 == layers_after(pieces, 3, cut_in)
        for steel, share in enumerate(shares_of_steels(pieces)):
            assert sum(one.share for one in laid if one.steel == steel) == pytest.approx(share)


def test_thickness_and_share_by_hand() -> None:
    # 40 mm / 49 layers; a single one is 40 / 56, two that have met 80 / 56.
    layer = layer_thickness(0.040, 7, 3, meeting=Meeting.LIKE)
    assert layer.value == pytest.approx(0.040 / 49)
    assert (layer.least, layer.most) == (pytest.approx(0.040 / 56), pytest.approx(0.080 / 56))
    # Four of 6 mm and three of 3 mm, 33 mm in all, folded once: 3 mm and 1.5 mm, and 6 mm where two of the first met.
    uneven = layer_thickness(0.033, 7, 1, meeting=Meeting.LIKE, each=(6.0, 3.0))
    assert (uneven.value, uneven.least, uneven.most) == pytest.approx((0.033 / 13, 0.0015, 0.006))
    # One piece folded on itself is one layer still, whose thickness has no range.
    alone = layer_thickness(0.040, 1, 3, meeting=Meeting.LIKE)
    assert (alone.value, alone.least, alone.most) == (0.040, None, None)
    assert stages(7, 1, thickness=0.042) == (Stage(7, 0.006), Stage(14, 0.003))
    # Four of 6 mm and three of 3 mm: 24 of 33.
    assert shares_of_steels(7, (6.0, 3.0)) == (pytest.approx(24 / 33), pytest.approx(9 / 33))


def test_a_layer_on_the_bevel() -> None:
    # A bevel that rises 3 mm on 4 mm is 5 mm long: each 0.1 mm of thickness shows as 0.1 x 5 / 3.
    assert band_on_bevel(0.1e-3, 6.5e-3, 0.5e-3, 4e-3).value == pytest.approx(0.1e-3 * 5 / 3)


def test_carbon_evens_out_by_all_stages() -> None:
    # What counts is t / L^2 added up: t at L, at L / 2 and at L / sqrt(3) is t (1 + 4 + 3) at L.
    at, layer = kelvin(1150), 1.6e-3
    through = [Stage(1, layer), Stage(2, layer / 2), Stage(3, layer / sqrt(3))]
    at_once = carbon_left([Stage(1, layer)], at, 8 * 300.0, 0.8)
    assert carbon_left(through, at, 300.0, 0.8).value == pytest.approx(at_once.value)
    assert 0.05 < at_once.value < 0.95


@pytest.mark.parametrize(
    ("pieces", "times", "cut_in", "given"),
    [(0, 1, 2, "pieces"), (7, -1, 2, "folds"), (7, 1, 1, "cut-in"), (9, 20, 9, "folds")],
)
def test_what_makes_no_stack(pieces: int, times: int, cut_in: int, given: str) -> None:
    with pytest.raises(BilletError) as error:
        layers_after(pieces, times, cut_in)
    assert error.value.given == given
