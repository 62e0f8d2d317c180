"""The whole program on the simulated forge: unattended, twice alike, and killed in the middle."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.faults.rehearsal_kills import killed_while_rehearsing

pytestmark = pytest.mark.slow

Heatbook = Callable[..., Any]


def test_the_rehearsal_is_logged_like_any_sitting(heatbook: Heatbook) -> None:
    done = heatbook("demo", "--unattended", "--json")
    assert (done.returncode, done.stderr) == (0, "")
    summary = json.loads(done.stdout)
    assert json.loads(heatbook("log", "list", "--json").stdout) == []
    listed = json.loads(heatbook("log", "--rehearsals", "list", "--json").stdout)
    assert [(one["id"], one["rehearsal"]) for one in listed] == [(summary["id"], True)]
    assert json.loads(heatbook("log", "--rehearsals", "show", summary["id"], "--json").stdout) == summary
    heats = [heat for step in summary["steps"] for heat in step["heats"]]
    assert len(heats) >= 12
    assert {"too cold", "soak done", "probe lost", "probe back", "cold enough"} <= {c["call"] for c in summary["calls"]}
    assert any(heat["too_cold_seconds"] > 5 for heat in heats)
    human = heatbook("log", "--rehearsals", "show", "last").stdout
    assert summary["id"] in human
    assert summary["state"] == "finished"


def test_a_rehearsal_is_the_same_at_any_speed(heatbook: Heatbook) -> None:
    once, again = (
        json.loads(heatbook("demo", "--plan", "normalize", "--unattended", "--json", "--seed", "1", *speed).stdout)
        for speed in ((), ("--speed", "2000"))
    )
    for what in ("steps", "calls", "notes", "state"):
        assert again[what] == once[what]
    assert len(once["calls"]) > 3


def test_killed_at_any_moment_every_event_that_was_told_comes_back(tmp_path: Path) -> None:
    """One of the kills; `python -m tests.faults` does the full number."""
    assert list(killed_while_rehearsing(tmp_path, kills=1)) == [None]
