"""Files of the logbook that somebody or something has spoiled."""

from __future__ import annotations

import errno
import json
import os
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from plans.logbook.book import Logbook
from plans.logbook.disk.whole_files import to_json
from plans.logbook.errors import LogbookError, shown
from plans.logbook.index_file import read_index
from plans.logbook.kept_sitting import WorkOut
from plans.logbook.summary import Progress
from plans.plan import Plan
from plans.reading import Reading
from plans.sitting.events import Ended, Said, Word
from tests.plans.logbook.conftest import changed, written_long_ago

SPOILED = {
    "cut": b'{"sittings": {"1": {"id": "2026',
    "empty": b"",
    "blank": b" \n\t",
    "no text": b"\xff\x00\xfe",
    "a list": b"[]",
    "a table of the wrong kind": b'{"sittings": 3, "sitting": 3}',
    "a row of the wrong kind": b'{"sittings": {"1": 3}, "sitting": {"1": 3}}',
    "a row without a number": b'{"sittings": {"x": {}}, "sitting": {"x": {}}}',
    "a row without its keys": b'{"sittings": {"1": {}}, "sitting": {"1": {}}}',
    "zeros": bytes(4096),
}
spoiled = pytest.mark.parametrize("content", SPOILED.values(), ids=SPOILED.keys())


@pytest.fixture
def names(book: Logbook, plan: Plan, started: datetime, counted: WorkOut) -> list[str]:
    """Three sittings, put away."""
    made = []
    for day in range(3):
        journal = book.open_sitting(plan, started + timedelta(days=day))
        journal.reading(Reading(1, 300.0 + day))
        journal.event(Said(2, Word.NOTE, f"day {day}"))
        made.append(book.fold(journal, counted).id)
    return made


@spoiled
def test_a_spoiled_index_is_set_aside_and_made_again(
    book: Logbook, folder: Path, names: list[str], content: bytes
) -> None:
    before = book.summaries()
    index = folder / "index.json"
    index.write_bytes(content)
    assert book.summaries() == before
    assert (folder / "index.json.bad").read_bytes() == content
    assert "index.json can't be read; it is made again from the sittings" in book.messages[0]
    rows = json.loads(index.read_text())["sittings"].values()
    assert {row["id"] for row in rows} == set(names)

    index.write_bytes(content)
    assert book.summaries() == before
    assert (folder / "index.json.2.bad").read_bytes() == content


@spoiled
def test_a_reader_makes_the_index_again_once_and_changes_nothing_else(
    book: Logbook, folder: Path, names: list[str], content: bytes
) -> None:
    before = book.summaries()
    book.close()
    (folder / "index.json").write_bytes(content)
    (folder / "sittings" / f"{names[0]}.json").write_bytes(content)
    stood = _sittings(folder)
    for said in (2, 1):
        reader = Logbook(folder)
        assert reader.summaries() == [summary for summary in before if summary.id != names[0]]
        assert len(reader.messages) == said, "of the sitting each time, of the index once"
    assert (folder / "index.json.bad").read_bytes() == content
    assert _sittings(folder) == stood
    assert not reader._store.lock.held


def _sittings(folder: Path) -> dict[Path, bytes]:
    return {path: path.read_bytes() for path in (folder / "sittings").iterdir()}


def test_where_another_writes_the_index_is_left_to_it(book: Logbook, folder: Path, names: list[str]) -> None:
    index = folder / "index.json"
    index.write_text("{")
    reader = Logbook(folder)
    assert [summary.id for summary in reader.summaries()] == names[::-1]
    assert index.read_text() == "{"
    assert reader.messages == [f"{shown(index)} can't be read; every sitting was read instead"]
    book.summaries()
    assert (folder / "index.json.bad").read_text() == "{"


@spoiled
def test_a_spoiled_sitting_is_set_aside_and_the_others_stay(
    book: Logbook, folder: Path, names: list[str], content: bytes
) -> None:
    path = folder / "sittings" / f"{names[1]}.json"
    written_long_ago(path, content)
    with pytest.raises(
        LogbookError, match=r"damaged; the damaged file is kept as .*\.bad; if you have a copy, put that in its place"
    ):
        book.load(names[1])
    assert (folder / "sittings" / f"{names[1]}.json.bad").read_bytes() == content
    assert not path.exists()
    assert [summary.id for summary in book.summaries()] == [names[2], names[0]]


@spoiled
def test_a_spoiled_sitting_that_the_index_does_not_know(
    book: Logbook, folder: Path, names: list[str], content: bytes
) -> None:
    path = folder / "sittings" / "20270101-000000-x.json"
    written_long_ago(path, content)
    assert [summary.id for summary in book.summaries()] == names[::-1]
    assert path.with_name(path.name + ".bad").read_bytes() == content
    assert len(book.messages) == 1
    assert f"{path} can't be read, it is damaged" in book.messages[0]


