"""A logbook in a folder that a synchronizer shares between machines: what the other one left there is told."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from pathlib import Path

from plans.logbook import Logbook, SittingLessons, Tie, work_out
from plans.logbook.disk.lock import Lock
from plans.plan import Plan


def test_a_sitting_of_another_machine_is_told_and_left_alone(tmp_path: Path, trial: Plan, started: datetime) -> None:
    theirs = Logbook(tmp_path / "theirs")
    journal = theirs.open_sitting(trial, started)
    journal.flush()
    name = f"{journal.header.id}.jsonl"
    mine = tmp_path / "mine"
    (mine / "sittings").mkdir(parents=True)
    copy = mine / "sittings" / name
    copy.write_bytes((tmp_path / "theirs" / "sittings" / name).read_bytes())
    (mine / "lock").write_text("4711 the-old-\x1b[2Jlaptop\n")

    book = Logbook(mine)
    assert book.recover(work_out) == []
    assert copy.exists()
    assert ["the machine the-old-?[2Jlaptop" in message for message in book.messages] == [True]
    book.close()
    again = Logbook(mine)
    again.summaries()
    assert "the-old" in again.messages[0]
    # Once that one has let go, as it does when it ends, its sitting is put away as any that was cut off.
    (mine / "lock").write_bytes(b"")
    book = Logbook(mine)
    assert [one.summary.id for one in book.recover(work_out)] == [journal.header.id]
    assert book.messages == []
    book.close()
    theirs.close()


def test_a_lock_names_its_machine_while_it_is_held_alone(tmp_path: Path) -> None:
    lock = Lock(tmp_path / "lock")
    lock.take()
    process, host = (tmp_path / "lock").read_text().split()
    assert process.isdecimal()
    assert host
    assert not lock.elsewhere  # it is this one
    lock.release()
    assert (tmp_path / "lock").read_bytes() == b""


def test_second_copies_are_told_and_left_alone(tmp_path: Path, trial: Plan, started: datetime) -> None:
    book = Logbook(tmp_path)
    journal = book.open_sitting(trial, started)
    book.fold(journal, work_out)
    kept = tmp_path / "sittings" / f"{journal.header.id}.json"
    whole = kept.read_bytes()
    ways = (" (conflict).json", ".sync-conflict-20260314-091502-ABCDEF1.json", " (1).jsonl")
    copies = [kept.with_name(kept.stem + way) for way in ways]
    for copy in copies:
        copy.write_bytes(whole[:-9])
    # A synchronizer's own names for what it has half copied.
    for name in (f".{kept.name}.part", f".syncthing.{kept.name}.tmp", f"{kept.name}.tmp"):
        kept.with_name(name).write_bytes(whole[:90])
    assert [one.id for one in book.summaries()] == [journal.header.id]
    assert len(book.messages) == len(copies)
    assert all(any(copy.name in message for message in book.messages) for copy in copies)
    assert [copy.read_bytes() for copy in copies] == [whole[:-9]] * len(copies)
    book.close()


def test_a_second_copy_that_might_be_a_sitting_is_told_by_what_stands_in_it(
    tmp_path: Path, trial: Plan, started: datetime
) -> None:
    """Some synchronizers set the machine's name behind a hyphen, as heatbook sets a number."""
    book = Logbook(tmp_path)
    names = []
    for _ in range(2):
        journal = book.open_sitting(trial, started)
        names.append(journal.header.id)
        book.fold(journal, work_out)
    first, second = names
    lessons = SittingLessons().learned("oil first", Tie(plan="A"), 0, started, "a")
    book.amend(first, lambda kept: replace(kept, lessons=lessons))
    assert second == f"{first}-2"
    kept = tmp_path / "sittings" / f"{first}.json"
    copy, other = (kept.with_name(f"{first}-{way}.json") for way in ("LAPTOP7", "long"))
    copy.write_bytes(kept.read_bytes())
    other.write_bytes(kept.read_bytes().replace(first.encode(), other.stem.encode()))
    assert {one.id for one in book.summaries()} == {first, second, other.stem}
    assert {one.sitting for one in book.recall()} == {first, other.stem}
    (message,) = book.messages
    assert f"{copy.name} is left alone: it is a second copy of sitting {first}," in message
    book.close()
