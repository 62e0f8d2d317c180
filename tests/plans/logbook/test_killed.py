"""Killed with no warning, at any moment: what was acknowledged is there, and nothing is corrupt."""

from __future__ import annotations

import signal
import subprocess
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path
from random import Random

from plans.logbook.book import Logbook
from plans.logbook.kept_sitting import Progress, WorkOut
from plans.logbook.log import Log
from plans.plan import Plan
from plans.reading import Reading
from plans.sitting.events import Entry, Said, Word

Child = Callable[..., "subprocess.Popen[str]"]

KILLS = 50

SITTING = """
import sys; from datetime import datetime; from pathlib import Path
from plans.logbook.book import Logbook; from plans.plan import Plan; from plans.reading import Reading
from plans.sitting.events import Said, Word
folder, started, flushes = sys.argv[1:]
journal = Logbook(Path(folder)).open_sitting(Plan("knife", "", "", (), (), ""), datetime.fromisoformat(started))
for number in range(100_000):
    if number % 7:
        journal.reading(Reading(number / 10, 1000.15 + number % 90))
    else:
        journal.event(Said(number / 10, Word.NOTE, str(number)))
    if number % int(flushes) == 0:
        journal.flush()
    print(number + 1 - journal.waiting, flush=True)
"""

FOLD = """
import os, signal, sys; from pathlib import Path
from plans.logbook import tinydb_files
from plans.logbook.book import Logbook; from plans.logbook.kept_sitting import WorkedOut
from plans.logbook.figures import CallMade, SittingFigures; from plans.sitting.calls import Call
left = int(sys.argv[2])
def dying(name):
    real = getattr(os, name)
    def call(*arguments, **keywords):
        global left
        if left == 0:
            os.kill(os.getpid(), signal.SIGKILL)
        left -= 1
        return real(*arguments, **keywords)
    setattr(os, name, call)
book = Logbook(Path(sys.argv[1]))
for name in ("open", "fdopen", "chmod", "fsync", "replace", "rename", "unlink", "close"):
    dying(name)
calls = lambda log: tuple(CallMade(1.0, Call.TOO_COLD, 0, 1) for _ in log)
book.recover(lambda header, log: WorkedOut(SittingFigures((), calls(log), ())))
print("done", left, flush=True)
"""


def entry(number: int) -> Entry:
    if number % 7:
        return Reading(number / 10, 1000.15 + number % 90)
    return Said(number / 10, Word.NOTE, str(number))


def kill_after(process: subprocess.Popen[str], lines: int) -> int:
    """Kill it once it has acknowledged so many entries; returns how many it had acknowledged when it died."""
    assert process.stdout is not None
    for _ in range(lines):
        acknowledged = int(process.stdout.readline())
    process.send_signal(signal.SIGKILL)
    for line in process.stdout:
        if line.endswith("\n"):
            acknowledged = int(line)
    process.wait()
    return acknowledged


def test_nothing_that_was_acknowledged_is_lost(folder: Path, started: datetime, child: Child, counted: WorkOut) -> None:
    random = Random(20261125)
    book = Logbook(folder)
    for kill in range(KILLS):
        begun = started + timedelta(hours=kill)
        process = child(SITTING, folder, begun.isoformat(), random.choice([3, 10, 1000]))
        acknowledged = kill_after(process, random.randint(1, 400))
        recovered = book.recover(counted)
        assert [found.damage for found in recovered] == [()]
        kept = book.load(recovered[0].summary.id)
        assert len(kept.log) >= acknowledged > 0
        assert list(kept.log) == list(Log(map(entry, range(len(kept.log)))))
        assert kept.state is Progress.UNFINISHED
        book.close()
    assert len(book.summaries()) == KILLS
    assert book.messages == []


def test_killed_before_every_single_step_of_putting_away(
    folder: Path, plan: Plan, started: datetime, child: Child
) -> None:
    """At each call to the system in turn, until one run gets through."""
    book = Logbook(folder)
    journal = book.open_sitting(plan, started)
    expected = [entry(number) for number in range(50)]
    for each in expected:
        journal.reading(each) if isinstance(each, Reading) else journal.event(each)
    book.close()
    content = journal.path.read_bytes()
    final = folder / "sittings" / f"{journal.header.id}.json"
    steps = 0
    done = False
    while not done:
        process = child(FOLD, folder, steps)
        assert process.stdout is not None
        done = process.stdout.readline().startswith("done")
        process.wait()
        assert journal.path.exists() or final.exists()
        reader = Logbook(folder)
        assert list(reader.load("last").log) == list(Log(expected))
        assert reader.messages == []
        steps += 1
        if not done and not journal.path.exists():
            # It died with all done but the last sync; go on with the steps of a first putting away.
            journal.path.write_bytes(content)
    assert steps > 10
    assert not journal.path.exists()
    assert len(book.summaries()) == 1
    assert sorted(path.name for path in folder.rglob("*") if path.is_file()) == sorted(
        [final.name, "index.json", "lock"]
    )
