"""The power goes while a logbook is written: at any moment, with whatever was not synced lost or in another order."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random

from plans.logbook.book import Logbook
from plans.logbook.header import Header
from plans.logbook.kept_sitting import WorkedOut
from plans.logbook.log import Log
from plans.plan import Plan
from plans.reading import Reading
from plans.sitting.events import Entry, Said, WentOn, Word
from tests.faults.recorded_disk import Recorder

_STARTED = datetime(2026, 11, 25, 9, 15, 2, tzinfo=UTC)
_PLAN = Plan("drawknife", "A drawknife", "", (), (), 'title = "A drawknife"\n' + "# Spaene: 5 %\n" * 40)


class _Told:
    """What the program had said by each step: entries that it had acknowledged as being on the disk."""

    def __init__(self, recorder: Recorder) -> None:
        self._recorder = recorder
        self.written: dict[str, list[Entry]] = {}
        """Every entry of each sitting, by its id."""
        self._acknowledged: list[tuple[int, str, int]] = []

    def acknowledge(self, name: str) -> None:
        """All that was written of a sitting so far is said to be on the disk."""
        self._acknowledged.append((len(self._recorder.steps), name, len(self.written[name])))

    def by(self, step: int) -> dict[str, int]:
        """How many entries of each sitting were acknowledged by that step."""
        return {name: count for at, name, count in self._acknowledged if at <= step}


def power_cuts(folder: Path, times: int, seed: int = 1) -> Iterator[str | None]:
    """Cut the power at so many moments of three sittings that are begun, left, gone on with and put away.

    Args:
        folder: an empty one
        times: how often
        seed: of the moments, and of what is lost

    Yields:
        For each cut what was wrong with the logbook afterwards, or None.
    """
    random = Random(seed)
    recorder = Recorder(folder / "disk")
    recorder.root.mkdir()
    told = _Told(recorder)
    with recorder.recording():
        _write(recorder.root / "data" / "logbook", told)
    for cut in range(times):
        step = random.randrange(len(recorder.steps) + 1)
        image = folder / "image"
        recorder.disk(step).left(image, random)
        wrong = list(_wrong(image / "data" / "logbook", told, step))
        shutil.rmtree(image)
        yield f"cut {cut} of seed {seed}, after step {step}: {'; '.join(wrong)}" if wrong else None


def _write(folder: Path, told: _Told) -> None:
    """The life of a logbook: a sitting is put away; one is cut off, brought back, gone on with; one more is begun."""
    book = Logbook(folder)
    first = book.open_sitting(_PLAN, _STARTED).header.id
    _log(book, first, told, 0)
    book.fold(book._open[first], _unknown)
    book.go_on(book.take_up(first), _STARTED + timedelta(hours=1), 3600.0)
    _log(book, first, told, 3600)
    second = book.open_sitting(_PLAN, _STARTED + timedelta(hours=2)).header.id
    _log(book, second, told, 0)
    book.close()
    book.recover(_unknown)
    book.go_on(book.take_up(second), _STARTED + timedelta(hours=3), 3600.0)
    _log(book, second, told, 3600)
    book.fold(book._open[second], _unknown)
    book.close()


def _log(book: Logbook, name: str, told: _Told, since: int) -> None:
    journal = book._open[name]
    entries = told.written.setdefault(name, [])
    if since:
        entries.append(WentOn(float(since)))
        journal.event(WentOn(float(since)))
    for number in range(1, 13):
        at = float(since + number)
        if number % 3:
            entries.append(Reading(at, 1000.15 + number))
            journal.reading(Reading(at, 1000.15 + number))
        else:
            entries.append(Said(at, Word.NOTE, f"note {number}"))
            journal.event(Said(at, Word.NOTE, f"note {number}"))
            told.acknowledge(name)
    assert journal.flush()
    told.acknowledge(name)


def _wrong(folder: Path, told: _Told, step: int) -> Iterator[str]:
    book = Logbook(folder)
    book.recover(_unknown)
    for name, count in told.by(step).items():
        try:
            kept = list(book.load(name).log)
        except Exception as error:
            yield f"{name} can't be read: {error!r}"
            continue
        expected = list(Log(told.written[name]))
        if kept[:count] != expected[:count]:
            yield f"{name}: {count} acknowledged, {len(kept)} found"
        elif kept != expected[: len(kept)]:
            # What was not acknowledged may be lost, and more behind it be there.
            strange = [entry for entry in kept if entry not in expected]
            if strange:
                yield f"{name}: {strange} was never written"
    left = [path.name for path in folder.rglob("*") if path.name.endswith((".jsonl", ".new"))]
    if left:
        yield f"left over: {left}"
    book.close()


def _unknown(header: Header, log: Log) -> WorkedOut:
    del header, log
    return WorkedOut(None)
