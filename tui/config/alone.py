"""One heatbook at a time changes the smith's own files in a folder: nobody writes between its reading and writing."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from threading import RLock
from typing import Final

from tui.config.errors import UsageError

_PATIENCE: Final = 1.0
"""How long it is waited for another heatbook, which is done in some milliseconds [s]."""
_PAUSE: Final = 0.005
"""Between two tries [s]."""
_THREAD: Final = RLock()
"""One thread of this program at a time."""
_ALONE: Final = set[Path]()
"""The folders that this program has to itself just now."""


@contextmanager
def alone_in(folder: Path) -> Iterator[bool]:
    """Have the smith's own files in a folder to oneself for as long as this lasts; within it, it may be had again.

    The folder itself is locked, so that nothing is left lying there. It is made where it is missing.

    Returns:
        whether that could be had; not on Windows, nor where a folder can't be locked, as on some network drives

    Raises:
        UsageError: another heatbook has it, and keeps it.
    """
    with _THREAD:
        if folder in _ALONE or (descriptor := _opened(folder)) is None:
            yield folder in _ALONE
            return
        try:
            if _locked(descriptor, folder):
                _ALONE.add(folder)
            yield folder in _ALONE
        finally:
            _ALONE.discard(folder)
            os.close(descriptor)


def _opened(folder: Path) -> int | None:
    from plans.writing import make_folder

    with suppress(OSError):  # whoever writes there says why that can't be done
        make_folder(folder)
        if sys.platform != "win32":
            return os.open(folder, os.O_RDONLY | os.O_CLOEXEC)
    return None


def _locked(descriptor: int, folder: Path) -> bool:
    if sys.platform == "win32":
        return False
    import fcntl

    until = time.monotonic() + _PATIENCE
    while True:
        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
            return True
        except BlockingIOError:
            if time.monotonic() >= until:
                raise UsageError(
                    f"{folder}: another heatbook is writing there and does not come to an end; leave it, and try again"
                ) from None
            time.sleep(_PAUSE)
        except OSError:
            return False
