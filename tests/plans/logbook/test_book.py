from __future__ import annotations

import json
import os
import subprocess
from collections.abc import Callable
from contextlib import AbstractContextManager
from datetime import datetime, timedelta
from pathlib import Path
from threading import Event, Thread
from typing import Any

import pytest

from plans.logbook.book import Logbook
from plans.logbook.errors import LogbookError
from plans.logbook.figures.kept import figures_to_record
from plans.logbook.figures.of_a_sitting import SittingFigures, StepFigures
from plans.logbook.header import Header
from plans.logbook.index_file import write_index
from plans.logbook.kept_sitting import KeptSitting, WorkedOut, WorkOut
from plans.logbook.log import Log
from plans.logbook.summary import Progress, Summary
from plans.phase import PhaseKind
from plans.plan import Plan, StepKind
from plans.reading import ProbeOn, Reading
from plans.sitting.calls import Call
from plans.sitting.events import Begun, Called, Ended, Entry, Said, WentOn, Word
from plans.sitting.state import Note
from plans.trace import Trace

FilesUpTo = Callable[[int], AbstractContextManager[None]]
Child = Callable[..., "subprocess.Popen[str]"]

ENTRIES: list[Entry] = [
    Begun(0.0, 0, 1, PhaseKind.READY),
    Said(0.0, Word.ACKNOWLEDGE),
    Reading(0.5, 293.15),
    Said(0.5, Word.NEXT),
    Begun(0.5, 0, 1, PhaseKind.FIRE),
    Reading(0.5, 300.25),
    Reading(1.0, None, "lost"),
    Said(90.125, Word.NOTE, "Späne\u2028[/x]"),
]
END: list[Entry] = [Said(100, Word.FINISH), Ended(100)]


def put(book: Logbook, plan: Plan, started: datetime, entries: list[Entry]) -> str:
    """A sitting as the program would leave it behind, still with its journal."""
    journal = book.open_sitting(plan, started, profile="plain", port="/dev/x", probe_on=ProbeOn.WORK)
    for entry in entries:
        if isinstance(entry, Reading):
            journal.reading(entry)
        else:
            journal.event(entry)
    return journal.header.id


def files(folder: Path) -> set[str]:
    return {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}


def logged(entries: list[Entry]) -> list[Entry]:
    return list(Log(entries))


def test_a_new_logbook_is_empty_and_reading_makes_nothing(book: Logbook, folder: Path) -> None:
    assert book.summaries() == []
    with pytest.raises(LogbookError, match="no sittings yet"):
        book.load("last")
    assert not folder.exists()


def test_a_sitting_is_kept_whole(book: Logbook, folder: Path, plan: Plan, started: datetime, counted: WorkOut) -> None:
    journal = book.open_sitting(plan, started, profile="plain", port="/dev/x", probe_on=ProbeOn.WORK, seed=7)
    for entry in ENTRIES + END:
        journal.reading(entry) if isinstance(entry, Reading) else journal.event(entry)
    summary = book.fold(journal, counted)
    assert files(folder) == {"lock", "index.json", f"sittings/{journal.header.id}.json"}

    kept = book.load(journal.header.id)
    assert list(kept.log) == logged(ENTRIES + END)
    assert kept.header == journal.header
    assert kept.header.source == plan.source
    assert kept.header.seed == 7
    assert kept.state is Progress.FINISHED
    assert kept.ended == started + timedelta(seconds=100)
    assert kept.skin == kept.log.readings
    assert kept.figures is not None
    assert [note.at for note in kept.figures.notes] == [90.125]

    assert book.summaries() == [summary]
    assert (summary.heats, summary.calls) == (1, 0)
    assert json.loads(json.dumps(kept.outline())) == {
        "id": "20261125-091502-drawknife",
        "plan": "drawknife",
        "title": "A drawknife with a laid edge",
        "started": "2026-11-25T09:15:02.125+01:00",
        "ended": "2026-11-25T09:16:42.125+01:00",
        "state": "finished",
        "rehearsal": False,
        "length_seconds": 100.0,
        "label": {"title": "", "mark": "", "archived": False},
        "probe": {"profile": "plain", "port": "/dev/x", "on": "work"},
        **figures_to_record(kept.figures),
    }
    assert book.messages == []


def test_what_is_returned_is_not_what_is_kept(book: Logbook, plan: Plan, started: datetime, counted: WorkOut) -> None:
    book.fold(book.open_sitting(plan, started), counted)
    book.load("last").log.append(WentOn(5))
    assert len(book.load("last").log) == 0


