"""A sitting that is begun in a thread while the smith may be leaving already: it is put away, or never begun."""

from __future__ import annotations

from collections.abc import Callable
from threading import Event, Lock
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tui.running.running_sitting import RunningSitting

_AT_MOST = 1.0
"""So long a beginning that is being written is waited for; after it, its journal is what is kept [s]."""


class _NotWantedError(Exception):
    """The program is being left."""


class Beginning:
    """One sitting on its way. The thread `run`s it; `leave`, called in another, ends it at any moment."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._left = self._writing = False
        self._settled = Event()
        self._running: RunningSitting | None = None

    def run(self, begin: Callable[[Callable[[], None]], RunningSitting]) -> RunningSitting | None:
        """Begin it, in this thread.

        Args:
            begin: begins it; calls what it is given when all is ready and before anything is written

        Returns:
            the sitting; None where the program was left meanwhile, and `leave` has seen to it

        Raises:
            Exception: whatever `begin` raises.
        """
        try:
            self._running = begin(self._go_ahead)
        except _NotWantedError:
            return None
        finally:
            self._settled.set()
        return None if self._left else self._running

    def leave(self) -> RunningSitting | None:
        """Have it not begun, if that can still be.

        Returns:
            the sitting, where it was begun all the same: to be put away
        """
        with self._lock:
            self._left = True
            writing = self._writing
        if writing:
            self._settled.wait(_AT_MOST)
        return self._running

    def _go_ahead(self) -> None:
        with self._lock:
            if self._left:
                raise _NotWantedError
            self._writing = True
