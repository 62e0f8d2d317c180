"""How each call sounds on a terminal's bell: when it rings, in seconds after the call."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol

from plans.sitting.events import Call

_PATTERNS = {
    Call.SOAK_DONE: (0.0, 0.5),
    Call.TIME_UP: (0.0, 0.7),
    Call.COLD_ENOUGH: (0.0, 0.7, 1.4),
    Call.AT_HEAT: (0.0, 0.3),
    Call.TOO_COLD: (0.0, 0.2, 0.4),
    Call.TOO_HOT: (0.0, 0.2, 0.4, 0.6, 0.8),
    Call.SOAKED_TOO_LONG: (0.0, 0.2, 0.9, 1.1),
    Call.TEMPER_LATE: (0.0, 0.2, 0.9, 1.1, 1.8, 2.0),
    Call.PEAK_MISSED: (0.0, 0.2, 1.0),
    Call.QUENCH_LATE: (0.0, 0.8, 1.0),
    Call.PROBE_LOST: (0.0, 1.0),
    Call.PROBE_BACK: (0.0, 1.0, 1.5),
    Call.ARREST: (0.0, 0.15),
    Call.FIRE_FELL: (0.0, 0.15, 1.0, 1.15),
}


def pattern(call: Call) -> tuple[float, ...]:
    """Prompts ring twice, slowly; alarms quickly and more often. A single ring is the cadence for even work."""
    return _PATTERNS[call]


class Stops(Protocol):
    """A timer that can be stopped."""

    def stop(self) -> None:
        """It will not go off."""


class Bell:
    """Rings patterns, one at a time.

    Args:
        ring: rings once
        later: has something done in so many seconds
    """

    def __init__(self, ring: Callable[[], None], later: Callable[[float, Callable[[], None]], Stops]) -> None:
        self._ring, self._later = ring, later
        self._waiting: list[Stops] = []

    def call(self, call: Call) -> None:
        """Ring what a call sounds like; what was still ringing stops."""
        self.silence()
        self._ring()
        self._waiting = [self._later(after, self._ring) for after in pattern(call) if after > 0]

    def once(self) -> None:
        """Ring once, besides whatever else rings."""
        self._ring()

    def silence(self) -> None:
        """Stop what was still ringing."""
        for timer in self._waiting:
            timer.stop()
        self._waiting = []
