"""Whoever wants a plan that was cut off is asked about one that can be gone on with, and about no other."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from types import SimpleNamespace
from typing import Any

import pytest

from plans.logbook.summary import Progress, Summary
from plans.plan import Plan
from plans.units import Units
from tui.cli.report import Report
from tui.running.requests import sitting_of
from tui.screens.ask_to_go_on import or_go_on

STARTED = datetime(2026, 3, 14, 9, 15, 2, tzinfo=UTC)
LEFT = Summary("20260314-091502-draw", "draw", "Draw", STARTED, None, Progress.UNFINISHED, False, None, None)


NEWER = replace(LEFT, id="20260315-091502-draw", state=Progress.FINISHED)


@pytest.mark.parametrize(
    ("kept", "asked"),
    [
        ([LEFT], 1),
        ([replace(LEFT, state=Progress.FINISHED)], 0),
        ([replace(LEFT, state=Progress.RUNNING)], 0),
        ([replace(LEFT, rehearsal=True)], 0),
        ([replace(LEFT, plan="other")], 0),
        ([NEWER, LEFT], 0),
        ([replace(NEWER, plan="other"), LEFT], 1),
    ],
    ids=["left", "finished", "runs", "a rehearsal", "another plan", "begun anew since", "another plan since"],
)
async def test_only_what_can_be_gone_on_with_is_asked_about(kept: list[Summary], asked: int) -> None:
    questions = []

    async def answer(screen: Any) -> str:
        questions.append(screen)
        return "go on"

    logbook = SimpleNamespace(summaries=lambda: kept)
    host: Any = SimpleNamespace(settings=SimpleNamespace(units=Units.METRIC), push_screen_wait=answer, logbook=logbook)
    request = sitting_of(lambda: Plan("draw", "Draw", "", (), (), ""), None, None)
    answered = await or_go_on(host, request)
    assert len(questions) == asked
    assert answered.go_on == (LEFT.id if asked else None)


def test_one_that_is_not_put_away_yet_is_not_said_to_be_in_the_log() -> None:
    lines: list[str] = []
    report = Report(False, say=lines.append)
    report.recovered(LEFT)
    report.recovered(replace(LEFT, ended=STARTED))
    assert ["is in the log" in line for line in lines] == [False, True]
    assert all(LEFT.id in line for line in lines)
