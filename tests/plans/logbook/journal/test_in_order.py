"""Entries of a journal whose times can't be, told from breaks and suspends, which may be long."""

from __future__ import annotations

import os
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from plans.logbook.book import Logbook
from plans.logbook.header import Header
from plans.logbook.journal.appending import Journal
from plans.logbook.journal.reading_back import Found, read_header, read_journal
from plans.logbook.kept_sitting import WorkOut
from plans.logbook.log import Log
from plans.plan import Plan
from plans.reading import Reading
from plans.sitting.calls import Call
from plans.sitting.events import Called, Entry, Said, WentOn, Word

HOUR, DAY, YEAR = 3600.0, 86_400.0, 31_557_600.0


def found(folder: Path, header: Header, entries: list[Entry], after: float) -> Found:
    """What is read of a journal with these entries, whose file was written last so many seconds after the beginning."""
    journal = Journal.create(folder, header)
    for entry in entries:
        journal.reading(entry) if isinstance(entry, Reading) else journal.event(entry)
    journal.flush()
    journal.close()
    written = (header.started + timedelta(seconds=after)).timestamp()
    os.utime(journal.path, (written, written))
    return read_journal(journal.path)


def said(*times: float) -> list[Entry]:
    return [Said(at, Word.NOTE, f"at {at}") for at in times]


@pytest.mark.parametrize(
    ("times", "after", "left_out"),
    [
        pytest.param((0, 10, 10 + YEAR, 12, 13), 13, {2}, id="a year on, in the middle"),
        pytest.param((0, 10, 10 + 5 * HOUR, 12, 13), 13, {2}, id="five hours on, in the middle"),
        pytest.param((0, 10, 10 + YEAR, 12), 12, {2}, id="a year on, the last but one"),
        pytest.param((0, 10, 12, 12 + YEAR), 13, {3}, id="a year on, the last"),
        pytest.param((YEAR, 10, 12), 13, {0}, id="a year on, the first"),
        pytest.param((0, 10, 1, 12, 13), 13, {2}, id="backward"),
        pytest.param((0, 10, -5, 12), 13, {2}, id="before the beginning"),
        pytest.param((0, 10, 12, 10, 12), 13, {3}, id="two lines twice"),
        pytest.param((0, 10, 10 + 8 * HOUR, 12 + 8 * HOUR), 12 + 8 * HOUR, set(), id="suspended for a night"),
        pytest.param((0, 10, 10 + 30 * DAY), 10 + 30 * DAY, set(), id="suspended for a month, and cut off then"),
        pytest.param((0, 10, 10 + 8 * HOUR), 40 * DAY, set(), id="suspended for a night, and copied later"),
        pytest.param(tuple(range(0, 50_000, 3600)), 60, set(), id="a rehearsal, faster than time"),
        pytest.param((*range(0, 50_000, 3600), 50_000 + YEAR), 60, {14}, id="the same, and its last a year on"),
        pytest.param((0, 10, 20), -5 * HOUR, set(), id="the clock was set back"),
        pytest.param((0, 10, 10 + 8 * HOUR), -DAY, set(), id="suspended for a night, then the clock was set back"),
    ],
)
def test_what_is_out_of_its_time_is_left_out_and_named(
    folder: Path, header: Header, times: tuple[float, ...], after: float, left_out: set[int]
) -> None:
    put_in = said(*times)
    read = found(folder, header, put_in, after)
    assert list(read.log) == [entry for number, entry in enumerate(put_in) if number not in left_out]
    assert len(read.damage) == bool(left_out)
    for number in left_out:
        # A time before the beginning is none at all.
        what = "can't be read" if times[number] < 0 else "can't have been when the time there says"
        assert f"line {number + 2} {what}" in read.damage[0]


def test_a_reading_out_of_its_time_is_left_out_among_readings(folder: Path, header: Header) -> None:
    readings: list[Entry] = [Reading(at / 4, 1000.15) for at in range(40)]
    put_in = [*readings[:20], Reading(YEAR, 1000.15), *readings[20:]]
    assert list(found(folder, header, put_in, 10).log) == readings


