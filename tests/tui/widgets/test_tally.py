from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from tui.widgets.tally import tally_text


@pytest.mark.parametrize(
    ("done", "planned", "current", "text"),
    [
        (0, 3, False, "···"),
        (0, 3, True, "╷··"),
        (2, 3, True, "||╷"),
        (3, 3, False, "|||"),
        (4, 3, True, "||||╷"),
        (5, 7, False, "─┼┼┼┼─··"),
        (7, 10, True, "─┼┼┼┼─ ||╷··"),
        (10, 10, False, "─┼┼┼┼─ ─┼┼┼┼─"),
        (0, 0, False, ""),
    ],
)
def test_strokes(done: int, planned: int, current: bool, text: str) -> None:
    assert tally_text(done, planned, current).plain == text


@given(st.integers(0, 60), st.integers(0, 60), st.booleans(), st.booleans())
def test_strokes_can_be_counted(done: int, planned: int, current: bool, blocks: bool) -> None:
    text = tally_text(done, planned, current, blocks=blocks).plain
    four, stroke, begun, dot = ("++++", "|", ",", ".") if blocks else ("┼┼┼┼", "|", "╷", "·")
    assert 5 * text.count(four) + text.count(stroke) == done
    assert text.count(begun) == current
    assert text.count(dot) == max(0, planned - done - current)
    assert not blocks or text.isascii()


@given(st.integers(0, 60), st.integers(0, 60), st.integers(8, 40))
def test_where_strokes_do_not_fit_figures_do(done: int, planned: int, width: int) -> None:
    text = tally_text(done, planned, False, width=width)
    assert text.cell_length <= width
    assert text.plain in (f"{done} of {planned}", tally_text(done, planned, False).plain)


def test_planned_heats_are_faint() -> None:
    (stroke, faint) = tally_text(1, 3, False).spans
    assert (stroke.start, stroke.end) == (0, 1)
    assert (faint.start, faint.end, str(faint.style)) == (1, 3, "dim")
