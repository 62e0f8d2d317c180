"""`heatbook log taught` and `forget`, as they are typed."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.tui.taught.test_screen import fill_four


@pytest.fixture
def filled(home: Path) -> Path:
    """A home with four sittings that teach a factor in air, and a shop file."""
    return fill_four(home)


def test_what_sittings_teach_is_listed_and_forgotten_and_counts_again(filled: Path, ask: Any) -> None:
    listed = ask("log", "taught").stdout
    assert listed.startswith("cooling-factor\n  cooling in air, factor")
    assert "heatbook goes by: 1.30, the shop file" in " ".join(listed.split())
    assert max(map(len, listed.splitlines())) <= 80
    (row,) = json.loads(ask("log", "taught", "--json").stdout)
    # The mean of the logarithms of 1.10, 1.12, 1.14 and 1.16, weighed by their relative errors: 1.13 to two places.
    assert round(row["taught"]["value"], 2) == 1.13
    before = filled.read_text()
    said = ask("log", "forget", "cooling-factor").stdout
    assert "cooling_factor = 1.3 was set by hand" in said
    emptied = " ".join(ask("log", "taught").stdout.split())
    assert emptied.startswith("All that your sittings taught was forgotten")
    assert emptied.endswith("counts no more; again: heatbook log forget cooling-factor --back")
    assert ask("log", "forget", "cooling-factor", "--back").returncode == 0
    assert ask("log", "taught").stdout == listed
    assert filled.read_text().startswith(before)
    for words, why in (
        (("nothing",), "has these: cooling-factor"),
        (("cooling-factor", "--back"), "was not forgotten"),
    ):
        answer = ask("log", "forget", *words)
        assert answer.returncode != 0
        assert why in answer.stderr
