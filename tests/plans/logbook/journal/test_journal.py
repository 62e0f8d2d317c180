from __future__ import annotations

import json
import os
import tracemalloc
from collections.abc import Callable
from contextlib import AbstractContextManager
from dataclasses import replace
from itertools import zip_longest
from math import nan
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, strategies as st

from plans.logbook.disk.lock import Lock
from plans.logbook.errors import DamagedError, LogbookError
from plans.logbook.header import Header
from plans.logbook.journal.appending import Journal
from plans.logbook.journal.reading_back import read_header, read_journal
from plans.phase import PhaseKind
from plans.reading import Reading
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Begun, Called, Cause, Eased, Ended, Entry, Said, WentOn, Word
from tests.plans.logbook.conftest import changed

FilesUpTo = Callable[[int], AbstractContextManager[None]]

texts = st.text(st.characters(exclude_categories=()), max_size=8)
"""Any text, halves of surrogate pairs and control characters included."""
times = st.integers(0, 10**8).map(lambda milliseconds: milliseconds / 1000)
kelvins = st.integers(-2731, 30_000).map(lambda tenths: tenths / 10 + 273.15)
steps, heats = st.integers(0, 40), st.integers(1, 40)
entries = st.one_of(
    st.builds(Reading, times, kelvins, st.none() | texts),
    st.builds(Reading, times, st.none(), st.none() | texts),
    st.builds(
        Said,
        times,
        st.sampled_from([word for word in Word if word not in (Word.EARLIER, Word.MEASURED, Word.TICK)]),
        texts,
    ),
    st.builds(Said, times, st.just(Word.TICK), st.sampled_from(["step 2 item 3", "step 1 item 20 off"])),
    st.builds(Said, times, st.just(Word.MEASURED), st.sampled_from(["w 31.5 mm t 18 mm", "step 2 hrc 61 file skates"])),
    st.builds(Said, times, st.just(Word.EARLIER), st.integers(1, 3600).map(str)),
    st.builds(Begun, times, steps, heats, st.sampled_from(PhaseKind), st.sampled_from(Cause)),
    st.builds(Called, times, st.sampled_from(Call), steps, heats, st.none() | kelvins, st.sampled_from(Basis)),
    st.builds(Eased, times, st.sampled_from(Call)),
    st.builds(WentOn, times),
    st.builds(Ended, times),
)


def in_time(some: list[Entry]) -> list[Entry]:
    """The same entries in the order in which a sitting would write them."""
    return sorted(some, key=lambda entry: entry.at)


def put(journal: Journal, entry: Entry) -> None:
    if isinstance(entry, Reading):
        journal.reading(entry)
    else:
        journal.event(entry)


def on_disk(journal: Journal) -> list[Entry]:
    return list(read_journal(journal.path).log)


def test_it_begins_with_its_header_and_says_what_readings_mean(folder: Path, header: Header) -> None:
    journal = Journal.create(folder, header)
    assert journal.trouble is None
    assert journal.path == folder / f"{header.id}.jsonl"
    _, first = json.loads(journal.path.read_text("ascii"))
    assert first["plan"]["source"] == header.source
    assert first["started"] == "2026-11-25T09:15:02.125+01:00"
    assert first["readings"] == ["milliseconds", "celsius_tenths", "fault"]
    assert read_header(journal.path) == header
    journal.close()


def test_readings_wait_for_a_flush_and_events_wait_for_nothing(folder: Path, header: Header) -> None:
    journal = Journal.create(folder, header)
    readings = [Reading(at, 1273.15) for at in (1.0, 2.0, 3.0)]
    journal.reading(readings[0])
    assert on_disk(journal) == []
    assert journal.waiting == 1
    journal.event(Said(1.5, Word.NEXT))
    assert on_disk(journal) == [readings[0], Said(1.5, Word.NEXT)]
    journal.reading(readings[1])
    journal.reading(readings[2])
    assert journal.flush()
    assert journal.waiting == 0
    assert on_disk(journal) == [readings[0], Said(1.5, Word.NEXT), readings[1], readings[2]]
    journal.close()


