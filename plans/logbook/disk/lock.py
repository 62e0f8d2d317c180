"""One writer at a time: a lock on a file of its own, because a lock on data is lost when the data is replaced.

Written here and not taken from filelock, which does not tell who holds a lock, can't be asked without taking the lock
and making its file, and lets two in where the file was replaced.
"""

from __future__ import annotations

import os
import sys
import time
import weakref
from contextlib import suppress
from pathlib import Path
from threading import RLock

from plans.logbook.errors import LogbookError, shown
from plans.regular import open_regular
from plans.text import clean
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
_LONGEST = 200
"""Bytes of the text that are read."""


def _here() -> str:
    """The name of this machine; empty where it has none."""
    return os.uname().nodename if hasattr(os, "uname") else os.environ.get("COMPUTERNAME", "")


class Lock:
    """The right to write in one logbook. Frees itself when its holder dies; children don't inherit it.

    The system knows of no lock on another machine. But where a synchronizer shares the folder, what the file says comes
    along: the process and the machine that hold it, and nothing once they have let go. What another machine wrote there
    is put back in the end, so that it is told until that one has let go, or the file is removed.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._descriptor: int | None = None
        self._others = b""
        """What another machine had written there when this one took it; empty where none had."""
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
                self._let_go()
            make_folder(self._path.parent)
            until = time.monotonic() + patience
            while (descriptor := self._grabbed()) is None:
                if time.monotonic() >= until:
                    raise LogbookError(self._in_use())
                time.sleep(_PAUSE)
            self._descriptor = descriptor
            _held.add(self)
            before = self._text()
            self._others = before.encode("utf-8") if _host_in(before) not in ("", _here()) else b""
            self._say(f"{os.getpid()} {_here()}\n".encode("utf-8", "replace"))

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
                self._say(self._others)
                self._let_go()

    def _let_go(self) -> None:
        if self._descriptor is not None:
            os.close(self._descriptor)
            self._descriptor = None
            _held.discard(self)

    def _say(self, text: bytes) -> None:
        """Write into the file that is held: it is for people, and the lock holds on a full disk too."""
        if self._descriptor is not None:
            with suppress(OSError):
                os.ftruncate(self._descriptor, 0)
                os.pwrite(self._descriptor, text, 0)

    def _text(self) -> str:
        try:
            with open_regular(self._path) as file:
                return file.read(_LONGEST).decode("utf-8", "replace")
        except (OSError, ValueError):
            return ""

    @property
    def elsewhere(self) -> str:
        """What is to be said where another machine holds the lock, or did not let go of it; empty where none does."""
        host = _host_in(self._others.decode("utf-8") if self.held else self._text())
        if host in ("", _here()):
            return ""
        return (
            f"{shown(self._path)} says that the machine {host} writes in this logbook, or was stopped before it could "
            "let go: end heatbook there and let the folder be synchronized; where none runs there, remove that file"
        )

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
        number, _, host = self._text().strip().partition(" ")
        on = f" on {clean(host)}" if host not in ("", _here()) else ""  # some file systems lock over the network
        holder = f"process {number}{on}" if number.isdecimal() else "its process is not known"
        return (
            f"{shown(self._path.parent)}: another heatbook is writing in this logbook ({holder}), and only one may; "
            "end that one first, or give this one a folder of its own with HEATBOOK_HOME"
        )


def _host_in(text: str) -> str:
    """The machine that the text of a lock names, fit to be shown; empty where it names none, as first versions did."""
    return clean(text.strip().partition(" ")[2])


def _forget_in_child() -> None:
    for lock in list(_held):
        lock._thread = RLock()  # whoever held the old one is no thread of the child
        lock._let_go()


if hasattr(os, "register_at_fork"):
    # Closing the child's copy leaves the parent's lock alone; keeping it open would outlive the parent.
    os.register_at_fork(after_in_child=_forget_in_child)
