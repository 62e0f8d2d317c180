from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, strategies as st

from tui.widgets.plotting import BRAILLE, HALF_BLOCKS, Curve, Grid, extents


def approx(pairs: list[tuple[float, float]]) -> list[object]:
    return [pytest.approx(pair) for pair in pairs]


def test_a_straight_line_between_two_points_crosses_every_column() -> None:
    curve = Curve([0.0, 10.0], [100.0, 110.0])
    assert extents(curve, 0, 10, 5) == approx([(100, 102), (102, 104), (104, 106), (106, 108), (108, 110)])


def test_a_line_comes_in_from_before_the_edge_and_goes_on_beyond_it() -> None:
    curve = Curve([0.0, 10.0], [100.0, 110.0])
    assert extents(curve, 4, 6, 2) == approx([(104, 105), (105, 106)])


def test_a_gap_stays_empty() -> None:
    curve = Curve([0.5, 1.5, 2.5, 3.5, 6.5, 7.5], [10.0, 11.0, None, None, 20.0, 21.0])
    found = extents(curve, 0, 8, 8)
    assert [extent is None for extent in found] == [False, False, True, True, True, True, False, False]


def test_a_gap_within_a_column_keeps_what_is_known() -> None:
    curve = Curve([0.0, 0.2, 0.4, 0.6], [5.0, None, 9.0, 7.0])
    assert extents(curve, 0, 1, 1) == [(5.0, 9.0)]


@given(st.integers(1, 400), st.data())
def test_a_peak_of_one_sample_stays_visible(columns: int, data: st.DataObject) -> None:
    count = data.draw(st.integers(3, 2000))
    peak = data.draw(st.integers(0, count - 1))
    kelvin: list[float | None] = [1400.0] * count
    kelvin[peak] = 1523.0
    found = extents(Curve(range(count), kelvin), 0, count - 1, columns)
    assert max(extent[1] for extent in found if extent is not None) == 1523.0
    where = min(columns - 1, int(peak / (count - 1) * columns))
    near = [extent for extent in found[max(0, where - 1) : where + 2] if extent is not None]
    assert max(extent[1] for extent in near) == 1523.0


@given(st.lists(st.floats(300, 1700), min_size=2, max_size=300), st.integers(1, 120))
def test_a_curve_without_gaps_is_drawn_without_gaps(values: list[float], columns: int) -> None:
    found = extents(Curve(range(len(values)), values), 0, len(values) - 1, columns)
    assert None not in found
    known = [extent for extent in found if extent is not None]
    assert all(low <= high for low, high in known)
    assert min(low for low, _ in known) == pytest.approx(min(values))
    assert max(high for _, high in known) == pytest.approx(max(values))
    for (low, high), (next_low, next_high) in pairwise(known):
        assert low <= next_high + 1e-6
        assert next_low <= high + 1e-6


@pytest.mark.parametrize(("begin", "end", "columns"), [(5, 5, 10), (5, 4, 10), (0, 10, 0)])
def test_no_time_no_curve(begin: float, end: float, columns: int) -> None:
    assert extents(Curve([1.0], [300.0]), begin, end, columns) == [None] * columns


def test_nothing_known_nothing_drawn() -> None:
    assert extents(Curve(), 0, 10, 4) == [None] * 4
    assert extents(Curve([100.0, 200.0], [1.0, 2.0]), 0, 10, 4) == [None] * 4


@pytest.mark.parametrize(
    ("at", "kelvin"), [(0.0, 10.0), (1.2, 10.0), (3.0, 20.0), (7.0, None), (-1.0, None), (9.0, None)]
)
def test_the_nearest_point(at: float, kelvin: float | None) -> None:
    assert Curve([0.0, 4.0, 8.0], [10.0, 20.0, None]).near(at) == kelvin


def test_braille_dots() -> None:
    """Unicode: dots 1 2 3 7 run down the left, 4 5 6 8 down the right."""
    grid = Grid(1, 1, BRAILLE)
    grid.upright(0, 0, 3)
    assert BRAILLE.characters[grid.cells[0]] == "⡇"
    grid.upright(1, 0, 0)
    assert BRAILLE.characters[grid.cells[0]] == "⡏"
    assert (grid.columns, grid.rows) == (2, 4)


def test_an_upright_runs_through_cells() -> None:
    grid = Grid(2, 3, HALF_BLOCKS)
    grid.upright(1, 1, 4)
    assert {place: HALF_BLOCKS.characters[bits] for place, bits in grid.cells.items()} == {1: "▄", 3: "█", 5: "▀"}


def test_dashes() -> None:
    grid = Grid(6, 2, BRAILLE)
    grid.dash(5)
    assert {place: BRAILLE.characters[bits] for place, bits in grid.cells.items()} == dict.fromkeys((6, 7, 9, 10), "⠒")
