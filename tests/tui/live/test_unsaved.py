"""The warning that the log can't be written."""

from __future__ import annotations

import pytest
from rich.cells import cell_len

from tui.live.unsaved import warning_rows

WHY = (
    "can't write /home/ann/.local/share/heatbook/logbook/sittings/20260314-091502-draw.jsonl: no space is left; tidy up"
)


@pytest.mark.parametrize("width", [16, 20, 40, 80, 100, 200])
@pytest.mark.parametrize("height", [1, 2, 5, 9, 18, 24, 55])
@pytest.mark.parametrize("far", [False, True])
def test_it_says_what_is_wrong_at_every_size_and_leaves_room(width: int, height: int, far: bool) -> None:
    rows = warning_rows(WHY, width, height, far=far)
    assert len(rows) <= min(3, height - 1)
    assert all(cell_len(row) <= width for row in rows)
    if height >= 5:
        assert " ".join(rows).startswith("NOT ON THE DISK")
    if far and width >= 20:
        assert len(rows) == min(1, height - 1)


def test_at_24_rows_all_of_it_stands() -> None:
    for width in (80, 100):
        assert " ".join(warning_rows(WHY, width, 24)) == f"NOT ON THE DISK: {WHY}"
    assert warning_rows(None, 80, 24) == ()


def test_a_long_path_is_cut_in_the_middle_and_the_reason_stands() -> None:
    (row,) = warning_rows(f"{WHY}; the log goes on in memory and is tried again", 80, 24, far=True)
    assert row.startswith("NOT ON THE DISK: can't write /home…")
    assert ".jsonl: no space is left; tidy up" in row
    assert cell_len(row) == 80
