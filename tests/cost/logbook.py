"""What the logbook costs, as ratios of two things timed turn by turn with each other."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

import plans
from plans.logbook.book import Logbook
from plans.logbook.figures import HeatFigures, SittingFigures, StepFigures
from plans.logbook.header import Header
from plans.logbook.journal import Journal
from plans.logbook.kept_sitting import WorkedOut
from plans.logbook.log import Log
from plans.plan import Plan, StepKind
from plans.reading import Reading
from plans.sitting.calls import Call
from plans.sitting.events import Basis, Called, Said, Word
from tests.cost.row import Row, by_turns

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
    """A late event beside an early one, and a large logbook beside a small one."""
    with TemporaryDirectory() as place:
        folder = Path(place)
        early, late = filled(folder / "early", 100), filled(folder / "late", 100_000)
        late_took, early_took = by_turns(41, lambda _: fiftieth(late) / 50, lambda _: fiftieth(early) / 50)
        early.close()
        late.close()
        yield Row("logbook, event 100,000", late_took, "event 100", early_took, 1.5)
        few, many = kept_sittings(folder / "few", 10), kept_sittings(folder / "many", 1000)
        many_took, few_took = by_turns(15, lambda _: opening(many, 1000), lambda _: opening(few, 10))
        yield Row("logbook of 1,000 sittings, opened", many_took, "one of 10", few_took, 1.5)


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
