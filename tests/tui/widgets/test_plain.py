from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from tui.widgets.plain import clip, fill, plain

ANYTHING = st.text(st.characters(codec=None, categories=None))


@pytest.mark.parametrize(
    ("raw", "clean"),
    [
        ("Weld the edge", "Weld the edge"),
        ("[/x] [T=12] [b]", "[/x] [T=12] [b]"),
        ("\x1b[31mred\x1b[0m", "[31mred[0m"),
        ("\x9b2Jcleared", "2Jcleared"),
        ("bell\x07 back\x08 nul\x00 delete\x7f", "bell back nul delete"),
        ("one\ntwo\r\nthree\tfour", "one two  three four"),
        ("abc\u202ecba\u2066x\u2069", "abccbax"),
        ("next\u2028line\u2029end", "next line end"),
        ("warm \u2600\ufe0f", "warm \u2600"),
        ("half \ud83d pair", "half  pair"),
        ("Tränke für Ålsäge 刃", "Tränke für Ålsäge 刃"),
    ],
)
def test_what_a_terminal_would_obey_is_gone(raw: str, clean: str) -> None:
    assert plain(raw) == clean


@given(ANYTHING)
def test_nothing_but_printable_characters_comes_through(text: str) -> None:
    safe = plain(text)
    assert all(unicodedata.category(character)[0] != "C" for character in safe)
    assert plain(safe) == safe
    safe.encode()


@given(ANYTHING.map(plain), st.integers(0, 40))
def test_fill_takes_exactly_its_width(text: str, width: int) -> None:
    assert cell_len(fill(text, width)) == width
    assert cell_len(clip(text, width)) <= width


def test_clip_says_that_it_cut() -> None:
    assert clip("Draw out the blade", 9) == "Draw out…"
    assert clip("Draw out", 8) == "Draw out"
    assert clip("anything", 0) == ""