@given(st.lists(entries, max_size=40).map(in_time), st.sets(st.integers(0, 40)))
def test_everything_comes_back_in_order(put_in: list[Entry], flushed: set[int]) -> None:
    with TemporaryDirectory() as folder:
        journal = Journal.create(Path(folder), _header())
        for number, entry in enumerate(put_in):
            put(journal, entry)
            if number in flushed:
                journal.flush()
        journal.flush()
        journal.close()
        found = read_journal(journal.path)
    assert list(found.log) == put_in
    assert list(journal.log) == put_in
    assert found.header == _header()
    assert found.damage == ()


def _header() -> Header:
    from datetime import UTC, datetime

    return Header("20261125-091502-x", "x", "X", "\udc80 = 1", datetime(2026, 11, 25, 9, 15, 2, tzinfo=UTC))


@given(st.lists(entries, min_size=1, max_size=4).map(in_time))
def test_a_line_torn_anywhere_is_left_out(put_in: list[Entry]) -> None:
    with TemporaryDirectory() as folder:
        journal = Journal.create(Path(folder), _header())
        for entry in put_in:
            put(journal, entry)
        journal.flush()
        journal.close()
        whole = journal.path.read_bytes()
        head = whole.index(b"\n") + 1
        for cut in reversed(range(head, len(whole) + 1)):
            os.truncate(journal.path, cut)
            found = read_journal(journal.path)
            assert found.damage == ()
            assert list(found.log) == put_in[: whole[head : cut + 1].count(b"\n")], "whole, but for its end"


def test_a_torn_header_is_damage(folder: Path, header: Header) -> None:
    journal = Journal.create(folder, header)
    journal.close()
    for cut in reversed(range(journal.path.stat().st_size)):
        os.truncate(journal.path, cut)
        with pytest.raises(DamagedError, match="first line"):
            read_journal(journal.path)


def test_damaged_lines_in_the_middle_are_named_and_the_others_kept(folder: Path, header: Header) -> None:
    journal = Journal.create(folder, header)
    for at in range(20):
        journal.event(Said(at, Word.NOTE, f"note {at}"))
    journal.close()
    lines = journal.path.read_bytes().split(b"\n")
    broken = [b"\xff", b"", b"{", b"[1]", b'{"event": "word", "at_seconds": NaN}', b'["1", 2]', b'{"at_seconds": 1}']
    for number, line in enumerate(broken, start=1):
        lines[2 * number] = line
    lines[17] = b'{"event":"word","at_seconds":1e999,"word":"next"}'
    journal.path.write_bytes(b"\n".join(lines))
    found = read_journal(journal.path)
    kept = {entry.at for entry in found.log}
    assert kept == set(range(20)) - {1, 3, 5, 7, 9, 11, 13, 16}
    assert found.damage == ("line 3, line 5, line 7, line 9, line 11 and 3 more can't be read",)


def test_a_newer_journal_is_not_called_damaged(folder: Path, header: Header) -> None:
    journal = Journal.create(folder, header)
    journal.close()
    journal.path.write_bytes(changed(journal.path.read_bytes(), b'"heatbook":2', b'"heatbook":9'))
    with pytest.raises(LogbookError, match="newer heatbook") as caught:
        read_journal(journal.path)
    assert not isinstance(caught.value, DamagedError)


def test_a_missing_journal_is_told(folder: Path) -> None:
    with pytest.raises(LogbookError, match="No such file"):
        read_journal(folder / "nothing.jsonl")


def test_a_disk_that_fills_up_loses_nothing(folder: Path, header: Header, files_up_to: FilesUpTo) -> None:
    journal = Journal.create(folder, header)
    journal.event(Said(0, Word.NEXT))
    size = journal.path.stat().st_size
    put_in: list[Entry] = [Said(0, Word.NEXT)]
    with files_up_to(size + 10):  # what fits of the next line is torn
        for at in range(1, 2500):
            put_in.append(Reading(at, 1000 + 273.15))
            journal.reading(Reading(at, 1000 + 273.15))
        journal.event(Said(2500, Word.OUT))
        put_in.append(Said(2500, Word.OUT))
        assert journal.trouble is not None
        assert str(journal.path) in journal.trouble
        assert "lift the limit" in journal.trouble
        assert "goes on in memory" in journal.trouble
        assert not journal.flush()
        assert journal.waiting == 2500
        assert on_disk(journal) == put_in[:1]
    assert journal.flush()
    assert journal.trouble is None
    assert on_disk(journal) == put_in
    journal.close()


