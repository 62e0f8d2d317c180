from __future__ import annotations

from itertools import combinations

from hypothesis import given, strategies as st

from tui.widgets.label_rows import rows_for_labels

WANTED = st.lists(st.floats(-3, 12), max_size=5).map(sorted)


def test_labels_that_do_not_meet_stay() -> None:
    assert rows_for_labels([0, 3, 4, 9], 10) == [0, 3, 4, 9]


def test_labels_that_meet_make_room_both_ways() -> None:
    assert rows_for_labels([5, 5, 5], 10) == [4, 5, 6]


def test_at_the_ends_they_are_pushed_inside() -> None:
    assert rows_for_labels([0, 0], 10) in ([0, 1],)
    assert rows_for_labels([9, 9, 9], 10) == [7, 8, 9]


@given(WANTED, st.integers(5, 9))
def test_no_other_order_would_be_nearer(wanted: list[float], rows: int) -> None:
    """Against every way to choose as many rows; by the sum of squares."""

    def cost(places: tuple[int, ...]) -> float:
        return sum((place - row) ** 2 for place, row in zip(places, wanted, strict=True))

    places = rows_for_labels(wanted, rows)
    assert places == sorted(set(places))
    assert all(0 <= place < rows for place in places)
    assert cost(tuple(places)) <= min(map(cost, combinations(range(rows), len(wanted)))) + 1e-6
