"""Recovery from a journal and a file of the same sitting, whichever of the two is damaged, or another one's."""

from __future__ import annotations

import os
from datetime import datetime, timedelta
from pathlib import Path
from typing import NoReturn

import pytest

from plans.logbook.book import Logbook
from plans.logbook.errors import LogbookError
from plans.logbook.header import Header
from plans.logbook.journal.lines import entry_line
from plans.logbook.kept_sitting import WorkedOut, WorkOut
from plans.logbook.log import Log
from plans.plan import Plan
from plans.sitting.events import Event, Said, WentOn, Word
from tests.plans.logbook.conftest import written_long_ago

BEFORE: list[Event] = [Said(at, Word.NOTE, f"before, {at}") for at in range(1, 9)]
SINCE: list[Event] = [WentOn(600.0), *(Said(at, Word.NOTE, f"since, {at}") for at in range(601, 605))]


def unknown(header: Header, log: Log) -> WorkedOut:
    del header, log
    return WorkedOut(None)


def begun(book: Logbook, plan: Plan, started: datetime, events: list[Event]) -> Path:
    journal = book.open_sitting(plan, started)
    for event in events:
        journal.event(event)
    return journal.path


@pytest.fixture
def gone_on(book: Logbook, plan: Plan, started: datetime) -> Path:
    """The journal of a sitting that was put away, gone on with, and cut off then."""
    path = begun(book, plan, started, BEFORE)
    book.close()
    book.recover(unknown)
    journal = book.go_on(book.take_up("last"), started + timedelta(minutes=10), 600.0)
    for event in SINCE:
        journal.event(event)
    book.close()
    return path


def files(path: Path) -> dict[str, bytes]:
    return {file.name: file.read_bytes() for file in path.parent.iterdir()}


def zeroed(path: Path, begin: str, length: int) -> bytes:
    content = bytearray(path.read_bytes())
    at = content.index(begin.encode())
    content[at : at + length] = bytes(length)
    path.write_bytes(content)
    return bytes(content)


@pytest.mark.parametrize("length", [1, 90, 250])
@pytest.mark.parametrize("begin", ["before, 1", "before, 3"])
def test_where_the_old_part_of_a_journal_is_damaged_the_file_stands_for_it(
    book: Logbook, gone_on: Path, begin: str, length: int
) -> None:
    damaged = zeroed(gone_on, begin, length)
    (recovered,) = book.recover(unknown)
    assert list(book.load("last").log) == [*BEFORE, *SINCE]
    assert files(gone_on)[f"{gone_on.name}.bad"] == damaged
    assert not gone_on.exists()
    assert "can't be read" in recovered.damage[0]
    assert f"kept as {gone_on.name}.bad" in book.messages[-1]


def test_where_the_new_part_is_damaged_the_rest_of_it_is_kept(book: Logbook, gone_on: Path) -> None:
    zeroed(gone_on, "since, 602", 5)
    book.recover(unknown)
    assert list(book.load("last").log) == [*BEFORE, *SINCE[:2], *SINCE[3:]]
    assert f"{gone_on.name}.bad" in files(gone_on)


def test_where_all_behind_the_beginning_is_gone_that_is_said_and_the_file_stands(book: Logbook, gone_on: Path) -> None:
    size = gone_on.stat().st_size
    damaged = zeroed(gone_on, "before, 3", size)[:size]
    gone_on.write_bytes(damaged)
    book.recover(unknown)
    assert list(book.load("last").log) == BEFORE
    assert files(gone_on)[f"{gone_on.name}.bad"] == damaged
    assert "can't be read" in book.messages[0]


def test_where_the_first_line_is_damaged_the_file_stands_for_it(book: Logbook, gone_on: Path) -> None:
    zeroed(gone_on, "heatbook", 4)
    book.recover(unknown)
    kept = book.load("last")
    assert list(kept.log) == [*BEFORE, *SINCE]
    assert kept.header.source
    assert f"{gone_on.name}.bad" in files(gone_on)


def test_where_the_plan_in_the_first_line_is_damaged_the_file_stands_for_it(
    book: Logbook, gone_on: Path, plan: Plan
) -> None:
    content = gone_on.read_bytes()
    gone_on.write_bytes(content.replace(b"drawknife\\", b"drowknife\\", 1))
    assert gone_on.read_bytes() != content
    (recovered,) = book.recover(unknown)
    kept = book.load("last")
    assert (list(kept.log), kept.header.source) == ([*BEFORE, *SINCE], plan.source)
    assert "line 1 is not as it was put away before" in recovered.damage[-1]
    assert len(kept.header.went_on) == 1


def test_where_the_file_is_damaged_the_journal_stands_for_it(book: Logbook, gone_on: Path) -> None:
    written_long_ago(gone_on.with_suffix(".json"), b"{")
    book.recover(unknown)
    assert list(book.load("last").log) == [*BEFORE, *SINCE]
    assert files(gone_on)[f"{gone_on.stem}.json.bad"] == b"{"


