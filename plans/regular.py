"""Opening of ordinary files alone: a pipe would be waited for, and a device could be read for ever."""

from __future__ import annotations

import errno
import os
import stat
from io import BufferedReader
from pathlib import Path

_NOT_WAITING = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_NOCTTY", 0) | getattr(os, "O_CLOEXEC", 0)
_KINDS = (
    (stat.S_ISDIR, "a folder"),
    (stat.S_ISFIFO, "a pipe"),
    (stat.S_ISSOCK, "a socket"),
    (lambda mode: stat.S_ISCHR(mode) or stat.S_ISBLK(mode), "a device"),
)


class NoOrdinaryFileError(OSError):
    """What stands at a path is no ordinary file; `strerror` says what it is: "it is a pipe, no ordinary file"."""


def open_regular(path: Path) -> BufferedReader:
    """Open an ordinary file, or a link to one, to read its bytes; it never waits for whoever writes to a pipe.

    Raises:
        NoOrdinaryFileError: a folder, a pipe, a socket or a device stands there; none of them was read.
        OSError: it is not there, or can't be opened.
        ValueError: there can be no such path.
    """
    # A device may do something when it is opened, so it is not; but it may have come to stand there only just now.
    _refuse_others(path.stat().st_mode, path)
    descriptor = os.open(path, _NOT_WAITING | getattr(os, "O_BINARY", 0))
    try:
        _refuse_others(os.fstat(descriptor).st_mode, path)
        return os.fdopen(descriptor, "rb")
    except BaseException:
        os.close(descriptor)
        raise


def _refuse_others(mode: int, path: Path) -> None:
    if stat.S_ISREG(mode):
        return
    kind = next((name for is_it, name in _KINDS if is_it(mode)), "something else")
    number = errno.EISDIR if stat.S_ISDIR(mode) else errno.EINVAL
    raise NoOrdinaryFileError(number, f"it is {kind}, no ordinary file", str(path))
