"""What the program hears, from outside: a forge beside this file plays to it, and its log is held against the truth.

A few of the traces; `python -m tests.faults` plays them all, and `python -m tests.listening.played` prints their table.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.listening.played.aims import shortcomings
from tests.listening.played.cells import Cell
from tests.listening.played.grid import quick
from tests.listening.played.lock_step import play_in_lock_step

pytestmark = pytest.mark.slow


@pytest.mark.parametrize("cell", quick(seed=1), ids=Cell.name)
def test_a_recording_is_heard_as_it_was(cell: Cell) -> None:
    assert shortcomings(cell, cell.play()) == []


def test_a_probe_on_a_port_is_heard_as_a_recording_is(tmp_path: Path) -> None:
    assert shortcomings(*play_in_lock_step(tmp_path, seed=1)) == []
