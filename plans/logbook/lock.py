"""One writer at a time: a lock on a file of its own, because a lock on data is lost when the data is replaced.

Written here and not taken from filelock, which does not tell who holds a lock, can't be asked without taking the lock
and making its file, and lets two in where the file was replaced.
"""

from __future__ import annotations

import os
import sys
import time
import weakref
from pathlib import Path
from threading import RLock

from plans.logbook.errors import LogbookError, shown
from plans.writing import make_folder

if sys.platform == "win32":
    import msvcrt

    def _grab(descriptor: int) -> None:
        os.lseek(descriptor, 1 << 20, os.SEEK_SET)  # beyond the text, which others must be able to read
        msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
else:
    import fcntl

    def _grab(descriptor: int) -> None:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)


_held: weakref.WeakSet[Lock] = weakref.WeakSet()
_PAUSE = 0.01
"""Between two tries [s]."""
_ASKED = 0.04
"""Somebody who only asks whether the lock is held, holds it for a moment [s]."""


class Lock:
    """The right to write in one logbook. Frees itself when its holder dies; children don't inherit it."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._descriptor: int | None = None
        self._thread = RLock()
        """One thread of this program at a time, or the second were told that the first holds the lock."""

    @property
    def held(self) -> bool:
        """Whether this object holds the lock now."""
        return self._descriptor is not None

    def take(self, patience: float = _ASKED) -> None:
        """Take the lock; does nothing where it is held already. The folder is made if it is missing.

        Where the folder was moved away with the lock in it, the one at the old place is taken.

        Args:
            patience: how long it is waited for somebody else who holds it [s]

        Raises:
            LogbookError: somebody else holds it; the text says who.
            OSError: the lock file can't be made or opened.
        """
        with self._thread:
            if self._descriptor is not None:
                if self._is_here(self._descriptor):
                    return
                self.release()
            make_folder(self._path.parent)
            until = time.monotonic() + patience
            while (descriptor := self._grabbed()) is None:
                if time.monotonic() >= until:
                    raise LogbookError(self._in_use())
                time.sleep(_PAUSE)
            self._descriptor = descriptor
            _held.add(self)
            try:
                os.ftruncate(descriptor, 0)
                os.pwrite(descriptor, b"%d\n" % os.getpid(), 0)
            except OSError:
                pass  # the number is for people; the lock holds on a full disk too

    def _grabbed(self) -> int | None:
        """The descriptor of the file, locked; None where somebody else has locked it."""
        descriptor = os.open(self._path, os.O_RDWR | os.O_CREAT | getattr(os, "O_CLOEXEC", 0), 0o600)
        try:
            _grab(descriptor)
            if self._is_here(descriptor):
                return descriptor
        except (BlockingIOError, PermissionError):
            pass
        except BaseException:
            os.close(descriptor)
            raise
        os.close(descriptor)
        return None

    def release(self) -> None:
        """Give the lock back; does nothing where it is not held. The file stays: removing it would free two writers."""
        with self._thread:
            if self._descriptor is not None:
                os.close(self._descriptor)
                self._descriptor = None
                _held.discard(self)

    def taken(self) -> bool:
        """Whether anybody holds it now, this object or another process."""
        with self._thread:
            return self.held or self.taken_elsewhere()

    def taken_elsewhere(self) -> bool:
        """Whether another process holds it now."""
        with self._thread:
            return not self.held and self._is_grabbed()

    def _is_grabbed(self) -> bool:
        try:
            descriptor = os.open(self._path, os.O_RDWR | getattr(os, "O_CLOEXEC", 0))
        except OSError:
            return False
        try:
            _grab(descriptor)
        except OSError:
            return True
        finally:
            os.close(descriptor)
        return False

    def _is_here(self, descriptor: int) -> bool:
        """Whether the file that is open is the one that has the name of the lock."""
        try:
            return os.path.samestat(os.fstat(descriptor), self._path.stat())
        except (FileNotFoundError, NotADirectoryError):
            return False

    def _in_use(self) -> str:
        try:
            holder = f"process {int(self._path.read_text('ascii'))}"
        except (OSError, ValueError):
            holder = "its process is not known"
        return (
            f"{shown(self._path.parent)}: another heatbook is writing in this logbook ({holder}), and only one may; "
            "end that one first, or give this one a folder of its own with HEATBOOK_HOME"
        )


def _forget_in_child() -> None:
    for lock in list(_held):
        lock._thread = RLock()  # whoever held the old one is no thread of the child
        lock.release()


if hasattr(os, "register_at_fork"):
    # Closing the child's copy leaves the parent's lock alone; keeping it open would outlive the parent.
    os.register_at_fork(after_in_child=_forget_in_child)
