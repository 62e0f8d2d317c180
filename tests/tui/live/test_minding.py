"""A caution that has to fit into a line."""

from __future__ import annotations

from hypothesis import given, strategies as st
from rich.cells import cell_len

from tui.live.minding import shortened

WHOLE = "mind: when the figure counts to zero the blade still has about 480 degC in it, black as it is"
_REST = "…; c reads it"


def test_it_ends_with_a_word_and_never_within_a_figure() -> None:
    """In 80 cells less the margin, it would have ended with "about 480…"."""
    assert shortened(WHOLE, 78, "c") == f"mind: when the figure counts to zero the blade still has about{_REST}"
    assert shortened(WHOLE, 120, "c") == WHOLE


@given(st.integers(0, 120))
def test_it_fits_and_begins_as_the_whole(room: int) -> None:
    text = shortened(WHOLE, room, "c")
    assert cell_len(text) <= room
    begin = text.removesuffix(_REST)
    assert not begin or (WHOLE + " ").startswith((f"{begin} ", f"{begin},"))
    assert bool(text) or room < len("mind: when") + len(_REST)
