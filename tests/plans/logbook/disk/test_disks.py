"""Power cuts, torn journals and disks in trouble: a few of each; `python -m tests.faults` does the full number."""

from __future__ import annotations

from pathlib import Path
from unittest.mock import patch

from tests.faults.disks import disks
from tests.faults.power_cuts import power_cuts
from tests.faults.torn import doubled_behind, zeroed_behind


def test_what_was_acknowledged_is_there_after_a_power_cut(tmp_path: Path) -> None:
    assert list(power_cuts(tmp_path, times=5)) == [None] * 5


def test_these_power_cuts_find_what_is_not_synced(tmp_path: Path) -> None:
    with patch("plans.writing.sync_folder"):
        assert any(power_cuts(tmp_path, times=25))


def test_zeros_and_repeated_lines_at_the_end_of_a_journal_cost_nothing(tmp_path: Path) -> None:
    assert not any([*zeroed_behind(tmp_path, 1), *doubled_behind(tmp_path, 2)])


def test_a_disk_in_trouble_costs_nothing_of_the_log(tmp_path: Path) -> None:
    assert list(disks(tmp_path, of_its_own=False)) == [None] * 10
