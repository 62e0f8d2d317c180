"""The row of questions with more of them than there is room for."""

from __future__ import annotations

import itertools

import pytest

from tui.widgets.question_row import QuestionRow, columns, written

STOCK = ["weight", "draw", "stock", "layers", "twist", "laminate", "composite", "notch", "wander", "squeeze"]
GROUPS = {"heat": ["cooling", "soak"], "stock": STOCK, "bench": ["bevels"]}


@pytest.mark.parametrize("width", [12, 20, 40, 70, 80, 200])
def test_the_chosen_name_is_there_whole_and_none_runs_into_the_next(width: int) -> None:
    for chosen, name in enumerate(STOCK):
        begins = columns(STOCK, chosen, width)
        assert 0 < begins[chosen] < width - len(name)
        places = sorted(begins)
        assert places == list(range(places[0], places[-1] + 1))
        for place, after in itertools.pairwise(places):
            assert begins[place] + len(STOCK[place]) < begins[after]


def test_at_eighty_columns_ten_names_are_there() -> None:
    assert len(columns(STOCK, 9, 80)) == 10


@pytest.mark.parametrize(("name", "marks"), [("weight", " ›"), ("twist", "‹›"), ("squeeze", "‹ ")])
def test_what_is_left_out_is_marked(name: str, marks: str) -> None:
    line = written(STOCK, STOCK.index(name), 40)
    assert name in line.split()
    assert line[0] + line[-1] == marks


def test_one_goes_on_into_the_next_group_and_round() -> None:
    row = QuestionRow(GROUPS)
    seen = [row.chosen]
    for _ in range(13):
        row.chosen = row.beside(1)
        seen.append(row.chosen)
    assert seen == ["cooling", "soak", *STOCK, "bevels", "cooling"]
    assert row.beside(-1) == "bevels"
    assert [row.first_of(key) for key in (1, 2, 3, 4)] == ["cooling", "weight", "bevels", "cooling"]
