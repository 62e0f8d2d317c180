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
    """Takes in from any thread, and gives to the one that owns the sitting.

    What a smith says, by word or pedal, and what is wrong with a device is never dropped, and waits behind one reading
    at most; nor do many words keep readings waiting.

    Args:
        comes: called from the thread that puts something in where nothing else waited
    """

    def __init__(self, comes: Callable[[], object] = lambda: None) -> None:
        self._comes = comes
        # Reentrant, since a signal may come while its own thread is in here.
        self._changed = Condition()
        self._said: deque[Delivered | Other] = deque()
        self._heard: deque[Reading | Tick] = deque(maxlen=HELD)
        self._readings_next = False
        self._missed = 0

    def put(self, entry: Delivered) -> None:
        """Take in what a source or a pedal delivers; returns at once."""
        with self._changed:
            alone = not (self._said or self._heard)
            if isinstance(entry, Reading | Tick):
                self._missed += len(self._heard) == HELD
                self._heard.append(entry)
            else:
                self._said.append(entry)
            self._changed.notify_all()
        if alone:
            self._comes()

    def put_line(self, line: Other) -> None:
        """Take in what comes in lines; waits while a thousand of them were not taken yet."""
        with self._changed:
            self._changed.wait_for(lambda: len(self._said) < _LINES)
            self._said.append(line)
            self._changed.notify_all()

    def put_first(self, entry: Other) -> None:
        """Take in what goes past all that waits; may be called by a signal's handler."""
        with self._changed:
            self._said.appendleft(entry)
            self._readings_next = False
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
                self._changed.wait_for(lambda: self._said or self._heard, timeout)
            entry: Delivered | Other | None = None
            if self._heard and (self._readings_next or not self._said):
                entry = self._heard.popleft()
                self._readings_next = False
            elif self._said:
                entry = self._said.popleft()
                self._readings_next = True
                self._changed.notify_all()
            return entry, bool(self._said or self._heard)

    def clear(self) -> None:
        """Forget all that waits: it was of a sitting that is gone."""
        with self._changed:
            self._said.clear()
            self._heard.clear()
            self._changed.notify_all()

    def tell_missed(self, tell: Callable[[str], None]) -> None:
        """Say, if readings were dropped since this was asked last, how many."""
        with self._changed:
            missed, self._missed = self._missed, 0
        if missed:
            tell(f"{missed} readings came while heatbook was held up, and are not in the log")