def test_a_journal_that_could_not_be_made_is_made_later(folder: Path, header: Header, files_up_to: FilesUpTo) -> None:
    with files_up_to(0):
        journal = Journal.create(folder, header)
        journal.event(Said(0, Word.NEXT))
        assert journal.trouble is not None
        assert list(folder.iterdir()) == []
    journal.event(Said(1, Word.NEXT))
    assert journal.trouble is None
    assert on_disk(journal) == [Said(0, Word.NEXT), Said(1, Word.NEXT)]
    journal.close()


@given(st.lists(entries, min_size=1, max_size=20).map(in_time), st.lists(st.none() | st.integers(0, 400), max_size=20))
def test_a_disk_that_is_full_now_and_then_loses_nothing(put_in: list[Entry], rooms: list[int | None]) -> None:
    from resource import RLIMIT_FSIZE, getrlimit, setrlimit

    before = getrlimit(RLIMIT_FSIZE)
    with TemporaryDirectory() as folder:
        journal = Journal(Path(folder) / "x.jsonl", _header())
        try:
            for entry, room in zip_longest(put_in, rooms[: len(put_in)]):
                if room is not None:
                    setrlimit(RLIMIT_FSIZE, (room, before[1]))
                put(journal, entry)
                setrlimit(RLIMIT_FSIZE, before)
                if journal.path.exists():
                    so_far = on_disk(journal)
                    assert so_far == put_in[: len(so_far)]
        finally:
            setrlimit(RLIMIT_FSIZE, before)
        assert journal.flush()
        assert on_disk(journal) == put_in
        journal.close()