@spoiled
def test_a_spoiled_index_does_not_stop_a_sitting_from_being_put_away(
    book: Logbook, folder: Path, plan: Plan, started: datetime, names: list[str], content: bytes, counted: WorkOut
) -> None:
    journal = book.open_sitting(plan, started + timedelta(days=9))
    (folder / "index.json").write_bytes(content)
    book.fold(journal, counted)
    assert len(book.summaries()) == 1 + len(names)
    assert (folder / "index.json.bad").read_bytes() == content


@spoiled
def test_a_spoiled_sitting_in_the_way_of_its_own_journal(
    book: Logbook, folder: Path, plan: Plan, started: datetime, content: bytes, counted: WorkOut
) -> None:
    journal = book.open_sitting(plan, started)
    journal.event(Said(1, Word.NEXT))
    book.close()
    path = folder / "sittings" / f"{journal.header.id}.json"
    written_long_ago(path, content)
    (recovered,) = book.recover(counted)
    assert recovered.summary.id == journal.header.id
    assert [entry.at for entry in book.load("last").log] == [1]
    assert path.with_name(path.name + ".bad").read_bytes() == content


def test_a_sitting_that_is_still_being_copied_is_left_alone_and_read_when_it_is_whole(
    book: Logbook, folder: Path, names: list[str]
) -> None:
    path = folder / "sittings" / f"{names[1]}.json"
    whole = path.read_bytes()
    # Within the summary, within a text, behind a bracket, and with zeros where the rest will come to lie.
    for part in (b"", whole[:40], whole[:-1], whole[:-700] + bytes(700)):
        path.write_bytes(part)
        with pytest.raises(LogbookError, match="still being copied"):
            book.load(names[1])
        with pytest.raises(LogbookError, match="still being copied"):
            book.amend(names[1], lambda kept: kept)
        assert path.read_bytes() == part
    # Cut short within its summary it can't be listed yet; the others are.
    path.write_bytes(whole[:40])
    (folder / "index.json").unlink()
    assert [one.id for one in book.summaries()] == [names[2], names[0]]
    assert "still being copied" in book.messages[-1]
    path.write_bytes(whole)
    assert book.load(names[1]).header.id == names[1]
    assert [one.id for one in book.summaries()] == names[::-1]
    # Cut short just as much, but nobody copies it any more.
    written_long_ago(path, whole[:-1])
    with pytest.raises(LogbookError, match="damaged"):
        book.load(names[1])
    # Whole, written just now, and wrong: that no copying explains.
    path.write_bytes(b"[]")
    with pytest.raises(LogbookError, match="damaged"):
        book.load(names[1])


def test_sittings_that_come_and_go_by_hand_are_noticed(
    book: Logbook, folder: Path, names: list[str], tmp_path: Path
) -> None:
    sittings = folder / "sittings"
    (sittings / f"{names[0]}.json").rename(tmp_path / "away.json")
    (sittings / "from-a-friend.json").write_bytes((sittings / f"{names[1]}.json").read_bytes())
    (sittings / "not an id.json").write_text("what else people keep")
    assert [summary.id for summary in book.summaries()] == [names[2], "from-a-friend", names[1]]
    assert book.load("from").header.id == "from-a-friend"
    assert book.messages == []


def test_a_missing_index_is_made_again_by_whoever_looks(book: Logbook, folder: Path, names: list[str]) -> None:
    book.close()
    index = folder / "index.json"
    index.unlink()
    reader = Logbook(folder)
    assert [summary.id for summary in reader.summaries()] == names[::-1]
    assert set(read_index(index)) == set(names)
    assert reader.messages == []
    assert not reader._store.lock.held


def test_a_missing_index_is_left_to_who_holds_the_lock(book: Logbook, folder: Path, names: list[str]) -> None:
    index = folder / "index.json"
    index.unlink()
    assert [summary.id for summary in Logbook(folder).summaries()] == names[::-1]
    assert not index.exists()
    assert [summary.id for summary in book.summaries()] == names[::-1]
    assert set(read_index(index)) == set(names)


