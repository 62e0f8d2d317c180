"""A sitting that is begun in a thread while the smith may be leaving already: it is put away, or never begun."""

from __future__ import annotations

from collections.abc import Callable
from threading import Event, Lock
from typing import TYPE_CHECKING

from plans.prose import in_units
from tui.running.requests import Outcome

if TYPE_CHECKING:
    from plans.sitting import Word
    from plans.units import Units
    from tui.running.running_sitting import RunningSitting

NOTHING_KEPT = "nothing was said, so nothing is kept of it"
"""What is told of a sitting that was left as it had begun."""

_AT_MOST = 1.0
"""So long a beginning that is being written is waited for; after it, its journal is what is kept [s]."""


class _NotWantedError(Exception):
    """The program is being left."""


class Beginning:
    """One sitting on its way. The thread `run`s it; `leave`, called in another, ends it at any moment."""

    def __init__(self) -> None:
        self.said: list[tuple[Word, str]] = []
        """What the smith has said meanwhile, each word with its text: to be told to the sitting when it runs."""
        self._lock = Lock()
        self._left = self._writing = self._given_up = False
        self._settled = Event()
        self._running: RunningSitting | None = None

    def run(self, begin: Callable[[Callable[[], None]], RunningSitting]) -> RunningSitting | None:
        """Begin it, in this thread.

        Args:
            begin: begins it; calls what it is given when all is ready and before anything is written

        Returns:
            the sitting; None where it was left meanwhile, and has been seen to

        Raises:
            Exception: whatever `begin` raises, but for one that was left.
        """
        try:
            if self._left:
                return None
            running = begin(self._go_ahead)
            with self._lock:
                self._running, late = running, self._given_up
            if late:
                running.drop()
        except Exception:
            if self._left:
                return None
            raise
        finally:
            self._settled.set()
        return None if self._left else running

    def leave(self) -> RunningSitting | None:
        """Have it not begun, if that can still be.

        Returns:
            the sitting, where it was begun all the same: to be put away. It is handed over once.
        """
        with self._lock:
            self._left = True
            writing = self._writing
        if writing:
            self._settled.wait(_AT_MOST)
        with self._lock:
            running, self._running = self._running, None
            self._given_up = running is None
            return running

    def wait(self) -> None:
        """Wait until it is over: begun, or all that it had opened closed again."""
        self._settled.wait()

    def _go_ahead(self) -> None:
        with self._lock:
            if self._left:
                raise _NotWantedError
            self._writing = True


def nothing_kept(title: str, units: Units) -> Outcome:
    """Say, in the units that are set, that a sitting of this title has left nothing behind."""
    return Outcome((f"{in_units(title, units)}: {NOTHING_KEPT}",))
