from __future__ import annotations

from itertools import combinations
from typing import Any

import pytest
from hypothesis import given, strategies as st

from plans.phase import PhaseKind
from plans.sitting.calls import ALARMS, STATES, Call
from tui.widgets.marks import FINISHED, PAUSED, Mark, MarkRow, call_mark, mark_lines, phase_mark

MARKS = [PAUSED, FINISHED, *map(phase_mark, PhaseKind), *map(call_mark, Call)]
FIRE, STRIKE = phase_mark(PhaseKind.FIRE), phase_mark(PhaseKind.STRIKE)


def test_what_is_wrong_has_the_marks_of_an_alarm() -> None:
    assert {call for call in Call if call_mark(call).alarm} == ALARMS | STATES


@given(st.sampled_from(MARKS), st.integers(0, 220), st.integers(0, 6), st.booleans())
def test_marks_fill_their_room(mark: Mark, width: int, height: int, blocks: bool) -> None:
    rows = mark_lines(mark, width, height, blocks=blocks)
    assert [len(row) for row in rows] == [width] * height
    assert set("".join(rows)) <= (set(map(chr, range(32, 127))) if blocks else set(" ▀▄█"))


@pytest.mark.parametrize("blocks", [False, True])
@pytest.mark.parametrize("height", [1, 2, 3])
def test_any_two_states_are_told_apart_by_shape(blocks: bool, height: int) -> None:
    for one, other in combinations(MARKS, 2):
        first, second = (mark_lines(mark, 80 * height, height, blocks=blocks) for mark in (one, other))
        apart = sum(a != b for left, right in zip(first, second, strict=True) for a, b in zip(left, right, strict=True))
        assert apart >= 80 * height * height / 8, (one, other)


def test_two_rows_draw_the_same_marks_twice_as_large() -> None:
    assert mark_lines(FIRE, 8, 1) == ["▄█▄ ▄█▄ "]
    assert mark_lines(FIRE, 8, 2) == ["  ██    ", "██████  "]
    assert mark_lines(STRIKE, 8, 2) == ["██████  ", "  ██    "]


def test_three_rows_halve_the_middle_one() -> None:
    assert mark_lines(STRIKE, 12, 3) == ["█████████   ", "▀▀▀███▀▀▀   ", "   ███      "]


async def test_only_alarms_blink(stage: Any, lines: Any) -> None:
    for mark in MARKS:
        row = MarkRow(mark)
        async with stage(row, (40, 1)) as pilot:
            (steady,) = lines(row)
            row.blink_on = False
            await pilot.pause()
            (off,) = lines(row)
            assert off.text == steady.text
            assert (off != steady) == mark.alarm, mark
