from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given, strategies as st

from tui.widgets.glyphs import GLYPHS, ROWS
from tui.widgets.painting import Picture, big_line, big_words

WIDTHS = st.integers(1, 220)
HEIGHTS = st.integers(1, 60)
INKED = {" ": 0, "▀": 1, "▄": 1, "█": 2}
CALLS = ["STRIKE", "SOAK", "FIRE", "OUT", "BACK IN", "TOO COLD", "TOO HOT", "SOAKED TOO LONG", "PROBE LOST", "QUENCH"]


def dots(picture: Picture) -> list[str]:
    """The picture as rows of dots, two to a cell."""
    return ["".join("#" if cell in inked else "." for cell in row) for row in picture for inked in ("▀█", "▄█")]


def test_every_mask_is_seven_rows_as_wide_as_its_pattern() -> None:
    for character, glyph in GLYPHS.items():
        assert len(glyph.rows) == ROWS, character
        assert {len(row) for row in glyph.rows} == {len(glyph.columns)}, character
        assert set("".join(glyph.rows)) <= set("#.")


def test_the_letter_l_is_an_upright_and_a_foot() -> None:
    # Four cells high are eight dots; the pen is one dot at this width.
    assert big_line("L", 3, 4) == ("█  ", "█  ", "█  ", "█▄▄")


def test_the_letter_i_is_a_full_bar() -> None:
    picture = big_line("I", 1, 4)
    assert picture == ("█",) * 4


def test_a_minus_lies_in_the_middle() -> None:
    picture = big_line("-", 20, 10)
    assert picture is not None
    inked = [row for row, line in enumerate(dots(picture)) if "#" in line]
    assert inked[0] in (8, 9)
    assert inked[0] + inked[-1] in (18, 19, 20)


@given(st.text("0123456789:-., ", min_size=1, max_size=8), WIDTHS, HEIGHTS)
def test_a_line_stays_inside_its_room(text: str, width: int, height: int) -> None:
    picture = big_line(text, width, height)
    if picture is not None:
        assert len(picture) <= height
        assert {len(row) for row in picture} == {len(picture[0])}
        assert len(picture[0]) <= width
        assert set("".join(picture)) <= set(INKED)


@given(st.sampled_from(CALLS) | st.text("ABCDEFGHIJKLMNOPQRSTUVWXYZ ", max_size=20), WIDTHS, HEIGHTS)
def test_words_stay_inside_their_room(text: str, width: int, height: int) -> None:
    picture = big_words(text, width, height)
    if picture is not None:
        assert len(picture) <= height
        assert {len(row) for row in picture} == {len(picture[0])}
        assert len(picture[0]) <= width


@given(st.integers(4, 60), st.integers(3, 60))
def test_digits_differ_at_every_size_and_keep_their_room(width: int, height: int) -> None:
    pictures = [big_line(digit, width, height) for digit in "0123456789"]
    assert None not in pictures
    assert len(set(pictures)) == 10
    assert len({(len(picture), len(picture[0])) for picture in pictures if picture}) == 1


@pytest.mark.parametrize("height", [10, 14, 20])
def test_figures_ten_rows_tall_are_told_apart_by_more_than_a_few_dots(height: int) -> None:
    """What sets an 8 off from a 0 is the middle bar, about half the width by a tenth of the height."""
    for one, other in combinations("0123456789", 2):
        first, second = big_line(one, 15, height), big_line(other, 15, height)
        assert first is not None
        assert second is not None
        apart = sum(
            a != b
            for left, right in zip(dots(first), dots(second), strict=True)
            for a, b in zip(left, right, strict=True)
        )
        assert apart >= 0.045 * len(first) * 2 * len(first[0]), (one, other)


@given(st.integers(5, 60), st.integers(3, 60))
def test_letters_differ_at_every_size(width: int, height: int) -> None:
    letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    pictures = [big_line(letter, width, height) for letter in letters]
    assert None not in pictures
    assert len(set(pictures)) == len(letters)


@given(st.integers(10, 99), st.integers(20, 100), st.integers(5, 40))
def test_a_running_figure_does_not_jump(seconds: int, width: int, height: int) -> None:
    one, other = big_line(str(seconds), width, height), big_line("88", width, height)
    assert one is not None
    assert other is not None
    assert (len(one), len(one[0])) == (len(other), len(other[0]))


@pytest.mark.parametrize("text", ["42", "4:10", "1187", "--", "1:05:00"])
def test_figures_are_ten_rows_tall_beside_a_scale_on_the_smallest_screen(text: str) -> None:
    picture = big_line(text, 60, 10)
    assert picture is not None
    assert len(picture) == 10
    assert len(picture[0]) >= 15


@pytest.mark.parametrize("call", CALLS)
def test_every_call_fits_across_eighty_columns_in_three_rows(call: str) -> None:
    picture = big_words(call, 80, 3)
    assert picture is not None
    assert len(picture) == 3


def test_words_take_the_lines_that_make_them_largest() -> None:
    stacked = big_words("TOO COLD", 24, 8)
    assert stacked is not None
    assert len(stacked) == 8
    across = big_words("TOO COLD", 80, 4)
    assert across is not None
    assert len(across) == 4
    assert len(across[0]) > 40


def test_small_letters_are_drawn_as_capitals_and_strange_ones_as_question_marks() -> None:
    assert big_line("soak", 60, 6) == big_line("SOAK", 60, 6)
    assert big_line("刃", 20, 6) == big_line("?", 20, 6)


@pytest.mark.parametrize(("width", "height"), [(3, 10), (40, 2), (1, 1)])
def test_where_it_cannot_be_drawn_it_is_not_drawn(width: int, height: int) -> None:
    assert big_line("42", width, height) is None
    assert big_words("TOO COLD", width, height) is None


def test_nothing_is_drawn_for_nothing() -> None:
    assert big_line("", 40, 10) is None
    assert big_words("  ", 40, 10) is None
