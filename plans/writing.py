"""Writing so that a file is always either the old one or the new one, whole, whatever is killed or cut."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path
from typing import Final

BESIDE: Final = ".new"
"""Ending of a file that is being written; one that is left over was never finished and holds nothing of its own."""

_OWNERS_FILE: Final = 0o600
_OWNERS_FOLDER: Final = 0o700
"""What a smith notes at the forge is his own; a file that he has opened to others stays open to them."""


def make_folder(folder: Path) -> None:
    """Make a folder and those above it that are missing, for their owner alone, to last through a power cut.

    Raises:
        OSError: one of them could not be made, or something else stands in its place.
    """
    if folder.is_dir():
        return
    make_folder(folder.parent)
    folder.mkdir(_OWNERS_FOLDER, exist_ok=True)
    sync_folder(folder.parent)


def write_new(path: Path, chunks: Iterable[bytes]) -> None:
    """Write a new file, for its owner alone, and sync it: the content lasts through a power cut, the name may not.

    Raises:
        FileExistsError: something of this name is there, be it a link to nowhere; it stays as it is.
        OSError: it could not be written; what was written of it is gone again.
    """
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_CLOEXEC", 0)
    descriptor = os.open(path, flags | getattr(os, "O_BINARY", 0), _OWNERS_FILE)
    try:
        with os.fdopen(descriptor, "wb") as file:
            for chunk in chunks:
                file.write(chunk)
            file.flush()
            os.fsync(file.fileno())
    except BaseException:
        with suppress(OSError):
            path.unlink(missing_ok=True)
        raise


def write_beside(
    path: Path, chunks: Iterable[bytes], ending: str = BESIDE, check: Callable[[], None] = lambda: None
) -> None:
    """Write a file whole: beside, synced, renamed over the old one, the folder synced.

    A file that is replaced hands its permissions on, a new one is its owner's alone; a link is followed. There must be
    one writer at a time (the logbook's lock): the file beside has a fixed name, so that a left-over one does not stay.

    Args:
        path: where to
        chunks: what it is to hold
        ending: of the file beside; one of its own where there may be another writer
        check: asked just before the new file takes the old one's place; what it raises is raised, and the old one stays

    Raises:
        OSError: it could not be written; the old file is untouched.
    """
    target = Path(os.path.realpath(path))
    beside = target.with_name(target.name + ending)
    beside.unlink(missing_ok=True)
    write_new(beside, chunks)
    try:
        if target.exists():
            beside.chmod(target.stat().st_mode & 0o777)
        check()
        beside.replace(target)
    except BaseException:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
        raise
    sync_folder(target.parent)


def sync_folder(folder: Path) -> None:
    """Make new and gone names of a folder last through a power cut; Windows has no such call and needs none."""
    if os.name == "nt":
        return
    descriptor = os.open(folder, os.O_RDONLY | os.O_CLOEXEC)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
