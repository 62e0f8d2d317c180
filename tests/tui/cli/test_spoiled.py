"""Files spoiled at random: a few of each; `python -m tests.faults` does the full number."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.faults.spoiled import TARGETS, Target, spoiled

pytestmark = pytest.mark.slow

TIMES = {"the index of the logbook": 4, "a sitting in the logbook": 2}
"""So many of those that are quick."""


@pytest.mark.parametrize(
    "target", [target for target in TARGETS if target.name in TIMES], ids=lambda target: target.name
)
def test_whatever_a_file_holds_nothing_hangs_nothing_is_lost_and_no_traceback_is_seen(
    target: Target, tmp_path: Path
) -> None:
    assert list(spoiled(target, tmp_path, TIMES[target.name])) == [None] * TIMES[target.name]
