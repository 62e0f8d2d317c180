"""What the logbook costs, as ratios of two things timed turn by turn with each other."""

from __future__ import annotations

import json
import os
import sqlite3
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter, process_time

import plans
from plans.logbook.book import Logbook
from plans.logbook.figures.of_a_sitting import HeatFigures, SittingFigures, StepFigures
from plans.logbook.header import Header
from plans.logbook.journal.appending import Journal
from plans.logbook.kept_sitting import WorkedOut
from plans.logbook.log import Log
from plans.logbook.search.typed import read_search
from plans.plan import Plan, StepKind
from plans.reading import Reading
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Called, Said, Word
from plans.units import Units
from tests.cost.row import Row, by_turns

_WANTED = "knife steel: 1084 since: 2026-03 peak > 1300 degC too cold > 10 s heats < 20"
STARTED = datetime(2026, 11, 25, 9, 15, 2, tzinfo=UTC)
OPEN = """
import sys; from pathlib import Path; from plans.logbook.book import Logbook
print(len(Logbook(Path(sys.argv[1])).summaries()))
"""


def header() -> Header:
    return Header("20261125-091502-knife", "knife", "A knife", "", STARTED)


def filled(folder: Path, events: int) -> Journal:
    """A journal with this many events in it, and as many readings."""
    log = Log()
    for number in range(events):
        log.append(Reading(number / 10, 1300.0))
        log.append(Called(number / 10, Call.TOO_COLD, 1, 1, 1200.0, Basis.MEASURED))
    journal = Journal.create(folder, header(), log)
    assert journal.trouble is None
    return journal


def fiftieth(journal: Journal) -> float:
    """Time for fifty events, each on the disk on return [s]."""
    begun = perf_counter()
    for number in range(50):
        journal.event(Said(number, Word.NEXT))
    return perf_counter() - begun


def rows() -> Iterator[Row]:
    """The journal beside sqlite3 and beside itself; logbooks of 10 to 5,000 beside what reading their bytes takes."""
    with TemporaryDirectory() as place:
        folder = Path(place)
        yield from _journal(folder)
        for count in (10, 100, 1000, 5000):
            yield from _listing(kept_sittings(folder / str(count), count), count)
        yield from _finding(folder / "1000", 1000)
        few, many = folder / "10", folder / "1000"
        many_took, few_took = by_turns(15, lambda _: opening(many, 1000), lambda _: opening(few, 10))
        yield Row("logbook of 1,000 sittings, opened", many_took, "one of 10", few_took, 1.5)


def _journal(folder: Path) -> Iterator[Row]:
    early, late = filled(folder / "early", 100), filled(folder / "late", 100_000)
    late_took, early_took = by_turns(41, lambda _: fiftieth(late) / 50, lambda _: fiftieth(early) / 50)
    yield Row("logbook, event 100,000", late_took, "event 100", early_took, 1.5)
    with closing(_database(folder / "early" / "events.db")) as database:
        ours, theirs = by_turns(21, lambda _: fiftieth(early) / 50, lambda _: _fiftieth_row(database) / 50)
    yield Row("journal, an event on the disk", ours, "sqlite3, WAL, synchronous FULL", theirs, 1.5)
    early.close()
    late.close()


def _database(path: Path) -> sqlite3.Connection:
    """The same events in a database that syncs each before it says so; beside the journal, on the same disk."""
    database = sqlite3.connect(path, isolation_level=None)
    database.execute("PRAGMA journal_mode = WAL")
    database.execute("PRAGMA synchronous = FULL")
    database.execute("CREATE TABLE events (at REAL, event TEXT)")
    return database


def _fiftieth_row(database: sqlite3.Connection) -> float:
    begun = perf_counter()
    for number in range(50):
        database.execute("INSERT INTO events VALUES (?, ?)", (number, '{"event":"word","word":"next"}'))
    return perf_counter() - begun


def _listing(folder: Path, count: int) -> Iterator[Row]:
    """The list of a logbook: with its index, beside reading that as JSON; without, beside reading as many files."""
    index = folder / "index.json"
    turns = 15 if count < 5000 else 5

    def listed(_: int) -> float:
        return processor(lambda: Logbook(folder).summaries())

    def without(turn: int) -> float:
        index.unlink()
        return listed(turn)

    def parsed(_: int) -> float:
        return processor(lambda: json.loads(index.read_bytes()))

    def read(_: int) -> float:
        """The head of every file, as any list without an index must."""

        def heads() -> None:
            begins = len('{"sitting":{"1":{"summary":')
            for path in (folder / "sittings").iterdir():
                with path.open("rb") as file:
                    json.JSONDecoder().raw_decode(file.read(4096).decode("ascii"), begins)

        return processor(heads)

    ours, theirs = by_turns(turns, listed, parsed)
    yield Row(f"logbook of {count:,} sittings, listed", ours, "json.loads of its index", theirs, 8)
    ours, theirs = by_turns(turns, without, read)
    yield Row(f"logbook of {count:,} sittings, listed without its index", ours, "read and loads of as many", theirs, 8)


def _finding(folder: Path, count: int) -> Iterator[Row]:
    """A key of a search, which looks through all sittings again, beside reading the index as JSON."""
    every, index = Logbook(folder).searchable(), folder / "index.json"

    def found(_: int) -> float:
        return processor(lambda: read_search(_WANTED).found(every, Units.METRIC))

    def parsed(_: int) -> float:
        return processor(lambda: json.loads(index.read_bytes()))

    ours, theirs = by_turns(15, found, parsed)
    yield Row(f"logbook of {count:,} sittings, a key of a search", ours, "json.loads of its index", theirs, 2)


def processor(work: Callable[[], object]) -> float:
    """Processor time that it takes [s]."""
    begun = process_time()
    work()
    return process_time() - begun


def kept_sittings(folder: Path, count: int) -> Path:
    """A logbook with this many sittings, each with a trace of five minutes."""
    book = Logbook(folder)
    heats = tuple(
        HeatFigures(number, 300.0, 60.0, 30.0, 0.0, 0.0, 0.0, 1523.15, 1523.15, 1423.15, Basis.MEASURED)
        for number in range(1, 13)
    )

    def work_out(header: Header, log: Log) -> WorkedOut:
        assert header.id
        return WorkedOut(SittingFigures((StepFigures(0, "Weld", StepKind.WELD, heats),), (), ()), log.readings)

    plan = Plan("knife", "A knife", "", (), (), "title = 'A knife'\n" * 40)
    journal = book.open_sitting(plan, STARTED)
    for second in range(300):
        journal.reading(Reading(second, 1300.0 + second % 7))
    journal.event(Said(300, Word.FINISH))
    first = folder / "sittings" / f"{book.fold(journal, work_out).id}.json"
    for number in range(1, count):
        first.with_name(f"{STARTED + timedelta(hours=number):%Y%m%d-%H%M%S}-knife.json").write_bytes(first.read_bytes())
    assert len(book.summaries()) == count  # which enters the copies in the index
    book.close()
    return folder


def opening(folder: Path, count: int) -> float:
    """Time for a new process to list the sittings [s]."""
    root = str(Path(plans.__file__).parents[1])
    begun = perf_counter()
    done = subprocess.run(
        [sys.executable, "-c", OPEN, str(folder)],
        capture_output=True,
        text=True,
        check=True,
        env=os.environ | {"PYTHONPATH": root},
    )
    spent = perf_counter() - begun
    assert int(done.stdout) == count
    return spent
