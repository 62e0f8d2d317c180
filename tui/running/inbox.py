"""What has come from outside and was not taken yet, in a queue that no probe can fill and no reading can block."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from threading import Condition
from typing import Generic, TypeVar

from plans.reading import Reading
from plans.sitting import Tick
from tui.running.sources import Delivered

HELD = 1200
"""So many readings wait, a minute of the quickest probe; of more the oldest are dropped, and counted."""
_LINES = 1000
"""So many lines wait; who puts in more is held up."""

Other = TypeVar("Other")
"""What else is put in, besides what a source delivers."""


class Inbox(Generic[Other]):
    """Takes in from any thread, and gives in the same order to the one that owns the sitting.

    Readings and time are dropped where too many of them wait; what a smith says, by word or pedal, and what is wrong
    with a device never is. Who says a word is not kept waiting by what came before it: a minute of readings is taken in
    about a tenth of a second.

    Args:
        comes: called from the thread that puts something in where nothing else waited
    """

    def __init__(self, comes: Callable[[], object] = lambda: None) -> None:
        self._comes = comes
        # Reentrant, since a signal may come while its own thread is in here.
        self._changed = Condition()
        self._waiting: deque[Delivered | Other] = deque()
        self._first: deque[Other] = deque()
        self._droppable = 0
        """How many of those that wait are readings or time."""
        self._missed = 0

    def __len__(self) -> int:
        """How many things wait."""
        return len(self._first) + len(self._waiting)

    def put(self, entry: Delivered) -> None:
        """Take in what a source or a pedal delivers; returns at once."""
        with self._changed:
            alone = not len(self)
            if isinstance(entry, Reading | Tick):
                if self._droppable == HELD:
                    self._drop_oldest()
                self._droppable += 1
            self._waiting.append(entry)
            self._changed.notify_all()
        if alone:
            self._comes()

    def put_line(self, line: Other) -> None:
        """Take in what comes in lines; waits while a thousand of them were not taken yet."""
        with self._changed:
            self._changed.wait_for(lambda: len(self._waiting) - self._droppable < _LINES)
            self._waiting.append(line)
            self._changed.notify_all()

    def put_first(self, entry: Other) -> None:
        """Take in what goes past all that waits; may be called by a signal's handler."""
        with self._changed:
            self._first.append(entry)
            self._changed.notify_all()

    def take(self, timeout: float = 0.0) -> tuple[Delivered | Other | None, bool]:
        """Take the next thing out.

        Args:
            timeout: how long it is waited for [s]

        Returns:
            the next thing, or None where there is none; and whether another one waits
        """
        with self._changed:
            if timeout:
                self._changed.wait_for(lambda: len(self), timeout)
            entry: Delivered | Other | None = None
            if len(self):
                entry = self._first.popleft() if self._first else self._waiting.popleft()
                self._droppable -= isinstance(entry, Reading | Tick)
                self._changed.notify_all()
            return entry, len(self) > 0

    def _drop_oldest(self) -> None:
        at = next(at for at, entry in enumerate(self._waiting) if isinstance(entry, Reading | Tick))
        self._missed += isinstance(self._waiting[at], Reading)
        self._droppable -= 1
        del self._waiting[at]

    def clear(self) -> None:
        """Forget all that waits: it was of a sitting that is gone."""
        with self._changed:
            self._first.clear()
            self._waiting.clear()
            self._droppable = 0
            self._changed.notify_all()

    def tell_missed(self, tell: Callable[[str], None]) -> None:
        """Say, if readings were dropped since this was asked last, how many."""
        with self._changed:
            missed, self._missed = self._missed, 0
        if missed:
            tell(f"{missed} readings came while heatbook was held up, and are not in the log")
