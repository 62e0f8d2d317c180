"""A few of the faults that `python -m tests.faults` does to the program by the hundred."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.faults.clocks import JUMPS, clocks
from tests.faults.command_kills import COMMANDS, killed_in
from tests.faults.resizes import ODD, resizes

pytestmark = pytest.mark.slow


def test_killed_at_any_moment_every_event_that_was_told_comes_back(tmp_path: Path) -> None:
    assert list(killed_in(COMMANDS[0], tmp_path, most=2)) == [None] * 2


def test_a_wall_clock_that_is_set_loses_nothing(tmp_path: Path) -> None:
    assert list(clocks(tmp_path, JUMPS[2], every=13)) == [None] * 2


def test_a_screen_comes_back_from_every_size(tmp_path: Path) -> None:
    assert list(resizes(tmp_path, "shelf")) == [None] * (len(ODD) + 1)
