"""Lines of text and the tally, by their width alone."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st
from rich.cells import cell_len

from plans.text import paragraphs
from tui.actions import Place, of
from tui.widgets.chalk import chalk_lines
from tui.widgets.lines import placed

KEYS = [("space", "in the fire", "next"), ("u", "undo", "undo"), ("n", "note", "note"), ("?", "help", "help")]


def test_keys_in_the_middle_give_way_and_the_first_never_does() -> None:
    assert [key[0] for _, _, key in placed(KEYS, 80)] == ["space", "u", "n", "?"]
    assert [key[0] for _, _, key in placed(KEYS, 40)] == ["space", "u", "?"]
    assert [key[0] for _, _, key in placed(KEYS, 30)] == ["space", "?"]
    assert [key[0] for _, _, key in placed(KEYS, 10)] == ["space"]
    assert placed([], 10) == []


@pytest.mark.parametrize("place", [place for place in Place if len([one for one in of(place) if one.at_foot]) > 1])
def test_the_way_out_of_every_screen_stands_however_many_keys_there_are(place: Place) -> None:
    keys = [*((one.key.split(",")[0], one.short, one.method) for one in of(place) if one.at_foot), KEYS[-1]]
    assert [key[2] for _, _, key in placed(keys, 80)][-2:] == ["leave", "help"]
    assert "leave" in [key[2] for _, _, key in placed(keys, 40)], "help gives way before it"


@given(st.integers(1, 200), st.integers(1, 3))
def test_keys_do_not_overlap(width: int, rows: int) -> None:
    ends = [0] * rows
    for row, column, key in placed(KEYS, width, rows):
        assert column >= ends[row]
        ends[row] = column + cell_len(key[0]) + 1 + cell_len(key[1])
        if row == column == 0:
            # The first one stands beside all rows.
            ends = [ends[0]] * rows


def test_a_second_row_takes_what_the_first_has_no_room_for() -> None:
    more = [*KEYS[:-1], ("q", "leave", "leave"), KEYS[-1]]
    shown = {key[0]: row for row, _, key in placed(more, 40, 2)}
    assert shown == {"space": 0, "u": 0, "n": 0, "q": 1, "?": 1}


@pytest.mark.parametrize(
    ("counts", "rows"),
    [
        ((0, 3, False), ["       ", "       ", "·  ·  ·"]),
        ((2, 4, True), ["██ ██      ", "██ ██      ", "██ ██ ██ · "]),
        ((5, 5, False), [" ██ ██ ██ ██ ", "█████████████", " ██ ██ ██ ██ "]),
    ],
)
def test_the_tally_is_strokes_and_every_fifth_goes_across(counts: tuple[int, int, bool], rows: list[str]) -> None:
    assert [line.strip() for line in chalk_lines(*counts, 40, 3)] == [row.strip() for row in rows]


@given(st.integers(0, 60), st.integers(0, 60), st.booleans(), st.integers(1, 100), st.integers(1, 6))
def test_the_tally_always_fits(done: int, planned: int, current: bool, width: int, height: int) -> None:
    lines = chalk_lines(done, planned, current, width, height)
    assert len(lines) == height
    assert {len(line) for line in lines} == {width}


def test_paragraphs_are_parted_by_empty_lines() -> None:
    assert paragraphs("one\ntwo\n\nthree\n") == ["one two", "three"]
    assert paragraphs("one\n  \ntwo") == ["one", "two"]
    assert paragraphs("") == []
