"""Leaving a sitting: what is said of where it is kept, and of what can be done with it."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest

from plans.logbook.book import Logbook
from plans.logbook.errors import LogbookError
from plans.logbook.logged_sitting import LoggedSitting
from plans.plan import Plan
from plans.sitting.events import Word
from plans.units import Units
from tui.running.leaving import leave, or_go_on
from tui.running.running_sitting import RunningSitting

if TYPE_CHECKING:
    from tests.tui.running.conftest import ToldSource

STARTED = datetime(2026, 3, 14, 9, 15, 2, tzinfo=UTC)


@pytest.fixture
def running(book: Logbook, plan: Plan, source: ToldSource) -> RunningSitting:
    return RunningSitting(LoggedSitting.begin(book, plan, STARTED), source)


def test_one_that_was_left_says_how_to_go_on_with_it(running: RunningSitting, book: Logbook) -> None:
    outcome = leave(running, Units.METRIC)
    (line,) = outcome.said
    assert (outcome.errors, outcome.status) == ((), 0)
    assert line.startswith("Drawknife with a laid edge: kept as 20260314-091502-draw in ")
    assert line.endswith("; go on with it: heatbook run --go-on 20260314-091502-draw")
    assert str(book.folder.name) in line
    assert or_go_on(book.summaries()[0]) == "; go on with it: heatbook run --go-on 20260314-091502-draw"


def test_one_that_is_finished_says_where_to_look_at_it(running: RunningSitting, book: Logbook) -> None:
    running.say(Word.FINISH)
    (line,) = leave(running, Units.METRIC).said
    assert line.endswith("; what was done: heatbook log show 20260314-091502-draw")
    assert "--go-on" not in line
    assert or_go_on(book.summaries()[0]) == ""


def test_a_rehearsal_says_that_it_is_apart_and_not_how_to_go_on(book: Logbook, plan: Plan, source: ToldSource) -> None:
    rehearsed = RunningSitting(LoggedSitting.begin(book, plan, STARTED, seed=1), source)
    (line,) = leave(rehearsed, Units.METRIC).said
    assert "a rehearsal, kept apart from your log as 20260314-091502-draw in " in line
    assert line.endswith("; what was done: heatbook log --rehearsals show 20260314-091502-draw")
    assert or_go_on(book.summaries()[0]) == ""


def test_its_source_is_closed_and_leaving_again_says_the_same(running: RunningSitting, source: ToldSource) -> None:
    outcome = leave(running, Units.METRIC)
    assert source.asked == ["close"]
    assert leave(running, Units.METRIC) == outcome
    assert source.asked == ["close"]


def test_a_log_that_cannot_be_put_away_is_an_error(running: RunningSitting, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail() -> None:
        raise LogbookError("the disk is full")

    monkeypatch.setattr(running.logged, "put_away", fail)
    outcome = leave(running, Units.METRIC)
    assert (outcome.said, outcome.status) == ((), 1)
    assert "the disk is full" in outcome.errors[0]
