"""The whole program on the simulated forge: unattended, and twice alike."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.slow

Heatbook = Callable[..., Any]
Ask = Callable[..., Any]
COOLING = Path(__file__).parents[2] / "cooling.toml"


def test_the_rehearsal_is_logged_like_any_sitting(heatbook: Heatbook, ask: Ask) -> None:
    done = heatbook("demo", "--unattended", "--json")
    assert (done.returncode, done.stderr) == (0, "")
    summary = json.loads(done.stdout)
    assert json.loads(ask("log", "list", "--json").stdout) == []
    listed = json.loads(ask("log", "list", "--rehearsals", "--json").stdout)
    assert [(one["id"], one["rehearsal"]) for one in listed] == [(summary["id"], True)]
    assert json.loads(ask("log", "--rehearsals", "show", summary["id"], "--json").stdout) == summary
    heats = [heat for step in summary["steps"] for heat in step["heats"]]
    assert len(heats) >= 12
    assert {"too cold", "soak done", "probe lost", "probe back", "cold enough"} <= {c["call"] for c in summary["calls"]}
    assert any(heat["too_cold_seconds"] > 5 for heat in heats)
    human = ask("log", "--rehearsals", "show", "last").stdout
    assert summary["id"] in human
    assert summary["state"] == "finished"


def test_a_rehearsal_is_the_same_at_any_speed(ask: Ask) -> None:
    once, again = (
        json.loads(ask("demo", "--plan", str(COOLING), "--unattended", "--json", "--seed", "1", *speed).stdout)
        for speed in ((), ("--speed", "2000"))
    )
    for what in ("steps", "calls", "notes", "state"):
        assert again[what] == once[what]
    assert {"soak done", "cold enough"} <= {call["call"] for call in once["calls"]}
