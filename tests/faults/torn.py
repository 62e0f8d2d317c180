"""Journals that were cut off, as by a power cut, or spoiled on the disk."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from random import Random

from plans.errors import PlansError
from plans.logbook.header import Header
from plans.logbook.journal.appending import Journal
from plans.logbook.journal.reading_back import read_journal
from plans.reading import Reading
from plans.sitting.events import Entry, Said, Word

TEXTS = ("left corner", "Späne: 5 %", '"quoted", [1]', "a\nb\x1b[2J", "\u202e\ud800", "")


def cut_anywhere(folder: Path, entries: int) -> Iterator[str | None]:
    """Cut a journal at each of its bytes behind its first line.

    Args:
        folder: where the journal is to lie
        entries: how many it holds

    Yields:
        For each cut what was wrong with what was read, or None.
    """
    return _cut(folder, entries, "cut at", behind=b"", damage=0)


def zeroed_behind(folder: Path, entries: int) -> Iterator[str | None]:
    """Put zeros behind a journal that was cut at each of its bytes, as a file system may that lost what was to follow.

    Args:
        folder: where the journal is to lie
        entries: how many it holds

    Yields:
        For each cut what was wrong with what was read, or None.
    """
    return _cut(folder, entries, "zeros from", behind=bytes(700), damage=1)


def _cut(folder: Path, entries: int, what: str, behind: bytes, damage: int) -> Iterator[str | None]:
    path, put_in = _written(folder, entries)
    whole = path.read_bytes()
    head = whole.index(b"\n") + 1
    for cut in range(head, len(whole) + 1):
        path.write_bytes(whole[:cut] + behind)
        found = read_journal(path)
        # A last line is whole without its end, but not with zeros in the place of that.
        expected = put_in[: whole[head : cut + (not behind)].count(b"\n")]
        right = len(found.damage) == damage and list(found.log) == expected
        yield None if right else f"{what} byte {cut}: {len(found.log)} entries of {len(expected)}, {found.damage}"


def doubled_behind(folder: Path, entries: int) -> Iterator[str | None]:
    """Write what stands behind each byte of a journal once more behind it.

    Args:
        folder: where the journal is to lie
        entries: how many it holds

    Yields:
        For each byte what was wrong with what was read, or None: all is as it was, and what came twice is told.
    """
    path, put_in = _written(folder, entries)
    whole = path.read_bytes()
    head = whole.index(b"\n") + 1
    for begin in range(head, len(whole)):
        path.write_bytes(whole + whole[begin:])
        found = read_journal(path)
        kept = list(found.log)
        right = kept == put_in and bool(found.damage)
        yield None if right else f"twice from byte {begin}: {len(kept)} entries, {found.damage}"


def spoiled_anywhere(folder: Path, entries: int, times: int, seed: int = 1) -> Iterator[str | None]:
    """Write other bytes over a stretch of a journal, behind its first line.

    Args:
        folder: where the journal is to lie
        entries: how many it holds
        times: how often this is done
        seed: of places and bytes

    Yields:
        For each time what was wrong with what was read, or None.
    """
    random = Random(seed)
    path, put_in = _written(folder, entries)
    whole = path.read_bytes()
    head = whole.index(b"\n") + 1
    for _ in range(times):
        at = random.randrange(head, len(whole))
        end = min(at + random.choice((1, 1, 2, 30, 500)), len(whole))
        path.write_bytes(whole[:at] + random.randbytes(end - at) + whole[end:])
        where = f"bytes {at} to {end}"
        try:
            kept = list(read_journal(path).log)
        except PlansError as error:
            yield f"{where}: {error}"
            continue
        before, behind = whole[head:at].count(b"\n"), whole[end:].count(b"\n")
        untouched = put_in[:before] + (put_in[-behind + 1 :] if behind > 1 else [])
        lost = [entry for entry in untouched if entry not in kept]
        yield f"{where}: {len(lost)} whole lines were lost" if lost else None


def _written(folder: Path, count: int) -> tuple[Path, list[Entry]]:
    header = Header("20261125-091502-x", "x", "X", "x = 1", datetime(2026, 11, 25, 9, 15, 2, tzinfo=UTC))
    journal = Journal.create(folder, header)
    entries: list[Entry] = []
    for number in range(count):
        if number % 3:
            reading = Reading(number / 4, None if number % 7 == 0 else 1000.15 + number % 90)
            entries.append(reading)
            journal.reading(reading)
        else:
            said = Said(number / 4, Word.NOTE, TEXTS[number % len(TEXTS)])
            entries.append(said)
            journal.event(said)
    journal.flush()
    journal.close()
    return journal.path, entries
