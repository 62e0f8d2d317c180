"""Words as they are typed."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from plans.sitting.events import Said, Word
from plans.sitting.words import LONGEST_NOTE, WordError, parse_word


@pytest.mark.parametrize("word", [word for word in Word if not word.has_text])
@pytest.mark.parametrize("dress", ["{}", " {} ", "{}\r\n", "\t{}"])
def test_every_word_can_be_typed(word: Word, dress: str) -> None:
    assert parse_word(dress.format(word.value), 2.5) == Said(2.5, word)
    assert parse_word(dress.format(word.value.upper()), 2.5) == Said(2.5, word)


@pytest.mark.parametrize(
    ("typed", "text"),
    [
        ("note scale on the edge", "scale on the edge"),
        ("NOTE  Two  blanks kept inside ", "Two  blanks kept inside"),
        ("note\ttab", "tab"),
        ("note \x1b[31mred\x9b", "[31mred"),
        ("note one\x1btwo\x00", "onetwo"),
        ("note 1250\u00a0°C\u2028and\tmore", "1250 °C and more"),
        ("note [b]not markup[/b]", "[b]not markup[/b]"),
        ("note " + "x" * LONGEST_NOTE, "x" * LONGEST_NOTE),
    ],
)
def test_a_note_keeps_its_text(typed: str, text: str) -> None:
    assert parse_word(typed, 0.0) == Said(0.0, Word.NOTE, text)


@pytest.mark.parametrize(("beginning", "more"), [(5000, 0), (LONGEST_NOTE + 1, 0), (2000, 1_046_576), (1, 1000)])
def test_a_note_that_is_too_long_keeps_its_beginning_and_says_how_long_it_was(beginning: int, more: int) -> None:
    text = parse_word("note " + "x" * beginning, 0.0, more).text
    assert text.startswith("x" * min(beginning, 900))
    assert text.endswith(f"[cut short, of {beginning + more} characters]")
    assert len(text) <= LONGEST_NOTE
    assert parse_word(f"note {text}", 0.0).text == text, "once is enough"


@pytest.mark.parametrize("typed", ["", "   ", "nxt", "next!", "note", "note  ", "note \x1b", "next please", "\x1b[A"])
def test_what_is_no_word_is_refused_with_what_would_be(typed: str) -> None:
    with pytest.raises(WordError) as caught:
        parse_word(typed, 0.0)
    assert str(caught.value).isprintable()
    assert "note" in str(caught.value)


def test_an_unknown_word_is_told_all_words() -> None:
    with pytest.raises(WordError) as caught:
        parse_word("onwards", 0.0)
    assert "onwards" in str(caught.value)
    for word in Word:
        assert word.value in str(caught.value)


@given(st.text())
def test_any_text_is_a_word_or_refused(typed: str) -> None:
    refused = ""
    try:
        said = parse_word(typed, 1.0)
    except WordError as error:
        refused = str(error)
    else:
        assert said.text.isprintable()
        assert (said.word is Word.NOTE) == bool(said.text)
    assert refused.isprintable()
