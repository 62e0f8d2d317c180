"""How the live screen divides a terminal."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from tui.live.arrangement import Arrangement, Wanted, arrange, far


def rows_of(room: Arrangement) -> int:
    large = room.head + 2 * room.marks + room.word + room.figure + room.reach
    return large + room.cue + room.lines + room.below + room.foot


@given(st.integers(1, 400), st.integers(1, 200), st.sampled_from(Wanted))
def test_the_parts_fill_the_height_and_never_more(width: int, height: int, wanted: Wanted) -> None:
    room = arrange(width, height, wanted)
    assert rows_of(room) == height
    assert min(room.head, room.marks, room.word, room.lines, room.below, room.foot, room.reach, room.cue) >= 0
    assert room.figure >= 1
    assert room.side + room.scale < width


@given(st.integers(1, 200))
def test_so_does_the_far_view(height: int) -> None:
    assert rows_of(far(height)) == height


@pytest.mark.parametrize(("size", "figure"), [((80, 24), 8), ((80, 20), 8), ((120, 35), 13), ((200, 55), 23)])
def test_the_figure_stands_at_least_so_tall(size: tuple[int, int], figure: int) -> None:
    assert arrange(*size).figure >= figure


@pytest.mark.parametrize("size", [(80, 24), (120, 35), (200, 55)])
def test_from_a_standard_terminal_on_step_and_what_to_reach_are_large(size: tuple[int, int]) -> None:
    for wanted in (Wanted.WORK, Wanted.READINESS):
        room = arrange(*size, wanted)
        assert min(room.head, room.reach) >= 3
    assert min(far(size[1]).head, far(size[1]).reach) >= 3


def test_a_standard_terminal_has_a_scale_and_a_large_one_trace_and_side() -> None:
    standard, large = arrange(80, 24), arrange(120, 35)
    assert standard.scale
    assert not standard.side
    assert standard.foot == 2
    assert large.below >= 6
    assert large.side >= 36


def test_where_there_is_time_to_read_the_instruction_has_room() -> None:
    assert arrange(80, 24, Wanted.READINESS).below >= 3
    assert arrange(80, 24, Wanted.READING).below >= 7
