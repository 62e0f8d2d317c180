"""The terminal's bell: each call rings in a pattern of its own."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol

from plans.sitting import Call, strokes


class Stops(Protocol):
    """A timer that can be stopped."""

    def stop(self) -> None:
        """Stop it: what it waits to do is never done."""


class Bell:
    """Rings patterns, one at a time.

    Args:
        ring: rings once
        later: has something done in so many seconds
    """

    def __init__(self, ring: Callable[[], None], later: Callable[[float, Callable[[], None]], Stops]) -> None:
        self._ring, self._later = ring, later
        self._waiting: list[Stops] = []

    def call(self, call: Call, urgency: int = 0) -> None:
        """Ring what a call sounds like, the longer the more urgent it has become; what was still ringing stops."""
        self.silence()
        self._ring()
        self._waiting = [self._later(after, self._ring) for after in strokes(call, urgency) if after > 0]

    def once(self) -> None:
        """Ring once, besides whatever else rings."""
        self._ring()

    def silence(self) -> None:
        """Stop what was still ringing."""
        for timer in self._waiting:
            timer.stop()
        self._waiting = []
