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


@pytest.mark.parametrize(
    ("cut_off", "asked"),
    [
        ([LEFT], 1),
        ([replace(LEFT, state=Progress.FINISHED)], 0),
        ([replace(LEFT, rehearsal=True)], 0),
    ],
    ids=["left", "finished", "a rehearsal"],
)
async def test_only_what_can_be_gone_on_with_is_asked_about(cut_off: list[Summary], asked: int) -> None:
    questions = []

    async def answer(screen: Any) -> str:
        questions.append(screen)
        return "go on"

    host: Any = SimpleNamespace(settings=SimpleNamespace(units=Units.METRIC), push_screen_wait=answer)
    request = sitting_of(lambda: Plan("draw", "Draw", "", (), (), ""), None, None)
    answered = await or_go_on(host, request, cut_off)
    assert len(questions) == asked
    assert answered.go_on == (LEFT.id if asked else None)


def test_one_that_is_not_put_away_yet_is_not_said_to_be_in_the_log() -> None:
    lines: list[str] = []
    report = Report(False, say=lines.append)
    report.recovered(LEFT)
    report.recovered(replace(LEFT, ended=STARTED))
    assert ["is in the log" in line for line in lines] == [False, True]
    assert all(LEFT.id in line for line in lines)