def test_every_event_and_every_flush_is_synced_to_the_disk(
    folder: Path, header: Header, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A kill can't show this, the system keeps what was written; a power cut would."""
    sizes = []

    def sync(descriptor: int) -> None:
        os.fsync(descriptor)
        sizes.append(os.fstat(descriptor).st_size)

    monkeypatch.setattr("plans.logbook.journal.appending._sync", sync)
    journal = Journal.create(folder, header)
    for at in range(3):
        journal.reading(Reading(at, 300.0))
        journal.event(Said(at, Word.NEXT))
        assert sizes[-1] == journal.path.stat().st_size
    journal.reading(Reading(3, 300.0))
    assert len(sizes) == 3
    journal.flush()
    assert sizes[3:] == [journal.path.stat().st_size]
    journal.close()


def test_a_read_only_folder_is_told(read_only: Path, header: Header) -> None:
    journal = Journal.create(read_only, header)
    assert journal.trouble is not None
    assert "no permission: make file and folder yours to read and write" in journal.trouble


def test_a_file_in_the_folders_place_is_told(tmp_path: Path, header: Header) -> None:
    (tmp_path / "logbook").write_text("mine")
    for folder in (tmp_path / "logbook", tmp_path / "logbook" / "sittings"):
        journal = Journal.create(folder, header)
        assert journal.trouble is not None
        assert "a file stands where a folder should be: move it away" in journal.trouble
    assert (tmp_path / "logbook").read_text() == "mine"


def test_a_journal_that_vanishes_is_written_again(folder: Path, header: Header) -> None:
    journal = Journal.create(folder, header)
    journal.event(Said(0, Word.NEXT))
    journal.path.unlink()
    journal.event(Said(1, Word.OUT))
    assert on_disk(journal) == [Said(0, Word.NEXT), Said(1, Word.OUT)]
    journal.close()


def _cut_short(path: Path) -> bytes:
    os.truncate(path, path.stat().st_size - 30)
    return path.read_bytes()


def _emptied(path: Path) -> bytes:
    path.write_bytes(b"")
    return b""


def _written_into(path: Path) -> bytes:
    with path.open("ab") as file:
        file.write(b"somebody else's\n")
    return path.read_bytes()


def _replaced(path: Path) -> bytes:
    path.rename(path.with_name("old"))
    path.write_bytes(b"x" * 5000)
    return path.read_bytes()


@pytest.mark.parametrize("closed", [False, True], ids=["open", "closed"])
@pytest.mark.parametrize("change", [_cut_short, _emptied, _written_into, _replaced])
def test_a_journal_that_something_else_changes_is_written_again_and_what_stood_there_is_kept(
    folder: Path, header: Header, change: Callable[[Path], bytes], closed: bool
) -> None:
    journal = Journal.create(folder, header)
    journal.event(Said(0, Word.NEXT))
    if closed:
        journal.close()
    stood = change(journal.path)
    journal.event(Said(1, Word.OUT))
    assert journal.trouble is None
    assert on_disk(journal) == [Said(0, Word.NEXT), Said(1, Word.OUT)]
    assert journal.path.with_name(journal.path.name + ".bad").read_bytes() == stood
    assert "was changed by something else; it is written again from memory; what stood there" in journal.news[0]
    journal.event(Said(2, Word.NEXT))
    assert len(journal.news) == 1
    journal.close()


def test_a_folder_that_is_moved_away_is_made_again(folder: Path, header: Header) -> None:
    lock = Lock(folder / "lock")
    journal = Journal.create(folder / "sittings", header, lock=lock)
    journal.event(Said(0, Word.NEXT))
    folder.rename(folder.with_name("away"))
    journal.event(Said(1, Word.OUT))
    assert on_disk(journal) == [Said(0, Word.NEXT), Said(1, Word.OUT)]
    assert "moved or removed" in journal.news[0]
    with pytest.raises(LogbookError, match="another heatbook is writing"):
        Lock(folder / "lock").take()
    journal.close()
    lock.release()


def test_a_journal_that_was_changed_is_not_removed(folder: Path, header: Header) -> None:
    for change, left in ((_replaced, {"old", f"{header.id}.jsonl.bad"}), (lambda path: path, set[str]())):
        journal = Journal.create(folder, header)
        change(journal.path)
        journal.remove()
        assert {path.name for path in folder.iterdir()} == left
        for path in folder.iterdir():
            path.unlink()


@pytest.mark.parametrize(
    "entry",
    [
        Said(nan, Word.NEXT),
        Called(1, Call.TOO_COLD, 0, 1, nan),
        Reading(nan, 300.0),
    ],
)
def test_what_can_not_be_written_is_refused_and_spoils_nothing(folder: Path, header: Header, entry: Entry) -> None:
    journal = Journal.create(folder, header)
    with pytest.raises(ValueError, match=r"finite|JSON compliant"):
        put(journal, entry)
    journal.event(Said(1, Word.OUT))
    assert on_disk(journal) == [Said(1, Word.OUT)]
    journal.close()


def test_a_copy_elsewhere_is_a_journal_too(tmp_path: Path, header: Header, files_up_to: FilesUpTo) -> None:
    with files_up_to(0):
        journal = Journal.create(tmp_path / "full", header)
        journal.reading(Reading(1, 300.0))
    found = read_journal(journal.write_copy(tmp_path))
    assert found.header == header
    assert [entry.at for entry in found.log] == [1]


def test_a_header_that_was_gone_on_with_knows_its_wall_times(header: Header) -> None:
    from datetime import timedelta

    evening = header.started + timedelta(hours=9)
    later = header.gone_on(100.0, evening)
    assert later.wall_time(40) == header.started + timedelta(seconds=40)
    assert later.wall_time(100) == evening
    assert later.wall_time(160) == evening + timedelta(seconds=60)
    assert replace(later, went_on=()) == header


def test_a_running_sittings_log_is_lean(tmp_path: Path, header: Header) -> None:
    """A tenth of eight hours at ten hertz, against a tenth of the 20 MB by which memory may grow, and half of that."""
    journal = Journal.create(tmp_path, header)
    tracemalloc.start()
    try:
        for number in range(28_800):
            journal.reading(Reading(number / 10, 1300.0 + number % 90))
            if number % 100 == 0:
                journal.event(Said(number / 10, Word.NEXT))
        size, _ = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    journal.close()
    assert size < 1e6
