"""Killed with no warning, at any moment: what was acknowledged is there, and nothing is corrupt.

A few of the kills; `python -m tests.faults` does the full number.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.faults.kills import killed_while_putting_away, killed_while_writing

pytestmark = pytest.mark.slow


def test_nothing_that_was_acknowledged_is_lost(folder: Path) -> None:
    assert list(killed_while_writing(folder, kills=5)) == [None] * 5


def test_killed_before_every_single_step_of_putting_away(folder: Path) -> None:
    found = list(killed_while_putting_away(folder))
    assert len(found) > 10
    assert not any(found)
