"""Programs that want the same logbook at the same moment."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import plans
from plans.logbook.book import Logbook

_WRITER = """
import sys; from datetime import UTC, datetime; from pathlib import Path
from plans.logbook.book import Logbook; from plans.logbook.kept_sitting import WorkedOut
from plans.logbook.errors import LogbookError
from plans.plan import Plan; from plans.sitting.events import Said, Word
folder, number = sys.argv[1:]
book = Logbook(Path(folder))
print("ready", flush=True); sys.stdin.readline()
try:
    book.recover(lambda *_: WorkedOut(None))
    journal = book.open_sitting(Plan("knife", "", "", (), (), ""), datetime(2026, 1, 1, tzinfo=UTC))
except LogbookError as error:
    print("refused" if "another heatbook is writing" in str(error) else error, flush=True); sys.exit()
for at in range(40):
    journal.event(Said(at, Word.NOTE, number))
    if journal.trouble: print(journal.trouble, flush=True); sys.exit()
book.fold(journal, lambda *_: WorkedOut(None)); book.close()
print("wrote", flush=True)
"""
"""Writes one sitting, or is refused; begins when it is told to."""


def programs(folder: Path, times: int) -> Iterator[str | None]:
    """Have three programs want the same logbook at the same moment.

    Args:
        folder: an empty one
        times: how often

    Yields:
        For each time what was wrong, or None: who was not refused has all of his sitting in the log.
    """
    wrote = 0
    for time in range(times):
        running = [_writer(folder, f"{time} {number}") for number in range(3)]
        for process in running:
            assert process.stdin is not None
            process.stdin.write("\n")
            process.stdin.flush()
        answers = list(map(_answer_of, running))
        wrote += answers.count("wrote")
        book = Logbook(folder)
        logs = [list(book.load(summary.id).log) for summary in book.summaries()]
        wrong = [answer for answer in answers if answer not in ("wrote", "refused")]
        wrong += [] if "wrote" in answers else ["all were refused"]
        wrong += [] if len(logs) == wrote else [f"{len(logs)} sittings of {wrote}"]
        wrong += [f"{len(log)} entries" for log in logs if len(log) != 40 or len({said.text for said in log}) != 1]  # type: ignore[union-attr]
        wrong += book.messages
        yield f"time {time}: {'; '.join(wrong)}" if wrong else None


def _writer(folder: Path, number: str) -> subprocess.Popen[str]:
    process = subprocess.Popen(
        [sys.executable, "-c", _WRITER, str(folder), number],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env=os.environ | {"PYTHONPATH": str(Path(plans.__file__).parents[1])},
    )
    assert process.stdout is not None
    assert process.stdout.readline() == "ready\n"
    return process


def _answer_of(process: subprocess.Popen[str]) -> str:
    assert process.stdout is not None
    with process:
        return process.stdout.readline().strip()
