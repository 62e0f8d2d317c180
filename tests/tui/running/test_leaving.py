"""Leaving a sitting: what is said of where it is kept, and of what can be done with it."""

from __future__ import annotations

import os
from datetime import UTC, datetime
from errno import ENOSPC
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from plans.logbook.book import Logbook
from plans.logbook.errors import LogbookError
from plans.logbook.logged_sitting import LoggedSitting, work_out
from plans.logbook.store import Store
from plans.plan import Plan
from plans.reading import ProbeOn, Reading
from plans.sitting.events import Said, Word
from plans.units import Units
from tui.running.leaving import leave, or_go_on
from tui.running.running_sitting import RunningSitting

if TYPE_CHECKING:
    from tests.tui.running.conftest import ToldSource

STARTED = datetime(2026, 3, 14, 9, 15, 2, tzinfo=UTC)


@pytest.fixture
def running(book: Logbook, plan: Plan, source: ToldSource) -> RunningSitting:
    running = RunningSitting(LoggedSitting.begin(book, plan, STARTED), source)
    running.say(Word.ACKNOWLEDGE)
    return running


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
    rehearsed.say(Word.ACKNOWLEDGE)
    (line,) = leave(rehearsed, Units.METRIC).said
    assert "a rehearsal, kept apart from your log as 20260314-091502-draw in " in line
    assert line.endswith("; what was done: heatbook log --rehearsals show 20260314-091502-draw")
    assert or_go_on(book.summaries()[0]) == ""


def test_its_source_is_closed_and_leaving_again_says_the_same(running: RunningSitting, source: ToldSource) -> None:
    outcome = leave(running, Units.METRIC)
    assert source.asked.count("close") == 1
    assert leave(running, Units.METRIC) == outcome
    assert source.asked.count("close") == 1


def test_a_log_that_cannot_be_put_away_is_an_error(running: RunningSitting, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail() -> None:
        raise LogbookError("the disk is full")

    monkeypatch.setattr(running.logged, "put_away", fail)
    outcome = leave(running, Units.METRIC)
    assert (outcome.said, outcome.status) == ((), 1)
    assert "the disk is full" in outcome.errors[0]


@pytest.mark.parametrize("seed", [None, 1])
def test_nothing_is_kept_of_one_that_nothing_was_said_to(
    book: Logbook, plan: Plan, source: ToldSource, seed: int | None
) -> None:
    begun = RunningSitting(LoggedSitting.begin(book, plan, STARTED, seed=seed), source)
    for _ in range(2):
        outcome = leave(begun, Units.METRIC)
        assert (len(outcome.said), outcome.errors, outcome.status) == (1, (), 0)
        assert "nothing was said" in outcome.said[0]
    assert source.asked == ["close"]
    assert list(begun.logged.journal.path.parent.iterdir()) == []
    assert book.summaries() == []


def test_a_reading_is_kept_where_nothing_was_said(book: Logbook, plan: Plan, source: ToldSource) -> None:
    begun = RunningSitting(LoggedSitting.begin(book, plan, STARTED, ProbeOn.WORK), source)
    begun.hear(Reading(1.0, 1100.0))
    leave(begun, Units.METRIC)
    assert len(book.load("last").log.readings) == 1


def test_a_fault_while_it_is_put_away_leaves_its_whole_journal(
    running: RunningSitting, book: Logbook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    monkeypatch.setattr(Store, "write", lambda *_: 1 // 0)
    running.take(Reading(2.0, 1100.0))  # it waits for the next flush
    journal = running.logged.journal.path
    outcome = leave(running, Units.METRIC)
    assert (outcome.said, outcome.status) == ((), 1)
    assert str(journal.name) in outcome.errors[0]
    assert "at the next start" in outcome.errors[0]
    assert "ZeroDivisionError" in outcome.errors[1]
    assert not any("Traceback" in error for error in outcome.errors)
    book.close()
    monkeypatch.undo()
    (found,) = Logbook(book.folder).recover(work_out)
    kept = book.load(found.summary.id)
    assert [event.word for event in kept.log.events if isinstance(event, Said)] == [Word.ACKNOWLEDGE]
    assert len(kept.log.readings) == 1


def test_where_the_journal_cannot_be_written_either_the_log_is_elsewhere_or_said_to_be_lost(
    running: RunningSitting, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setattr(Store, "write", lambda *_: 1 // 0)
    monkeypatch.setattr(running.logged.journal, "flush", lambda: False)
    outcome = leave(running, Units.METRIC)
    copy = tmp_path / running.logged.journal.path.name
    assert str(copy) in outcome.errors[0] or copy.name in outcome.errors[0]
    assert b"acknowledge" in copy.read_bytes()
    monkeypatch.setattr(running.logged.journal, "write_copy", no_room)
    assert "is lost" in leave(running, Units.METRIC).errors[0]


def no_room(copy: Path) -> None:
    raise OSError(ENOSPC, os.strerror(ENOSPC), str(copy))
