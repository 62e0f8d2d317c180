"""Bevels that are forged in, and a profile that is turned over: arithmetic by hand."""

from __future__ import annotations

from math import atan2, cos, tan

import pytest

from plans.bench import even_profile, forge_bevel


def test_a_bevel_all_into_width() -> None:
    # 30 x 6 mm; a bevel 18 mm wide down to 2 mm displaces 18 x 4 / 2 = 36 mm2, which at 6 mm is 6 mm of width.
    found = forge_bevel(0.030, 0.006, 0.018, 0.002, widening=1.0)
    assert found.width == pytest.approx(0.036)
    assert found.elongation == pytest.approx(1.0)


def test_a_bevel_all_into_length() -> None:
    # Of 180 mm2 there are 144 left: 1.25 times as long.
    found = forge_bevel(0.030, 0.006, 0.018, 0.002, widening=0.0)
    assert found.width == pytest.approx(0.030)
    assert found.elongation == pytest.approx(1.25)


@pytest.mark.parametrize("bevel", [0.010, None])
@pytest.mark.parametrize("edges", [1, 2])
def test_volume_is_held(bevel: float | None, edges: int) -> None:
    found = forge_bevel(0.030, 0.006, bevel, 0.002, edges=edges)
    # Over the whole width the mean of 6 and 2 mm, else less a triangle of 4 mm for each edge.
    area = found.width * 0.004 if bevel is None else found.width * 0.006 - edges * 0.010 * 0.004 / 2
    assert found.area == pytest.approx(area)
    assert area * found.elongation == pytest.approx(0.030 * 0.006)
    assert 0.030 < found.width < 0.045


@pytest.mark.parametrize(("bevel", "edge"), [(0.050, 0.002), (0.018, 0.006), (0.018, 0.0), (-0.01, 0.002)])
def test_bevels_that_can_not_be(bevel: float, edge: float) -> None:
    with pytest.raises(ValueError, match="bar"):
        forge_bevel(0.030, 0.006, bevel, edge)


def test_a_profile_is_ground_where_it_stands_out() -> None:
    # Halves of 13.9 and 13.1 mm: turned over, 0.8 mm stands out, and off come those.
    found = even_profile(0.8e-3, 27e-3, 0.9e-3, 6.2e-3)
    slope = atan2(2.65, 13.9)
    assert found.take_off == 0.8e-3
    assert found.width == pytest.approx(2 * 13.1e-3)
    assert found.edge is not None
    assert found.edge * 1000 == pytest.approx(0.9 + 1.6 * tan(slope))
    assert found.bevel_narrower is not None
    assert found.bevel_narrower * 1000 == pytest.approx(0.8 / cos(slope))


@pytest.mark.parametrize("given", [(-1e-3, None), (14e-3, 27e-3), (0.8e-3, 27e-3, 7e-3, 6.2e-3)])
def test_a_profile_that_can_not_be(given: tuple[float, ...]) -> None:
    with pytest.raises(ValueError, match="the "):
        even_profile(*given)