def test_an_index_that_another_wrote_meanwhile_stays(
    book: Logbook, folder: Path, names: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Else what it says of a sitting that was gone on with meanwhile would be what it was before."""
    book.close()
    index = folder / "index.json"
    others = index.read_bytes()
    index.unlink()
    reader = Logbook(folder)
    monkeypatch.setattr(reader._store.lock, "take", lambda: index.write_bytes(others))
    assert [summary.id for summary in reader.summaries()] == names[::-1]
    assert index.read_bytes() == others


def test_a_list_reads_no_more_of_a_sitting_than_its_beginning_and_its_end(
    book: Logbook, folder: Path, names: list[str]
) -> None:
    before = book.summaries()
    (folder / "index.json").unlink()
    path = folder / "sittings" / f"{names[0]}.json"
    whole = path.read_bytes()
    at = whole.index(b'"heatbook"')
    written_long_ago(path, whole[:at] + bytes(40) + whole[at + 40 :])
    assert book.summaries() == before
    with pytest.raises(LogbookError, match="damaged"):
        book.load(names[0])


def _marked(book: Logbook) -> list[str]:
    return [summary.id for summary in book.summaries() if summary.damaged]


@spoiled
def test_a_sitting_that_was_spoiled_since_it_was_listed_is_marked_and_stays_where_it_lies(
    book: Logbook, folder: Path, names: list[str], content: bytes
) -> None:
    before = book.summaries()
    path = folder / "sittings" / f"{names[1]}.json"
    whole = path.read_bytes()
    written_long_ago(path, content)
    for reader, said in ((book, 1), (Logbook(folder), 0)):  # told of once, as the index keeps it
        assert reader.summaries() == [replace(one, damaged=one.id == names[1]) for one in before]
        assert len(reader.messages) == said
    assert book.messages == [f"{shown(path)} can't be read, it is damaged; if you have a copy, put that in its place"]
    assert path.read_bytes() == content
    path.write_bytes(whole)
    assert book.summaries() == before
    assert Logbook(folder).summaries() == before


@pytest.mark.parametrize("index", ["whole", "of an earlier version", "gone"])
def test_a_sitting_that_was_cut_short_is_marked_whatever_index_there_is(
    book: Logbook, folder: Path, names: list[str], index: str
) -> None:
    path, kept = folder / "sittings" / f"{names[1]}.json", folder / "index.json"
    rows = json.loads(kept.read_text())
    for row in rows["sittings"].values():
        if index == "of an earlier version":
            del row["file_bytes"], row["damaged"]
    kept.write_text(json.dumps(rows))
    if index == "gone":
        kept.unlink()
    whole = path.read_bytes()
    written_long_ago(path, whole[: whole.index(b'"heatbook"')])
    assert _marked(book) == [names[1]]
    assert [summary.called for summary in book.summaries()] == ["A drawknife with a laid edge"] * 3
    assert read_index(kept)[names[0]].size == (folder / "sittings" / f"{names[0]}.json").stat().st_size
    assert [one.to_shown_record()["damaged"] for one in book.summaries()] == [False, True, False]


def test_a_sitting_that_is_still_being_copied_is_not_marked_but_told_of(
    book: Logbook, folder: Path, names: list[str]
) -> None:
    path = folder / "sittings" / f"{names[1]}.json"
    whole = path.read_bytes()
    path.write_bytes(whole[:-300])
    for index in (True, False):
        if not index:
            (folder / "index.json").unlink()
        assert [len(book.summaries()), *_marked(book)] == [3]
        assert ["still being copied" in message for message in book.messages] == [True]
    written_long_ago(path, whole[:-300])
    assert _marked(book) == [names[1]]


def test_a_sitting_that_another_machine_went_on_with_is_listed_as_it_is_now(
    book: Logbook, folder: Path, names: list[str]
) -> None:
    path = folder / "sittings" / f"{names[1]}.json"
    longer = path.read_bytes().replace(b"A drawknife with a laid edge", b"A drawknife with an edge laid in")
    path.write_bytes(longer)
    assert [one.called for one in book.summaries() if one.id == names[1]] == ["A drawknife with an edge laid in"]
    assert book.messages == []


@pytest.mark.parametrize("summary", [None, {}, 3, {"id": 1}, {"heats": 1e300}])
def test_a_sitting_without_a_summary_that_can_be_read_is_listed_by_the_rest_of_its_file(
    book: Logbook, folder: Path, names: list[str], summary: object
) -> None:
    """The first versions wrote none."""
    before = book.summaries()
    (folder / "index.json").unlink()
    path = folder / "sittings" / f"{names[0]}.json"
    whole = json.loads(path.read_bytes())
    if summary is None:
        del whole["sitting"]["1"]["summary"]
    elif isinstance(summary, dict) and summary:
        whole["sitting"]["1"]["summary"] |= summary
    else:
        whole["sitting"]["1"]["summary"] = summary
    path.write_bytes(to_json(whole))
    assert book.summaries() == before


def test_a_pipe_in_place_of_a_sitting_is_not_waited_for(book: Logbook, folder: Path, names: list[str]) -> None:
    path = folder / "sittings" / f"{names[0]}.json"
    path.unlink()
    os.mkfifo(path)
    with pytest.raises(LogbookError, match="it is a pipe, no ordinary file"):
        book.load(names[0])


@pytest.mark.parametrize("make", [os.mkfifo, Path.mkdir], ids=["a pipe", "a folder"])
def test_what_is_no_file_in_place_of_the_index_is_set_aside(
    book: Logbook,
    folder: Path,
    plan: Plan,
    started: datetime,
    names: list[str],
    counted: WorkOut,
    make: Callable[[Path], None],
) -> None:
    index = folder / "index.json"
    index.unlink()
    make(index)
    journal = book.open_sitting(plan, started + timedelta(days=9))
    book.fold(journal, counted)
    assert set(read_index(index)) == {*names, journal.header.id}
    assert "the damaged file is kept as index.json.bad" in book.messages[0]


def test_a_damaged_index_that_can_not_be_set_aside_is_not_written_over(
    book: Logbook, folder: Path, names: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def set_aside(path: Path) -> Path:
        raise OSError(errno.ENOSPC, "no room for a name", path)

    monkeypatch.setattr("plans.logbook.files.set_aside", set_aside)
    index = folder / "index.json"
    index.write_text("{")
    assert [summary.id for summary in book.summaries()] == names[::-1]
    assert index.read_text() == "{"
    assert "can't be set aside: the disk is full" in book.messages[0]


def test_a_newer_sitting_is_left_as_it_is(book: Logbook, folder: Path, names: list[str]) -> None:
    path = folder / "sittings" / f"{names[0]}.json"
    newer = path.read_bytes().replace(b'"heatbook":2', b'"heatbook":9')
    path.write_bytes(newer)
    with pytest.raises(LogbookError, match="newer heatbook"):
        book.load(names[0])
    assert path.read_bytes() == newer


def test_a_journal_without_a_header_is_set_aside(book: Logbook, folder: Path, counted: WorkOut) -> None:
    sittings = folder / "sittings"
    sittings.mkdir(parents=True)
    (sittings / "lost.jsonl").write_bytes(b"\0" * 100)
    assert book.recover(counted) == []
    assert (sittings / "lost.jsonl.bad").read_bytes() == b"\0" * 100
    assert "first line is damaged; the damaged file is kept as lost.jsonl.bad" in book.messages[0]
    assert book.summaries() == []


def test_a_newer_journal_is_left_as_it_is(book: Logbook, plan: Plan, started: datetime, counted: WorkOut) -> None:
    path = book.open_sitting(plan, started).path
    book.close()
    newer = changed(path.read_bytes(), b'"heatbook":2', b'"heatbook":9')
    path.write_bytes(newer)
    assert book.recover(counted) == []
    assert "newer heatbook" in book.messages[0]
    assert path.read_bytes() == newer


def test_a_journal_with_a_damaged_line_is_kept_beside_its_sitting(
    book: Logbook, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    journal = book.open_sitting(plan, started)
    for at in range(4):
        journal.event(Said(at, Word.NOTE, "x"))
    book.close()
    content = journal.path.read_bytes().replace(b'"at_seconds":2,', b'"at_s\xffconds":2,')
    journal.path.write_bytes(content)
    (recovered,) = book.recover(counted)
    (said,) = book.messages
    assert said == (
        f"{journal.path} is damaged: line 4 can't be read; all the rest of it is kept; "
        f"the damaged file is kept as {journal.path.name}.bad"
    )
    assert "line 4 can't be read" in recovered.damage[0]
    assert [entry.at for entry in book.load("last").log] == [0, 1, 3]
    assert journal.path.with_name(journal.path.name + ".bad").read_bytes() == content
    assert not journal.path.exists()


def test_a_short_journal_does_not_replace_a_longer_sitting(
    book: Logbook, plan: Plan, started: datetime, counted: WorkOut
) -> None:
    """Its disk was full, the sitting was put away from memory, and the power went before the journal was removed."""
    journal = book.open_sitting(plan, started)
    journal.event(Said(0, Word.NEXT))
    short = journal.path.read_bytes()
    journal.event(Said(1, Word.FINISH))
    journal.event(Ended(1))
    book.fold(journal, counted)
    journal.path.write_bytes(short)
    (recovered,) = book.recover(counted)
    assert recovered.summary.state is Progress.FINISHED
    assert [entry.at for entry in book.load("last").log] == [0, 1, 1]
    assert not journal.path.exists()


def test_what_was_being_written_is_swept_away(book: Logbook, folder: Path, names: list[str], counted: WorkOut) -> None:
    book.close()
    left = [folder / "index.json.new", folder / "sittings" / f"{names[0]}.json.new"]
    for path in left:
        path.write_text("{")
    book.recover(counted)
    assert not any(path.exists() for path in left)
    assert len(book.summaries()) == 3
