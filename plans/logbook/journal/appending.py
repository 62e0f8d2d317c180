"""The journal: what happens in a sitting goes to the disk as it happens, a line each, only ever appended."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import suppress
from itertools import count, islice
from pathlib import Path

from plans.logbook.disk import Lock, numbered, remove, set_aside
from plans.logbook.errors import LogbookError, reason, shown
from plans.logbook.header import Header
from plans.logbook.journal.lines import entry_line, header_line
from plans.logbook.log import Log
from plans.reading import Reading
from plans.sitting import Entry, Event
from plans.writing import make_folder, write_beside, write_new

_CHUNK = 1024
"""Entries written at a time, so that a try on a full disk costs little however much is waiting."""

# macOS has no fdatasync
_sync = getattr(os, "fdatasync", os.fsync)


class Journal:
    """The journal of a running sitting, and its log in memory.

    Not for threads: one thread calls it, the one that owns the sitting; a reader thread posts its readings there.

    A disk that can't be written is no error here. `trouble` says what is wrong, the log goes on in memory, and every
    event and every `flush` tries again; when it works, all that was waiting is written in order. Nor is a file that
    something else has changed, moved or removed meanwhile: it is written again from memory, `news` says so, and what
    stands in its place is set aside, since it may hold what somebody else wrote.
    """

    def __init__(self, path: Path, header: Header, log: Log | None = None, lock: Lock | None = None) -> None:
        """A journal at `path`, beginning with `log`; writes nothing yet. `lock` is taken before the file is made."""
        self.path = path
        self.header = header
        self.log = Log() if log is None else log
        self.trouble: str | None = None
        """Why nothing can be written now, in plain words; None when all that had to be is on the disk."""
        self.news: list[str] = []
        """What happened to its file, in plain words; for the caller to show and to clear."""
        self._lock = lock
        self._descriptor: int | None = None
        self._file: os.stat_result | None = None
        """Which file it is; None until there is one."""
        self._size = 0
        """Bytes that are known to be on the disk, whole lines all."""
        self._torn = 0
        """Bytes behind them of a write that failed."""
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
        # What can't be written must not get into the log and spoil every later flush.
        entry_line(event, len(self.log) + 1)
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
            if self._descriptor is None or not self._is_untouched():
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

    def write_copy(self, folder: Path) -> Path:
        """Write the whole journal elsewhere: the way out when its own folder can't be written to the end.

        Returns:
            the new file, which took no other's place

        Raises:
            OSError: nor can that.
        """
        lines = list(self._whole(len(self.log.events), len(self.log.readings)))
        for copy in numbered(folder / self.path.name):
            with suppress(FileExistsError):
                write_new(copy, lines)
                return copy
        raise AssertionError("there is always one name more")

    def remove(self) -> None:
        """Remove its file, since the sitting has been put away; one that something else has changed is set aside.

        Raises:
            OSError: it could not be removed.
        """
        self.close()
        if self._file is None or not self.path.exists():
            return  # what it could not write is in the logbook by now
        if self._can_be_gone_on_with():
            remove(self.path)
        else:
            self._keep_aside("was changed by something else")

    @property
    def waiting(self) -> int:
        """Entries of the log that are not on the disk yet."""
        return len(self.log) - self._events - self._readings

    def _is_untouched(self) -> bool:
        """Whether the file still lies where it did, with what was written into it and nothing else."""
        try:
            now = self.path.stat()
        except (FileNotFoundError, NotADirectoryError):
            return False
        return self._file is not None and os.path.samestat(now, self._file) and now.st_size == self._size

    def _open(self) -> None:
        """Make the file or open it again, with nothing in it beyond what is known to be whole."""
        self.close()
        if self._lock is not None:
            self._lock.take()
        make_folder(self.path.parent)
        if self._file is None:
            self._make()
        elif not self.path.exists():
            self._make()
            self.news.append(f"{shown(self.path)} was moved or removed; it is written again from memory")
        elif not self._can_be_gone_on_with():
            self._keep_aside("was changed by something else; it is written again from memory")
            self._make()
        self._descriptor = os.open(self.path, os.O_WRONLY | os.O_APPEND | getattr(os, "O_CLOEXEC", 0))
        if os.fstat(self._descriptor).st_size > self._size:
            os.ftruncate(self._descriptor, self._size)  # a line torn by a write that failed
        self._torn = 0

    def _make(self) -> None:
        write_beside(self.path, self._whole(self._events, self._readings))
        self._file = self.path.stat()
        self._size, self._torn = self._file.st_size, 0

    def _can_be_gone_on_with(self) -> bool:
        """Whether what lies there is what was written, and at most a line torn by a write that failed."""
        now = self.path.stat()
        is_it = self._file is not None and os.path.samestat(now, self._file)
        return is_it and self._size <= now.st_size <= self._size + self._torn

    def _keep_aside(self, what: str) -> None:
        aside = set_aside(self.path)
        self.news.append(f"{shown(self.path)} {what}; what stood there is kept as {shown(aside.name)}")

    def _append(self, chunk: list[Entry]) -> None:
        assert self._descriptor is not None
        data = b"".join(map(entry_line, chunk, count(self._events + self._readings + 1)))
        rest = memoryview(data)
        while rest:
            written = os.write(self._descriptor, rest)
            self._torn += written
            rest = rest[written:]
        _sync(self._descriptor)
        readings = sum(isinstance(entry, Reading) for entry in chunk)
        self._size += len(data)
        self._torn = 0
        self._readings += readings
        self._events += len(chunk) - readings

    def _whole(self, events: int, readings: int) -> Iterator[bytes]:
        """The journal as far as the first `events` events and `readings` readings."""
        yield header_line(self.header)
        yield from map(entry_line, islice(self.log.after(0, 0), events + readings), count(1))