def test_the_newest_comes_first_whatever_its_offset(
    book: Logbook, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    from datetime import UTC

    moments = [started, started - timedelta(days=30), (started + timedelta(minutes=1)).astimezone(UTC)]
    for moment in moments:
        book.fold(book.open_sitting(plan, moment), counted)
    assert [summary.started for summary in book.summaries()] == [moments[2], moments[0], moments[1]]
    assert book.resolve("last") == "20261125-081602-drawknife"
    assert book.resolve("202610") == "20261026-091502-drawknife"


def test_two_in_one_second_get_different_ids(book: Logbook, plan: Plan, started: datetime, counted: WorkOut) -> None:
    first = book.open_sitting(plan, started)
    second = book.open_sitting(plan, started)
    book.fold(first, counted)
    third = book.open_sitting(plan, started)
    names = [journal.header.id for journal in (first, second, third)]
    assert names == [f"20261125-091502-drawknife{end}" for end in ("", "-2", "-3")]


def test_a_running_sitting_can_be_read_by_others(
    book: Logbook, folder: Path, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    name = put(book, plan, started, ENTRIES)
    other = Logbook(folder)
    (summary,) = other.summaries()
    assert (summary.id, summary.state, summary.ended) == (name, Progress.RUNNING, None)
    kept = other.load("last", counted)
    assert list(kept.log) == logged(ENTRIES)
    assert kept.state is Progress.RUNNING
    assert kept.figures is not None
    assert len(kept.figures.notes) == 1
    assert book.load(name).state is Progress.RUNNING
    book.close()
    assert other.summaries()[0].state is Progress.UNFINISHED
    assert other.load("last").state is Progress.UNFINISHED


def test_a_second_program_may_read_and_not_write(
    book: Logbook,
    folder: Path,
    plan: Plan,
    started: datetime,
    counted: WorkOut,
    child: Child,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("plans.logbook.turn.PATIENCE", 0.05)
    source = """
import sys; from datetime import UTC, datetime; from pathlib import Path
from plans.logbook.book import Logbook; from plans.plan import Plan; from plans.sitting.events import Said, Word
book = Logbook(Path(sys.argv[1]))
journal = book.open_sitting(Plan("knife", "", "", (), (), ""), datetime(2026, 1, 1, tzinfo=UTC))
journal.event(Said(1, Word.NEXT)); print("on", flush=True); sys.stdin.readline()
journal.event(Said(2, Word.NEXT)); print(journal.trouble, len(book.summaries()), flush=True); sys.stdin.read()
"""
    process = child(source, folder)
    assert process.stdout is not None
    assert process.stdin is not None
    assert process.stdout.readline() == "on\n"
    with pytest.raises(LogbookError, match=f"process {process.pid}"):
        book.open_sitting(plan, started)
    with pytest.raises(LogbookError, match=f"process {process.pid}"):
        book.take_up("last")
    before = files(folder)
    assert book.recover(counted) == []
    assert f"process {process.pid}" in book.messages[0]
    assert book.summaries()[0].state is Progress.RUNNING
    assert files(folder) == before
    print(file=process.stdin, flush=True)
    assert process.stdout.readline() == "None 1\n"
    process.kill()
    process.wait()
    (recovered,) = book.recover(counted)
    assert recovered.summary.state is Progress.UNFINISHED
    assert [entry.at for entry in book.load("last").log] == [1, 2]


def test_an_unfinished_sitting_can_be_gone_on_with(
    book: Logbook, folder: Path, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    name = put(book, plan, started, ENTRIES)
    book.close()
    assert [found.summary.id for found in book.recover(counted)] == [name]
    evening = started + timedelta(hours=10)

    journal = book.go_on(book.take_up("last"), evening)
    assert list(journal.log) == logged(ENTRIES)
    assert journal.trouble is None
    assert book.summaries()[0].state is Progress.RUNNING
    with pytest.raises(LogbookError, match="running already"):
        book.take_up(name)
    more: list[Entry] = [WentOn(90.125), Said(100.125, Word.NEXT)]
    for entry in more:
        assert not isinstance(entry, Reading)
        journal.event(entry)
    book.close()  # cut off a second time

    (recovered,) = book.recover(counted)
    assert recovered.summary.state is Progress.UNFINISHED
    assert recovered.summary.ended == evening + timedelta(seconds=10)
    journal = book.go_on(book.take_up(name), evening, at=200.0)
    journal.event(Ended(260.0))
    summary = book.fold(journal, counted)
    assert (summary.state, summary.ended) == (Progress.FINISHED, evening + timedelta(seconds=60))
    assert list(book.load(name).log) == logged([*ENTRIES, *more, Ended(260.0)])
    with pytest.raises(LogbookError, match="is finished; begin a new one of drawknife"):
        book.take_up(name)
    assert files(folder) == {"lock", "index.json", f"sittings/{name}.json"}


def test_recovery_leaves_the_sittings_of_this_program_alone(
    book: Logbook, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    journal = book.open_sitting(plan, started)
    assert book.recover(counted) == []
    journal.event(Said(1, Word.NEXT))
    assert (book.summaries()[0].state, journal.trouble) == (Progress.RUNNING, None)
    assert journal.path.exists()


def test_a_sitting_that_was_cut_off_is_gone_on_with_before_it_is_put_away(
    book: Logbook, folder: Path, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    name = put(book, plan, started, ENTRIES)
    book.close()
    journal = book.go_on(book.take_up("last"), started + timedelta(hours=1), at=3600.0)
    assert list(journal.log) == logged(ENTRIES)
    journal.event(WentOn(3600.0))
    assert book.recover(counted) == []
    assert files(folder) == {"lock", f"sittings/{name}.jsonl"}
    book.close()
    (recovered,) = book.recover(counted)
    assert recovered.summary.ended == started + timedelta(hours=1)
    assert list(book.load(name).log) == logged([*ENTRIES, WentOn(3600.0)])


class Slow:
    """Figures that are being worked out in a thread, until they are let be."""

    def __init__(self, book: Logbook, work_out: WorkOut) -> None:
        self._asked, self._done, self._work_out = Event(), Event(), work_out
        self.thread = Thread(target=book.recover, args=(self._worked_out,))
        self.thread.start()
        assert self._asked.wait(10)

    def _worked_out(self, header: Header, log: Log) -> WorkedOut:
        self._asked.set()
        assert self._done.wait(10)
        return self._work_out(header, log)

    def let_be(self) -> None:
        self._done.set()
        self.thread.join(10)
        assert not self.thread.is_alive()


def test_while_one_is_put_away_others_begin_and_it_is_gone_on_with(
    book: Logbook, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    names = [put(book, plan, started + timedelta(days=day), ENTRIES) for day in range(2)]
    book.close()
    slow = Slow(book, counted)
    assert [summary.id for summary in book.cut_off()] == names
    begun = book.open_sitting(plan, started + timedelta(days=2))
    gone_on = book.go_on(book.take_up(names[0]), started + timedelta(days=2))
    slow.let_be()
    begun.event(Said(1.0, Word.NEXT))
    gone_on.event(WentOn(90.125))
    assert (begun.trouble, gone_on.trouble, begun.news, gone_on.news) == (None, None, [], [])
    states = {summary.id: summary.state for summary in book.summaries()}
    running = Progress.RUNNING
    assert states == {names[0]: running, names[1]: Progress.UNFINISHED, begun.header.id: running}
    assert Logbook(book.folder)._store.lock.taken(), "two sittings of this program run"


def test_closing_waits_for_no_figures_and_loses_nothing(
    book: Logbook, folder: Path, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    name = put(book, plan, started, ENTRIES)
    book.close()
    slow = Slow(book, counted)
    book.close()
    assert slow.thread.is_alive()
    slow.let_be()
    assert files(folder) == {"lock", f"sittings/{name}.jsonl"}
    assert not book._store.lock.taken()
    assert [found.summary.id for found in book.recover(counted)] == [name]


def test_a_second_recovery_has_nothing_to_do_while_one_goes_on(
    book: Logbook, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    for day in range(2):
        put(book, plan, started + timedelta(days=day), ENTRIES)
    book.close()
    slow = Slow(book, counted)
    assert book.recover(counted) == []
    slow.let_be()
    assert book.cut_off() == []


def test_one_that_is_closed_before_its_recovery_begins_is_left_alone(
    book: Logbook, folder: Path, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    name = put(book, plan, started, ENTRIES)
    book.close()
    recovery = book.recovery(counted)
    book.close()
    assert recovery.run() == []
    assert files(folder) == {"lock", f"sittings/{name}.jsonl"}
    assert not book._store.lock.held


def test_working_out_what_was_cut_off_keeps_nobody_from_the_forge(
    book: Logbook, folder: Path, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    name = put(book, plan, started, ENTRIES)
    book.close()
    slow = Slow(book, counted)
    other = Logbook(folder)
    begun = other.open_sitting(plan, started + timedelta(days=1))
    slow.let_be()
    assert "another heatbook is writing" in book.messages[0]
    other.close()
    assert [found.summary.id for found in book.recover(counted)] == [name, begun.header.id]


def test_a_look_that_mends_the_index_leaves_the_lock_of_a_sitting_that_begins_meanwhile(
    book: Logbook, plan: Plan, started: datetime, counted: WorkOut, monkeypatch: pytest.MonkeyPatch
) -> None:
    book.fold(book.open_sitting(plan, started), counted)
    book.close()
    book._store.index_file.unlink()
    writes, may_go_on = Event(), Event()

    def slow(*args: Any) -> None:
        writes.set()
        assert may_go_on.wait(10)
        write_index(*args)

    monkeypatch.setattr("plans.logbook.index_file.write_index", slow)
    look = Thread(target=book.summaries)
    look.start()
    assert writes.wait(10)
    begin = Thread(target=book.open_sitting, args=(plan, started + timedelta(hours=1)))
    begin.start()
    may_go_on.set()
    for thread in (look, begin):
        thread.join(10)
    assert book._store.lock.held


def test_a_sitting_begins_as_soon_as_another_program_has_mended_the_index(
    book: Logbook, folder: Path, plan: Plan, started: datetime
) -> None:
    other = Logbook(folder)
    with other._store.turn.borrow():
        begin = Thread(target=book.open_sitting, args=(plan, started))
        begin.start()
        begin.join(0.1)
        assert begin.is_alive()
    begin.join(10)
    assert book._store.lock.held


def test_one_that_was_finished_and_cut_off_is_none_to_go_on_with(
    book: Logbook, folder: Path, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    name = put(book, plan, started, ENTRIES + END)
    book.close()
    assert [summary.state for summary in book.cut_off()] == [Progress.FINISHED]
    with pytest.raises(LogbookError, match="is finished"):
        book.take_up(name)
    assert f"sittings/{name}.jsonl" in files(folder)
    assert [found.summary.state for found in book.recover(counted)] == [Progress.FINISHED]


def test_a_log_that_could_not_be_read_back_is_not_put_away(
    book: Logbook, folder: Path, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    journal = book.open_sitting(plan, started)
    for at in (5.0, 3.0, 7.0):
        journal.event(Said(at, Word.NOTE, f"{at}"))
    with pytest.raises(LogbookError, match=r"could not be read back \(event 2 goes back in time\)"):
        book.fold(journal, counted)
    book.close()
    book.recover(counted)
    assert [entry.at for entry in book.load("last").log] == [5.0, 7.0]
    assert f"sittings/{journal.header.id}.jsonl.bad" in files(folder)


def test_a_fault_in_one_keeps_no_other_from_being_put_away(
    book: Logbook, folder: Path, plan: Plan, started: datetime, counted: WorkOut, monkeypatch: pytest.MonkeyPatch
) -> None:
    names = [put(book, plan, started + timedelta(days=day), ENTRIES) for day in range(2)]
    book.close()
    real = book._store.write

    def write(kept: KeptSitting) -> Summary:
        if kept.header.id == names[0]:
            raise KeyError("scale_loss_mm")
        return real(kept)

    monkeypatch.setattr(book._store, "write", write)
    assert [found.summary.id for found in book.recover(counted)] == names[1:]
    assert f"sittings/{names[0]}.jsonl" in files(folder)
    assert f"sitting {names[0]} can't be put away" in book.messages[0]


def test_closing_writes_what_waits(book: Logbook, folder: Path, plan: Plan, started: datetime) -> None:
    book.open_sitting(plan, started).reading(Reading(1, 300.0))
    book.close()
    assert [entry.at for entry in Logbook(folder).load("last").log] == [1]


def broken(header: Header, log: Log) -> WorkedOut:
    raise ZeroDivisionError(f"{header.id} has {len(log)}")


def no_json(header: Header, log: Log) -> WorkedOut:
    assert header.id
    return WorkedOut(SittingFigures((StepFigures(0, log, StepKind.WELD, ()),), (), ()))  # type: ignore[arg-type]


def not_finite(header: Header, log: Log) -> WorkedOut:
    call = Called(float("nan"), Call.TOO_COLD, 0, 1)
    return WorkedOut(SittingFigures((), (call,), (Note(1.0, header.title, 0, 1),)), log.readings)


def beyond(header: Header, log: Log) -> WorkedOut:
    assert header.id
    assert len(log)
    return WorkedOut(None, Trace([Reading(1, float("inf"))]))


def misshapen(header: Header, log: Log) -> WorkedOut:
    return WorkedOut(SittingFigures((header.id, len(log)), (), ()))  # type: ignore[arg-type]


@pytest.mark.parametrize("work_out", [broken, no_json, not_finite, beyond, misshapen])
def test_figures_that_can_not_be_had_do_not_cost_the_log(
    book: Logbook, plan: Plan, started: datetime, work_out: WorkOut
) -> None:
    put(book, plan, started, ENTRIES)
    book.close()
    (recovered,) = book.recover(work_out)
    assert (recovered.summary.heats, recovered.summary.calls) == (None, None)
    assert list(book.load("last").log) == logged(ENTRIES)
    assert book.load("last").figures is None
    assert "can't be worked out" in book.messages[0]


def test_a_full_disk_at_the_end_can_be_tried_again(
    book: Logbook, folder: Path, plan: Plan, started: datetime, counted: WorkOut, files_up_to: FilesUpTo
) -> None:
    with files_up_to(0):
        journal = book.open_sitting(plan, started)
        for entry in ENTRIES:
            journal.reading(entry) if isinstance(entry, Reading) else journal.event(entry)
        assert journal.trouble is not None
        with pytest.raises(LogbookError, match=r"can't be put away in .*lift the limit"):
            book.fold(journal, counted)
        assert files(folder) == {"lock"}
    book.fold(journal, counted)
    assert list(book.load("last").log) == logged(ENTRIES)
    assert files(folder) == {"lock", "index.json", f"sittings/{journal.header.id}.json"}


def test_a_full_disk_at_the_start_keeps_the_journal(
    book: Logbook, folder: Path, plan: Plan, started: datetime, counted: WorkOut, files_up_to: FilesUpTo
) -> None:
    name = put(book, plan, started, ENTRIES)
    book.close()
    with files_up_to(100):
        assert book.recover(counted) == []
    assert "its journal is kept" in book.messages[0]
    assert f"sittings/{name}.jsonl" in files(folder)
    assert [found.summary.id for found in book.recover(counted)] == [name]


def test_a_read_only_folder_is_told_and_can_be_read(
    read_only: Path, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    book = Logbook(read_only)
    assert book.recover(counted) == []
    assert "no permission: make file and folder yours to read and write" in book.messages[0]
    assert book.summaries() == []
    journal = book.open_sitting(plan, started)
    journal.event(Said(0, Word.NEXT))
    assert journal.trouble is not None
    assert "no permission" in journal.trouble
    with pytest.raises(LogbookError, match="no permission"):
        book.fold(journal, counted)
    with pytest.raises(LogbookError, match="can't be written: no permission"):
        book.take_up("last")
    user = os.geteuid()
    if user == 65534:
        os.seteuid(0)
    read_only.chmod(0o777)
    os.seteuid(user)
    assert journal.flush()
    assert book.fold(journal, counted).id == journal.header.id
    book.close()


def test_the_lock_is_asked_for_again_when_a_folder_becomes_writable(
    folder: Path, plan: Plan, started: datetime
) -> None:
    folder.parent.mkdir()
    folder.write_text("in the way")
    book, other = Logbook(folder), Logbook(folder)
    journal = book.open_sitting(plan, started)
    assert journal.trouble is not None
    with pytest.raises(LogbookError, match="can't be read: a file stands where a folder should be"):
        book.summaries()
    folder.unlink()
    other.open_sitting(plan, started + timedelta(hours=1))
    journal.event(Said(0, Word.NEXT))
    assert journal.trouble is not None
    assert "another heatbook is writing" in journal.trouble
    other.close()
    journal.event(Said(1, Word.NEXT))
    assert journal.trouble is None
    book.close()
    assert [entry.at for entry in other.load(journal.header.id).log] == [0, 1]


def test_a_folder_whose_name_is_no_text(tmp_path: Path, plan: Plan, started: datetime, counted: WorkOut) -> None:
    folder = Path(os.fsdecode(os.fsencode(tmp_path) + b"/\xff\xe9 \n"))
    book = Logbook(folder)
    put(book, plan, started, ENTRIES)
    book.close()
    book.recover(counted)
    (folder / "index.json").write_text("{")
    assert len(book.summaries()) == 1
    assert book.messages
    for message in book.messages:
        message.encode("utf-8")
        assert message.isprintable()
    book.close()
