"""The whole program on the simulated forge: unattended, twice alike, and killed in the middle."""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Heatbook = Callable[..., Any]

KILLS = 50

TELLING = """
import sys
from datetime import datetime
from pathlib import Path
from queue import SimpleQueue
from tui.cli.report import Report
from tui.cli.without_screen import follow
from tui.config.settings import Settings
from tui.running.begin import begin
from tui.running.loading import open_logbook
from tui.running.requests import plan_called, rehearsal_of

logbook, inbox = open_logbook(Path(sys.argv[1])).logbook, SimpleQueue()
request = rehearsal_of(lambda: plan_called("drawknife"), 5, None)
running = begin(request, logbook, Settings(), Path(sys.argv[1]) / "shop.toml", inbox.put, datetime.now().astimezone())
follow(running, inbox, Report(as_json=True), listen=False)
running.source.close()
"""
"""A rehearsal that says each event as soon as it is logged."""


def test_the_same_seed_gives_the_same_sitting_at_any_speed(heatbook: Heatbook) -> None:
    runs = [
        json.loads(heatbook("demo", "--unattended", "--json", "--seed", "7", *speed).stdout)
        for speed in ((), ("--speed", "2000"))
    ]
    assert runs[0]["steps"] == runs[1]["steps"]
    assert runs[0]["calls"] == runs[1]["calls"]
    assert runs[0]["notes"] == runs[1]["notes"]
    assert runs[0]["state"] == "finished"


def test_the_rehearsal_is_logged_like_any_sitting_and_marked(heatbook: Heatbook) -> None:
    done = heatbook("demo", "--unattended", "--json")
    assert (done.returncode, done.stderr) == (0, "")
    summary = json.loads(done.stdout)
    listed = json.loads(heatbook("log", "list", "--json").stdout)
    assert [(one["id"], one["rehearsal"]) for one in listed] == [(summary["id"], True)]
    assert json.loads(heatbook("log", "show", summary["id"], "--json").stdout) == summary
    heats = [heat for step in summary["steps"] for heat in step["heats"]]
    assert len(heats) >= 12
    assert {"too cold", "soak done", "probe lost", "probe back", "cold enough"} <= {c["call"] for c in summary["calls"]}
    assert any(heat["too_cold_seconds"] > 5 for heat in heats)
    human = heatbook("log", "show", "last").stdout
    assert summary["id"] in human


@pytest.mark.parametrize("part", range(5))
def test_killed_at_any_moment_every_event_that_was_told_comes_back(tmp_path: Path, part: int) -> None:
    """Stronger than asked: not a second is lost of what was said, let alone of what is older."""
    chance = random.Random(part)
    for number in range(KILLS // 5):
        folder = tmp_path / f"logbook{number}"
        process = subprocess.Popen(
            [sys.executable, "-c", TELLING, str(folder)], stdout=subprocess.PIPE, text=True, env=os.environ
        )
        assert process.stdout
        told = []
        for _ in range(chance.randrange(20, 90)):
            told.append(json.loads(process.stdout.readline()))
        process.kill()
        told += [json.loads(line) for line in process.communicate()[0].splitlines(keepends=True) if line.endswith("\n")]
        _check(folder, [event for event in told if event["event"] in ("word", "phase", "call", "eased")])


def _check(folder: Path, told: list[dict[str, Any]]) -> None:
    from plans.logbook.book import Logbook
    from plans.logbook.logged_sitting import LoggedSitting, work_out
    from plans.sitting.events import Ended, to_record

    logbook = Logbook(folder)
    found = logbook.recover(work_out)
    assert (len(found), found[0].damage, logbook.messages) == (1, (), [])
    kept = logbook.load("last")
    back = [to_record(event) for event in kept.log.events if not isinstance(event, Ended)]
    first = next(index for index, event in enumerate(told) if event["at_seconds"] or event["event"] == "word")
    events = [{key: event[key] for key in event if key in _KEYS[event["event"]]} for event in told[first:]]
    kept_events = [event for event in back if event["at_seconds"] or event["event"] == "word"]
    kept_events = [{key: event[key] for key in event if key in _KEYS[event["event"]]} for event in kept_events]
    assert kept_events[: len(events)] == events
    assert len(kept_events) - len(events) <= 3, "no more than what was logged and not yet told"
    if found[0].summary.state.value == "unfinished":
        running = LoggedSitting.go_on(logbook, kept.header.id, kept.header.wall_time(kept.log.last_at))
        assert running.sitting.state.last_begun.at <= kept.log.last_at
        assert len(running.sitting.state.calls) == sum(event["event"] == "call" for event in back)
    logbook.close()


_KEYS = {
    "word": ("at_seconds", "word", "text"),
    "phase": ("at_seconds", "step", "heat", "phase", "by"),
    "call": ("at_seconds", "call", "step", "heat", "celsius", "basis"),
    "eased": ("at_seconds", "call"),
}
