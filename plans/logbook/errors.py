"""What can go wrong with the logbook, in plain words."""

from __future__ import annotations

import errno
import os

from plans.errors import PlansError
from plans.text import printable


class LogbookError(PlansError):
    """The logbook can't do what was asked; the text says what, where, and what to do."""


class DamagedError(LogbookError):
    """A file's content is damaged: it can be opened but not understood, and may be set aside."""


class CopyingError(LogbookError):
    """A file is cut short and was written just now, as while a synchronizer copies it; it is to be left alone."""


class StoppedError(Exception):
    """What was being worked out is not wanted any more, since the program ends; nothing has come of it."""


def shown(path: str | os.PathLike[str]) -> str:
    """A path that can be printed: bytes of a name that are no UTF-8, and control characters, become `?`."""
    return printable(os.fspath(path))


_REASONS = {
    errno.ENOSPC: "the disk is full: make room",
    errno.EDQUOT: "the disk quota is used up: make room",
    errno.EFBIG: "the file would be larger than the system lets it be: lift the limit",
    errno.EROFS: "the disk is read-only: make it writable",
    errno.EACCES: "no permission: make file and folder yours to read and write",
    errno.EPERM: "no permission: make file and folder yours to read and write",
    errno.ENOTDIR: "a file stands where a folder should be: move it away",
    errno.EEXIST: "a file stands where a folder should be: move it away",
    errno.EISDIR: "a folder stands where a file should be: move it away",
    errno.EIO: "the disk fails: look at its cable and its health",
}


def reason(error: OSError) -> str:
    """Why the system refused, and what to do about it, in plain words."""
    known = _REASONS.get(error.errno or 0)
    return known or (error.strerror or str(error) or type(error).__name__)