def test_a_break_of_any_length_is_no_damage_and_what_fell_due_meanwhile_neither(folder: Path, header: Header) -> None:
    """What fell due while the program was away is told after it went on, with the time at which it was."""
    gone_on = header.gone_on(100 + 8 * HOUR, header.started + timedelta(days=3))
    put_in: list[Entry] = [*said(0, 100), WentOn(100 + 8 * HOUR, None, None, 100.0)]
    due = [Called(at, Call.TOO_COLD, 0, 1) for at in (300.0, 5 * HOUR)]
    for entries in (put_in, [*put_in, *due], [*put_in, *due, *said(110 + 8 * HOUR)]):
        read = found(folder, gone_on, entries, 3 * DAY + 20)
        assert (list(read.log), read.damage) == (entries, ())
        next(folder.iterdir()).unlink()


def test_an_entry_about_what_was_still_to_come_is_left_out(folder: Path, header: Header) -> None:
    call = Called(10.0, Call.ARREST, 0, 1, happened=10.0 + YEAR)
    assert list(found(folder, header, [*said(0), call, *said(20)], 20).log) == said(0, 20)


def test_a_header_with_a_wrong_date_is_put_right_by_the_name(folder: Path, header: Header) -> None:
    journal = Journal.create(folder, header)
    journal.close()
    content = journal.path.read_bytes()
    assert content.count(b'"started":"2026-') == 1
    journal.path.write_bytes(content.replace(b'"started":"2026-', b'"started":"9926-'))
    assert read_header(journal.path).started == header.started.replace(microsecond=0)
    assert "it began at 9926-11-25" in read_journal(journal.path).damage[0]


def test_a_header_that_was_gone_on_with_in_the_future_goes_by_the_beginning(folder: Path, header: Header) -> None:
    wrong = header.gone_on(100.0, header.started.replace(year=2126))
    put_in = [*said(0), WentOn(100.0), *said(101)]
    assert found(folder, wrong, put_in, -DAY).header == wrong, "the clock has been set back"
    read = found(folder, wrong, put_in, 110)
    assert read.header == header
    assert [entry.at for entry in read.log] == [0, 100, 101]
    assert "still to come" in read.damage[0]


def test_the_sitting_is_put_away_without_it(book: Logbook, plan: Plan, started: datetime, counted: WorkOut) -> None:
    journal = book.open_sitting(plan, started)
    for entry in said(0, 10, 10 + YEAR, 20):
        assert not isinstance(entry, Reading)
        journal.event(entry)
    book.close()
    content = journal.path.read_bytes()

    (recovered,) = book.recover(counted)
    assert recovered.summary.ended == started + timedelta(seconds=20)
    assert journal.path.with_name(journal.path.name + ".bad").read_bytes() == content
    assert [entry.at for entry in book.load("last").log] == [0, 10, 20]


@pytest.mark.parametrize("behind", [0, 1, 5])
def test_an_entry_with_a_wrong_digit_in_front_of_a_going_on_gives_way_to_it(
    folder: Path, header: Header, behind: int
) -> None:
    gone_on = header.gone_on(100.0, header.started + timedelta(seconds=100))
    rest: list[Entry] = [WentOn(100.0), *said(*range(101, 101 + behind))]
    read = found(folder, gone_on, [*said(0, 10, 20 + 100), *rest], 120)
    assert list(read.log) == [*said(0, 10), *rest]
    assert read.damage == ("line 4 can't have been when the time there says",)


@pytest.mark.parametrize("place", range(8))
def test_a_going_on_that_stands_there_twice_counts_once(folder: Path, header: Header, place: int) -> None:
    gone_on = header.gone_on(100.0, header.started + timedelta(seconds=100))
    right: list[Entry] = [*said(0, 10, 20), WentOn(100.0), *said(101, 102, 103)]
    read = found(folder, gone_on, [*right[:place], WentOn(100.0), *right[place:]], 120)
    assert list(Log(entry for entry in read.log if entry != WentOn(100.0))) == [*right[:3], *right[4:]]
    assert list(read.log).count(WentOn(100.0)) == 1
    assert len(read.damage) == 1


def test_a_going_on_that_stands_behind_what_came_after_it_is_the_one_that_is_wrong(
    folder: Path, header: Header
) -> None:
    gone_on = header.gone_on(100.0, header.started + timedelta(seconds=100))
    read = found(folder, gone_on, [*said(0, 10, 101, 102, 103), WentOn(100.0)], 120)
    assert list(read.log) == said(0, 10, 101, 102, 103)
    assert len(read.damage) == 1
