"""How the live screen divides a terminal."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from tui.live.arrangement import arrange, far


@given(st.integers(1, 400), st.integers(1, 200), st.booleans())
def test_the_parts_fill_the_height_and_never_more(width: int, height: int, reading: bool) -> None:
    room = arrange(width, height, reading)
    rows = room.head + 2 * room.marks + room.word + room.figure + room.lines + room.below + room.foot
    assert rows == height
    assert min(room.head, room.marks, room.word, room.lines, room.below, room.foot) >= 0
    assert room.figure >= 1
    assert room.side + room.scale < width


@given(st.integers(1, 200))
def test_so_does_the_far_view(height: int) -> None:
    room = far(height)
    assert 2 * room.marks + room.word + room.figure + room.foot == height


@pytest.mark.parametrize(("size", "figure"), [((80, 24), 10), ((80, 20), 10), ((120, 35), 14), ((200, 55), 24)])
def test_the_figure_stands_at_least_so_tall(size: tuple[int, int], figure: int) -> None:
    assert arrange(*size).figure >= figure


def test_a_standard_terminal_has_a_trace_and_a_scale_and_a_large_one_a_side() -> None:
    standard, large = arrange(80, 24), arrange(120, 35)
    assert standard.below >= 4
    assert standard.scale
    assert not standard.side
    assert large.below >= 8
    assert large.side >= 36
