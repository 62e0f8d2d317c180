"""What the logbook costs, as ratios of two things timed turn by turn in one run."""

from __future__ import annotations

import os
import subprocess
import sys
import tracemalloc
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from statistics import median
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
from plans.sitting.events import Basis, Call, Called, Said, Word

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


def ratio(small: Callable[[], float], large: Callable[[], float], turns: int) -> float:
    """The median of `large` over that of `small`, taken in turns so that a busy machine slows both."""
    times = [(small(), large()) for _ in range(turns)]
    return median(pair[1] for pair in times) / median(pair[0] for pair in times)


def test_event_100_000_costs_what_event_100_does(tmp_path: Path) -> None:
    early, late = filled(tmp_path / "early", 100), filled(tmp_path / "late", 100_000)
    found = ratio(lambda: fiftieth(early), lambda: fiftieth(late), turns=41)
    early.close()
    late.close()
    print(f"event 100,000 / event 100: {found:.3f}")
    assert found < 1.5


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


def test_a_logbook_of_1000_sittings_opens_like_one_of_10(tmp_path: Path) -> None:
    few, many = kept_sittings(tmp_path / "few", 10), kept_sittings(tmp_path / "many", 1000)
    found = ratio(lambda: opening(few, 10), lambda: opening(many, 1000), turns=15)
    print(f"opening 1,000 sittings / 10: {found:.3f}")
    assert found < 1.5


def test_a_running_sittings_log_is_lean(tmp_path: Path) -> None:
    """A tenth of eight hours at ten hertz, against a tenth of the 20 MB by which memory may grow, and half of that."""
    journal = Journal.create(tmp_path, header())
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
    print(f"log of 28,800 readings and 288 events: {size / 1e6:.2f} MB")
    assert size < 1e6
