"""Disks that are full, have no names left, can't be written, or go."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, ExitStack, contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path
from resource import RLIMIT_FSIZE, getrlimit, setrlimit

from plans.logbook.book import Logbook
from plans.logbook.errors import LogbookError
from plans.logbook.header import Header
from plans.logbook.journal.reading_back import read_journal
from plans.logbook.kept_sitting import WorkedOut
from plans.logbook.log import Log
from plans.plan import Plan
from plans.reading import Reading
from plans.sitting.events import Said, Word

_STARTED = datetime(2026, 11, 25, 9, 15, 2, tzinfo=UTC)
_PLAN = Plan("drawknife", "A drawknife", "", (), (), 'title = "A drawknife"\n')
_NOBODY = 65534
Trouble = Callable[[Path], AbstractContextManager[None]]
"""Makes a folder such that it can't be written, for as long as the context lasts."""


def disks(folder: Path, of_its_own: bool = True) -> Iterator[str | None]:
    """Run a sitting through each trouble, once until it is over and once to the end.

    Args:
        folder: an empty one
        of_its_own: whether small disks may be mounted, where the system lets us; else what is like them is done

    Yields:
        For each trouble what was lost, or not said, or None.
    """
    folder.chmod(0o755)
    for name, trouble in _TROUBLES.items():
        for lasts in (False, True):
            home = folder / f"{name} {lasts}"
            home.mkdir()
            home.chmod(0o777)
            with _small_disk(home, of_its_own):
                wrong = list(_run_through(home, trouble, lasts))
            yield f"{name}{', to the end' if lasts else ''}: {'; '.join(wrong)}" if wrong else None


def _run_through(home: Path, trouble: Trouble, lasts: bool) -> Iterator[str]:
    folder, elsewhere = home / "logbook", home.parent / f"{home.name} elsewhere"
    elsewhere.mkdir()
    elsewhere.chmod(0o777)
    book = Logbook(folder)
    journal = book.open_sitting(_PLAN, _STARTED)
    _log(book, 0)
    with ExitStack() as stack:
        stack.enter_context(trouble(folder))
        _log(book, 1000)
        if trouble in _SAID and not (journal.trouble or journal.news):
            yield "nothing was said"
        if lasts:
            try:
                book.fold(journal, _unknown)
            except LogbookError:
                # What `LoggedSitting` does where something waits, on a disk that can be written.
                stack.close()
                found = read_journal(journal.write_copy(elsewhere)).log
                if list(found) != list(journal.log):
                    yield f"{len(found)} entries in the copy of {len(journal.log)}"
            else:
                yield from _short(book, journal.log)
            stack.close()
            return
    _log(book, 2000)
    if journal.trouble:
        yield journal.trouble
    book.fold(journal, _unknown)
    yield from _short(book, journal.log)
    book.close()


def _short(book: Logbook, log: Log) -> Iterator[str]:
    kept = book.load("last").log
    if list(kept) != list(log):
        yield f"{len(kept)} entries of {len(log)}"


def _log(book: Logbook, since: int) -> None:
    (journal,) = book._open.values()
    for at in range(since, since + 200):
        journal.reading(Reading(float(at), 1000.15))
        if at % 100 == 0:
            journal.event(Said(float(at), Word.NOTE, "x" * 100))
    journal.flush()


@contextmanager
def _small_disk(home: Path, of_its_own: bool) -> Iterator[None]:
    """A disk of 300 kB and 40 names where that may be mounted."""
    mount = ["mount", "-t", "tmpfs", "-o", "size=300k,nr_inodes=40,mode=777", "none", str(home)]
    mounted = of_its_own and subprocess.run(mount, capture_output=True, check=False).returncode == 0
    try:
        yield
    finally:
        if mounted:
            subprocess.run(["umount", "-l", str(home)], check=True)


@contextmanager
def _full(folder: Path) -> Iterator[None]:
    filler = folder.parent / "filler"
    soft, hard = getrlimit(RLIMIT_FSIZE)
    if os.path.ismount(folder.parent):
        with suppress(OSError), filler.open("wb", buffering=0) as file:
            while file.write(bytes(512)):
                pass
    else:
        (journal,) = folder.rglob("*.jsonl")
        setrlimit(RLIMIT_FSIZE, (journal.stat().st_size + 10, hard))
    try:
        yield
    finally:
        setrlimit(RLIMIT_FSIZE, (soft, hard))
        filler.unlink(missing_ok=True)


@contextmanager
def _no_names(folder: Path) -> Iterator[None]:
    fillers = [folder.parent / f"filler {number}" for number in range(60 if os.path.ismount(folder.parent) else 0)]
    with suppress(OSError):
        for filler in fillers:
            filler.touch()
    yield
    for filler in fillers:
        filler.unlink(missing_ok=True)


@contextmanager
def _read_only(folder: Path) -> Iterator[None]:
    """Its files and folders can't be written; the superuser goes on as nobody meanwhile."""
    paths = [folder, *folder.rglob("*")]
    modes = [path.stat().st_mode for path in paths]
    user = os.geteuid()
    for path in paths:
        path.chmod(0o555)
    if user == 0:
        os.seteuid(_NOBODY)
    try:
        yield
    finally:
        os.seteuid(user)
        for path, mode in zip(paths, modes, strict=True):
            if path.exists():
                path.chmod(mode)


@contextmanager
def _vanished(folder: Path) -> Iterator[None]:
    folder.rename(folder.with_name("away"))
    yield


@contextmanager
def _emptied(folder: Path) -> Iterator[None]:
    shutil.rmtree(folder)
    yield


_TROUBLES: dict[str, Trouble] = {
    "full": _full,
    "no names left": _no_names,
    "read-only": _read_only,
    "moved away": _vanished,
    "removed": _emptied,
}

_SAID = (_full, _vanished, _emptied)
"""Those that a journal that is open already can't be written through."""


def _unknown(header: Header, log: Log) -> WorkedOut:
    del header, log
    return WorkedOut(None)
