"""The journal: what happens in a sitting goes to the disk as it happens, one JSON value a line, only ever appended.

The first line is the header. An event is an object, as `plans.sitting.events.to_record` makes it. A reading is a list:
milliseconds since the sitting began, tenths of a degree Celsius or null, and its fault where it has one; the header
says so under `readings`.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from itertools import islice
from pathlib import Path
from typing import Any, BinaryIO, Final, NamedTuple

from plans.logbook import header as headers
from plans.logbook.errors import DamagedError, LogbookError, reason, shown
from plans.logbook.header import Header, NewerFormat
from plans.logbook.lock import Lock
from plans.logbook.log import Log
from plans.logbook.whole_files import UNREADABLE, strict_json, to_json, write_beside
from plans.reading import Reading
from plans.sitting import Entry, Event, event_from_record, event_to_record
from plans.trace import from_tenths, to_tenths

_READINGS: Final = ["milliseconds", "celsius_tenths", "fault"]
_CHUNK = 1024
"""Entries written at a time, so that a try on a full disk costs little however much is waiting."""

# macOS has no fdatasync
_sync = getattr(os, "fdatasync", os.fsync)


class Journal:
    """The journal of a running sitting, and its log in memory.

    Not for threads: one thread calls it, the one that owns the sitting; a reader thread posts its readings there.

    A disk that can't be written is no error here. `trouble` says what is wrong, the log goes on in memory, and every
    event and every `flush` tries again; when it works, all that was waiting is written in order.
    """

    def __init__(self, path: Path, header: Header, log: Log | None = None, lock: Lock | None = None) -> None:
        """A journal at `path`, beginning with `log`; writes nothing yet. `lock` is taken before the file is made."""
        self.path = path
        self.header = header
        self.log = Log() if log is None else log
        self.trouble: str | None = None
        """Why nothing can be written now, in plain words; None when all that had to be is on the disk."""
        self._lock = lock
        self._descriptor: int | None = None
        self._size = 0
        """Bytes that are known to be on the disk, whole lines all."""
        self._events, self._readings = len(self.log.events), len(self.log.readings)
        """How much of the log is in them."""

    @classmethod
    def create(cls, folder: Path, header: Header, log: Log | None = None, lock: Lock | None = None) -> Journal:
        """A new journal `<folder>/<id>.jsonl`, its header and `log` on the disk at once, or else `trouble` set."""
        journal = cls(folder / (f"{header.id}.jsonl"), header, log, lock)
        journal.flush()
        return journal

    def event(self, event: Event) -> None:
        """Log an event; it, and every reading before it, is on the disk on return, or else `trouble` is set.

        Raises:
            ValueError: a time or a temperature that is not finite; nothing was logged.
        """
        _line(event)  # what can't be written must not get into the log and spoil every later flush
        self.log.append(event)
        self.flush()

    def reading(self, reading: Reading) -> None:
        """Log a reading; it goes to the disk with the next flush or event.

        Raises:
            ValueError: its time is not finite; nothing was logged.
        """
        self.log.append(reading)

    def flush(self) -> bool:
        """Write and sync what is waiting; call it once a second. Whether all is on the disk now."""
        try:
            if self._descriptor is None or os.fstat(self._descriptor).st_nlink == 0:
                self._open()
            entries = self.log.after(self._events, self._readings)
            while chunk := list(islice(entries, _CHUNK)):
                self._append(chunk)
        except (OSError, LogbookError) as error:
            why = reason(error) if isinstance(error, OSError) else str(error)
            self.trouble = f"can't write {shown(self.path)}: {why}; the log goes on in memory and is tried again"
            self.close()
            return False
        self.trouble = None
        return True

    def close(self) -> None:
        """Let go of the file, without writing; a later flush or event opens it again."""
        if self._descriptor is not None:
            with suppress(OSError):
                os.close(self._descriptor)
            self._descriptor = None

    def write_copy(self, path: Path) -> None:
        """Write the whole journal elsewhere: the way out when its own folder can't be written to the end.

        Raises:
            OSError: nor can that.
        """
        write_beside(path, self._whole(len(self.log.events), len(self.log.readings)))

    @property
    def waiting(self) -> int:
        """Entries of the log that are not on the disk yet."""
        return len(self.log) - self._events - self._readings

    def _open(self) -> None:
        """Make the file or open it again, with nothing in it beyond what is known to be whole."""
        self.close()
        if self._lock is not None:
            self._lock.take()
        self.path.parent.mkdir(parents=True, exist_ok=True)
        # A file that vanished, or lost what had been synced, is made anew from memory.
        if not self._size or not self.path.exists() or self.path.stat().st_size < self._size:
            write_beside(self.path, self._whole(self._events, self._readings))
            self._size = self.path.stat().st_size
        descriptor = os.open(self.path, os.O_WRONLY | os.O_APPEND | getattr(os, "O_CLOEXEC", 0))
        self._descriptor = descriptor
        if os.fstat(descriptor).st_size > self._size:
            os.ftruncate(descriptor, self._size)  # a line torn by a write that failed

    def _append(self, chunk: list[Entry]) -> None:
        assert self._descriptor is not None
        data = b"".join(map(_line, chunk))
        rest = memoryview(data)
        while rest:
            rest = rest[os.write(self._descriptor, rest) :]
        _sync(self._descriptor)
        readings = sum(isinstance(entry, Reading) for entry in chunk)
        self._size += len(data)
        self._readings += readings
        self._events += len(chunk) - readings

    def _whole(self, events: int, readings: int) -> Iterator[bytes]:
        """The journal as far as the first `events` events and `readings` readings."""
        yield to_json(headers.to_record(self.header) | {"readings": _READINGS}) + b"\n"
        for entry in islice(self.log.after(0, 0), events + readings):
            yield _line(entry)


class Found(NamedTuple):
    """What was found in the file of a journal."""

    header: Header
    """First line of the journal: what was known of the sitting when it began."""
    log: Log
    """Every entry that could be read, in order."""
    damage: tuple[str, ...]
    """What could not be read, in plain words; a last line torn by a crash is none, nothing had relied on it."""


def read_journal(path: Path) -> Found:
    """Read a journal, whatever a crash did to it: a torn last line is left out, and so are lines that are damaged.

    Raises:
        DamagedError: it has no header that can be read.
        LogbookError: it can't be opened, or was written by a newer heatbook.
    """
    log, damage = Log(), []
    with _opened(path) as (file, header):
        for number, line in enumerate(file, start=2):
            if not line.endswith(b"\n"):
                break
            try:
                log.append(_entry(_decoded(line)))
            except UNREADABLE:
                damage.append(f"line {number}")
    return Found(header, log, _told(path, damage))


def read_header(path: Path) -> Header:
    """Read only the first line of a journal: what was known of the sitting when it began.

    Raises:
        DamagedError, LogbookError: as `read_journal`.
    """
    with _opened(path) as (_, header):
        return header


@contextmanager
def _opened(path: Path) -> Iterator[tuple[BinaryIO, Header]]:
    """A journal, open after its first line."""
    try:
        with path.open("rb") as file:
            first = file.readline()
            try:
                if not first.endswith(b"\n"):
                    raise ValueError("no whole header")
                header = headers.from_record(_decoded(first))
            except UNREADABLE:
                raise DamagedError(f"{shown(path)} can't be read: its first line is damaged") from None
            yield file, header
    except NewerFormat:
        raise LogbookError(f"{shown(path)} was written by a newer heatbook; read it with that one") from None
    except OSError as error:
        raise LogbookError(f"{shown(path)} can't be read: {reason(error)}") from None


def _told(path: Path, damage: list[str]) -> tuple[str, ...]:
    if not damage:
        return ()
    lines = ", ".join(damage[:5]) + (f" and {len(damage) - 5} more" if len(damage) > 5 else "")
    return (f"{shown(path)}: {lines} can't be read; all the others are kept",)


def _line(entry: Entry) -> bytes:
    if not isinstance(entry, Reading):
        return to_json(event_to_record(entry)) + b"\n"
    at = round(entry.at * 1000)
    tenths = None if entry.kelvin is None else to_tenths(entry.kelvin)
    return to_json([at, tenths] if entry.fault is None else [at, tenths, entry.fault]) + b"\n"


def _decoded(line: bytes) -> Any:
    return strict_json.decode(line.decode("utf-8"))


def _entry(record: Any) -> Entry:
    if isinstance(record, dict):
        return event_from_record(record)
    at, tenths, *rest = record
    fault = rest[0] if rest else None
    if type(at) is not int or (tenths is not None and type(tenths) is not int):
        raise TypeError("no reading")
    if len(rest) > 1 or not (fault is None or isinstance(fault, str)):
        raise TypeError("no reading")
    return Reading(at / 1000, None if tenths is None else from_tenths(tenths), fault)
