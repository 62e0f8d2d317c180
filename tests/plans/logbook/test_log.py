from __future__ import annotations

from math import nan

import pytest

from plans.logbook.log import Log
from plans.phase import PhaseKind
from plans.reading import Reading
from plans.sitting.events import Begun, Ended, Entry, Event, Said, WentOn, Word

NEXT, NOTE, FINISH, UNDO = (Said(1.0, word) for word in (Word.NEXT, Word.NOTE, Word.FINISH, Word.UNDO))
SEEN = Said(1.0, Word.ACKNOWLEDGE)
END = Ended(1.0)


def test_entries_keep_their_order() -> None:
    entries: list[Entry] = [
        Reading(0.1, 300.0),
        Begun(0.1, 0, 1, PhaseKind.FIRE),
        Said(0.1, Word.NEXT),
        Reading(0.1, None, "lost"),
        Reading(0.2, 301.0),
        WentOn(0.3),
    ]
    log = Log(entries)
    assert [entry.at for entry in log] == [entry.at for entry in entries]
    assert [type(entry) for entry in log] == [type(entry) for entry in entries]
    assert [type(entry) for entry in log.after(2, 1)] == [Reading, Reading, WentOn]
    assert len(log) == 6
    assert list(Log.of(log.events, log.readings, [1, 1, 3])) == list(log)


@pytest.mark.parametrize("before", [[0], [0, 0, 0], [1, 0], [0, 2], [-1, 0]])
def test_parts_that_do_not_fit_are_refused(before: list[int]) -> None:
    log = Log([WentOn(0), WentOn(1), Reading(1, 300.0)])
    with pytest.raises((ValueError, OverflowError)):
        Log.of(log.events, log.readings, before)


@pytest.mark.parametrize(
    ("events", "ended"),
    [
        ([], False),
        ([NEXT], False),
        ([FINISH, END], True),
        ([NEXT, END], True),
        ([FINISH, END, UNDO], False),
        ([NEXT, END, UNDO], False),
        ([FINISH, END, NOTE], True),
        ([FINISH, END, NOTE, UNDO], False),
        ([FINISH, END, SEEN, UNDO], False),
        ([FINISH, END, UNDO, FINISH, END], True),
        ([UNDO], False),
    ],
)
def test_the_end_can_be_taken_back(events: list[Event], ended: bool) -> None:
    assert Log(events).ended is ended


def test_the_last_moment_is_that_of_the_newest_entry() -> None:
    assert Log().last_at == 0
    assert Log([Reading(4, 300.0), WentOn(3)]).last_at == 4
    assert Log([Reading(4, 300.0), WentOn(5)]).last_at == 5


@pytest.mark.parametrize("entry", [Reading(nan, 300.0), WentOn(nan)])
def test_a_time_that_is_none_is_refused(entry: Entry) -> None:
    log = Log()
    with pytest.raises(ValueError, match="finite time"):
        log.append(entry)
    assert len(log) == 0
