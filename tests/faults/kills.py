"""A program that writes its journal, or puts it away, killed with no warning at any moment."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import traceback
from collections.abc import Callable, Iterator, Sequence
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random
from typing import Any

import plans
from plans.logbook.book import Logbook
from plans.logbook.figures.of_a_sitting import SittingFigures
from plans.logbook.header import Header
from plans.logbook.kept_sitting import WorkedOut
from plans.logbook.log import Log
from plans.logbook.logged_sitting import work_out
from plans.logbook.summary import Progress
from plans.reader import find_plan
from plans.reading import Reading
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Called, Entry, Said, Word

STARTED = datetime(2026, 11, 25, 9, 15, 2, tzinfo=UTC)
SITTING = """
import sys; from datetime import datetime; from pathlib import Path
from plans.logbook.book import Logbook; from plans.reader import find_plan; from plans.reading import Reading
from plans.sitting.engine import Sitting; from plans.sitting.events import Said, Word
folder, started, flushes = sys.argv[1:]
plan = find_plan("normalize", None)
journal = Logbook(Path(folder)).open_sitting(plan, datetime.fromisoformat(started))
for event in Sitting(plan).open():
    journal.event(event)
for number in range(100_000):
    if number % 7:
        journal.reading(Reading(number / 10, 1000.15 + number % 90))
    else:
        journal.event(Said(number / 10, Word.NOTE, str(number)))
    if number % int(flushes) == 0:
        journal.flush()
    print(len(journal.log) - journal.waiting, flush=True)
"""
"""Says after each entry how many the disk has."""
_TO_THE_DISK = ("open", "fdopen", "chmod", "fsync", "replace", "rename", "unlink", "close")
"""Calls to the system before each of which a putting away is killed."""


def entry(number: int) -> Entry:
    """What the killed program writes as its entry of this number."""
    if number % 7:
        return Reading(number / 10, 1000.15 + number % 90)
    return Said(number / 10, Word.NOTE, str(number))


def killed_while_writing(folder: Path, kills: int, seed: int = 20261125) -> Iterator[str | None]:
    """Kill a sitting's program at a random moment, again and again, in one logbook.

    Args:
        folder: an empty one, for the logbook
        kills: how often
        seed: of the moments

    Yields:
        For each kill what was wrong afterwards, or None.
    """
    random = Random(seed)
    opened = Sitting(find_plan("normalize", None)).open()
    book = Logbook(folder)
    for kill in range(kills):
        begun = STARTED + timedelta(hours=kill)
        process = _started(SITTING, folder, begun.isoformat(), random.choice([3, 10, 1000]))
        acknowledged = _kill_after(process, random.randint(1, 400))
        recovered = book.recover(work_out)
        damage = [found.damage for found in recovered]
        kept = book.load("last")
        entries = list(kept.log)
        wrong = [
            f"damage {damage}" if damage != [()] else "",
            f"{acknowledged} acknowledged, {len(entries)} found" if not len(entries) >= acknowledged > 0 else "",
            "other entries than were written" if entries != _written(opened, len(entries)) else "",
            f"state {kept.state}" if kept.state is not Progress.UNFINISHED else "",
            f"{len(book.summaries())} sittings after {kill + 1} kills" if len(book.summaries()) != kill + 1 else "",
            *book.messages,
        ]
        book.close()
        yield "; ".join(filter(None, wrong)) or None


def killed_while_putting_away(folder: Path) -> Iterator[str | None]:
    """Kill the putting away of one sitting before each of its calls to the system, until one run gets through.

    Args:
        folder: an empty one, for the logbook

    Yields:
        For each run what was wrong afterwards, or None.
    """
    book = Logbook(folder)
    journal = book.open_sitting(find_plan("normalize", None), STARTED)
    expected = [entry(number) for number in range(50)]
    for each in expected:
        journal.reading(each) if isinstance(each, Reading) else journal.event(each)
    book.close()
    content = journal.path.read_bytes()
    final = folder / "sittings" / f"{journal.header.id}.json"
    call, done = 0, False
    while not done:
        done = _put_away(folder, call)
        wrong = [] if journal.path.exists() or final.exists() else ["neither journal nor sitting"]
        reader = Logbook(folder)
        if list(reader.load("last").log) != list(Log(expected)):
            wrong.append("other entries than were written")
        wrong += reader.messages
        if done:
            files = sorted(path.name for path in folder.rglob("*") if path.is_file())
            wrong += (
                [] if files == sorted([final.name, "index.json", "lessons.json", "lock"]) else [f"left behind: {files}"]
            )
            wrong += [] if len(book.summaries()) == 1 else [f"{len(book.summaries())} sittings"]
        elif not journal.path.exists():
            # It died with all done but the last sync; go on with the steps of a first putting away.
            journal.path.write_bytes(content)
        yield f"before call {call}: {'; '.join(wrong)}" if wrong else None
        call += 1


def _put_away(folder: Path, left: int) -> bool:
    """Put a journal away in a fork of this process that dies before the call of this number; whether it got through.

    Raises:
        RuntimeError: it failed otherwise.
    """
    child = os.fork()
    if child == 0:
        try:
            _die_before(left)
            Logbook(folder).recover(_any_call)
            os._exit(0)
        finally:
            traceback.print_exc()
            os._exit(1)
    _, status = os.waitpid(child, 0)
    if status not in (0, signal.SIGKILL):
        raise RuntimeError(f"putting away ended with {status}")
    return status == 0


def _die_before(left: int) -> None:
    def dying(real: Callable[..., Any]) -> Callable[..., Any]:
        def call(*arguments: Any, **named: Any) -> Any:
            nonlocal left
            if left == 0:
                os.kill(os.getpid(), signal.SIGKILL)
            left -= 1
            return real(*arguments, **named)

        return call

    for name in _TO_THE_DISK:
        setattr(os, name, dying(getattr(os, name)))


def _any_call(header: Header, log: Log) -> WorkedOut:
    del header
    return WorkedOut(SittingFigures((), tuple(Called(1.0, Call.TOO_COLD, 0, 1) for _ in log), ()))


def _written(opened: Sequence[Entry], count: int) -> list[Entry]:
    return list(Log([*opened, *map(entry, range(count - len(opened)))]))


def _started(source: str, *arguments: object) -> subprocess.Popen[str]:
    root = str(Path(plans.__file__).parents[1])
    return subprocess.Popen(
        [sys.executable, "-c", source, *map(str, arguments)],
        stdout=subprocess.PIPE,
        text=True,
        env=os.environ | {"PYTHONPATH": root},
    )


def _kill_after(process: subprocess.Popen[str], lines: int) -> int:
    """Kill it once it has acknowledged so many entries; returns how many it had acknowledged when it died."""
    assert process.stdout is not None
    acknowledged = 0
    with process:
        for _ in range(lines):
            acknowledged = int(process.stdout.readline())
        process.send_signal(signal.SIGKILL)
        for line in process.stdout:
            if line.endswith("\n"):
                acknowledged = int(line)
    return acknowledged
