from __future__ import annotations

from hypothesis import given, strategies as st
from rich.cells import cell_len

from plans.text import plain
from tui.widgets.plain import clip, fill

ANYTHING = st.text(st.characters(codec=None, categories=None))


@given(ANYTHING.map(plain), st.integers(0, 40))
def test_fill_takes_exactly_its_width(text: str, width: int) -> None:
    assert cell_len(fill(text, width)) == width
    assert cell_len(clip(text, width)) <= width


def test_clip_says_that_it_cut() -> None:
    assert clip("Draw out the blade", 9) == "Draw out…"
    assert clip("Draw out", 8) == "Draw out"
    assert clip("anything", 0) == ""