def test_where_nothing_is_damaged_all_of_it_is_kept_and_the_journal_goes(book: Logbook, gone_on: Path) -> None:
    book.recover(unknown)
    assert list(book.load("last").log) == [*BEFORE, *SINCE]
    assert set(files(gone_on)) == {f"{gone_on.stem}.json"}
    assert book.messages == []


@pytest.mark.parametrize("first_is_there", [True, False])
def test_a_journal_under_the_name_of_another_sitting_is_put_away_by_its_own(
    book: Logbook, plan: Plan, started: datetime, first_is_there: bool
) -> None:
    first = begun(book, plan, started, BEFORE)
    other = begun(book, plan, started + timedelta(days=1), BEFORE[:2])
    book.close()
    book.recover(unknown) if first_is_there else first.unlink()
    if first_is_there:
        other = begun(book, plan, started + timedelta(days=1), BEFORE[:2])
        book.close()
    other.rename(first)
    book.recover(unknown)
    names = [summary.id for summary in book.summaries()]
    assert len(names) == 3 if first_is_there else names == [other.stem]
    assert list(book.load(names[0]).log) == BEFORE[:2]
    if first_is_there:
        assert list(book.load(first.stem).log) == BEFORE
    assert not first.exists()
    assert "was another sitting than its name says" in book.messages[-1]


def test_what_makes_no_log_is_set_aside_whole_and_named(
    book: Logbook, plan: Plan, started: datetime, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No such damage is known: whatever is read of a journal is in order. Were there one, no line may be lost."""

    def refuse(*_: object) -> NoReturn:
        raise ValueError("event 3 goes back in time")

    monkeypatch.setattr("plans.logbook.cut_off.check_log", refuse)
    path = begun(book, plan, started, BEFORE)
    book.close()
    whole = path.read_bytes()
    with pytest.raises(LogbookError, match="makes no log"):
        book.take_up(path.stem)
    assert book.recover(unknown) == []
    assert files(path) == {f"{path.name}.bad": whole}
    assert "makes no log (event 3 goes back in time)" in book.messages[-1]
    assert f"kept as {path.name}.bad" in book.messages[-1]


def test_a_going_on_of_before_is_not_put_behind_the_end_of_the_file(book: Logbook, gone_on: Path) -> None:
    lines = gone_on.read_bytes().splitlines(keepends=True)
    gone_on.write_bytes(b"".join([*lines[:8], b"x\n", entry_line(WentOn(7.5), 8)]))
    book.recover(unknown)
    assert list(book.load("last").log) == BEFORE


def test_a_journal_under_another_name_is_gone_on_with_by_its_own(book: Logbook, plan: Plan, started: datetime) -> None:
    path = begun(book, plan, started, BEFORE)
    book.close()
    other = path.with_stem("20261125-101502-drawknife")
    path.rename(other)
    kept = book.take_up(other.stem)
    assert (kept.header.id, list(kept.log)) == (path.stem, BEFORE)
    assert f"put away as {path.stem}" in book.messages[-1]


def test_going_on_with_a_damaged_one_leaves_the_figures_of_its_file(
    book: Logbook, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    path = begun(book, plan, started, BEFORE)
    whole = path.read_bytes()
    book.close()
    book.recover(counted)
    before = book.load("last")
    assert before.figures is not None
    path.write_bytes(whole.replace(b"before, 3", b"before\xff 3"))
    assert book.take_up("last").figures == before.figures
    assert book.load("last").figures == before.figures


def test_the_times_of_going_on_that_the_file_has_stay(book: Logbook, gone_on: Path, started: datetime) -> None:
    book.recover(unknown)
    first = book.load("last").header.went_on
    journal = book.go_on(book.take_up("last"), started + timedelta(hours=20), 1200.0)
    journal.event(WentOn(1200.0))
    book.close()
    content = gone_on.read_bytes()
    place = content.index(b'"time":"2026') + 8
    gone_on.write_bytes(content[:place] + b"2926" + content[place + 4 :])
    written = (started + timedelta(hours=20, minutes=1)).timestamp()
    os.utime(gone_on, (written, written))
    (recovered,) = book.recover(unknown)
    assert "still to come" in recovered.damage[0]
    assert book.load("last").header.went_on == (*first, (1200.0, started + timedelta(hours=20)))


def test_two_that_were_gone_on_with_apart_are_both_kept(book: Logbook, started: datetime, gone_on: Path) -> None:
    """As on two machines that share a folder now and then."""
    mine = gone_on.read_bytes()
    gone_on.unlink()
    journal = book.go_on(book.take_up("last"), started + timedelta(minutes=20), 1200.0)
    journal.event(Said(1201.0, Word.NOTE, "elsewhere"))
    book.close()
    book.recover(unknown)
    gone_on.write_bytes(mine)
    book.recover(unknown)
    logs = [list(book.load(summary.id).log) for summary in book.summaries()]
    assert sorted(map(len, logs)) == [len(BEFORE) + 1, len(BEFORE) + len(SINCE)]
    assert [*BEFORE, *SINCE] in logs
