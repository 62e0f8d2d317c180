"""Text made safe to show."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given, strategies as st

from plans.text import clean, plain, printable

ANYTHING = st.text(st.characters(codec=None, categories=None))


@pytest.mark.parametrize(
    ("raw", "safe"),
    [
        ("Weld the edge", "Weld the edge"),
        ("[/x] [T=12] [b]", "[/x] [T=12] [b]"),
        ("\x1b[31mred\x1b[0m", "[31mred[0m"),
        ("\x9b2Jcleared", "2Jcleared"),
        ("bell\x07 back\x08 nul\x00 delete\x7f", "bell back nul delete"),
        ("one\ntwo\r\nthree\tfour", "one two  three four"),
        ("abc\u202ecba\u2066x\u2069", "abccbax"),
        ("next\u2028line\u2029end", "next line end"),
        ("1250\u00a0°C\u3000hot", "1250 °C hot"),
        ("warm \u2600\ufe0f", "warm \u2600"),
        ("half \ud83d pair", "half  pair"),
        ("Tränke für Ålsäge 刃", "Tränke für Ålsäge 刃"),
    ],
)
def test_what_a_terminal_would_obey_is_gone(raw: str, safe: str) -> None:
    assert plain(raw) == safe


@given(ANYTHING)
def test_nothing_but_printable_characters_comes_through(text: str) -> None:
    safe = plain(text)
    assert all(unicodedata.category(character)[0] != "C" for character in safe)
    assert safe.isprintable()
    assert plain(safe) == safe
    safe.encode()


@pytest.mark.parametrize(
    ("raw", "safe"),
    [
        ("Tränke für Ålsäge 刃 [b]", "Tränke für Ålsäge 刃 [b]"),
        ("\x1b[2Jprobe\x9b\x7f", "?[2Jprobe??"),
        ("two\nlines\tof it", "two?lines?of it"),
        ("abc\u202ecba \u200b", "abc?cba ?"),
        ("name\udcff", "name?"),
        ("", ""),
    ],
)
def test_what_a_terminal_would_obey_is_a_question_mark(raw: str, safe: str) -> None:
    assert printable(raw) == safe
    assert clean(raw) == safe


@given(ANYTHING)
def test_each_character_keeps_its_place(text: str) -> None:
    safe = printable(text)
    assert safe.isprintable()
    assert len(safe) == len(text)
    assert all(after in (before, "?") for before, after in zip(text, safe, strict=True))
    safe.encode()


def test_what_could_not_be_decoded_is_a_question_mark_where_bytes_come_in() -> None:
    assert clean(b"t: \xff 20".decode(errors="replace")) == "t: ? 20"


@given(ANYTHING, st.integers(4, 80))
def test_long_text_is_cut_and_says_so(text: str, longest: int) -> None:
    shown = clean(text, longest)
    assert shown.isprintable()
    if len(text) <= longest:
        assert len(shown) == len(text)
    else:
        assert len(shown) == longest
        assert shown.endswith("...")
        assert shown[:-3] == clean(text[: longest - 3], longest)
