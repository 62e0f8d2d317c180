"""Who may write in a logbook just now: one program, and of that one thread."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from threading import RLock
from typing import TYPE_CHECKING

from plans.logbook.disk import Lock

if TYPE_CHECKING:
    from plans.logbook.journal import Journal

_MOMENT = 0.2
"""How long it is waited for another thread that writes, when all is given up [s]."""
PATIENCE = 1.0
"""How long it is waited for another program that only puts something away, before a sitting is refused [s]."""


class Turn:
    """The turn to write in a logbook: kept from the first sitting on until it is given up, or borrowed for a moment.

    Nobody else lets go of the lock.
    """

    def __init__(self, lock: Lock) -> None:
        self.running: dict[str, Journal] = {}
        """The journals of the sittings that run, by their ids. They need the turn, whether they have it already or take
        it once the disk can be written."""
        self.thread = RLock()
        """Held by the thread that writes."""
        self._lock = lock
        self._kept = False

    @contextmanager
    def keep(self) -> Iterator[None]:
        """Take the turn until it is given up, and write; another program is waited for a moment.

        Raises:
            LogbookError: somebody else has it; the text says who.
            OSError: it can't be had.
        """
        with self.thread:
            self._lock.take(PATIENCE)
            self._kept = True
            yield

    @contextmanager
    def borrow(self) -> Iterator[None]:
        """Take the turn for as long as this lasts, and write.

        Raises:
            LogbookError: somebody else has it; the text says who.
            OSError: it can't be had.
        """
        with self.thread:
            held = self._lock.held
            try:
                self._lock.take()
                yield
            finally:
                if not (held or self._kept or self.running):
                    self._lock.release()

    def give_up(self) -> None:
        """Let go of the lock; while another thread writes that is not waited for: it goes when the program ends."""
        self._kept = False
        if self.thread.acquire(timeout=_MOMENT):
            self._lock.release()
            self.thread.release()
