"""Telling whoever waits at a terminal what takes so long."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Final, TextIO

_LONG: Final = 1.0
"""What takes no longer, and what then takes no longer still, is done without a word [s]."""


class Progress:
    """Tells once of each work that takes long: what it is, how much of it is done, and how long the rest takes.

    Args:
        to: where it is told; a terminal, or nothing is
        clock: seconds, from whenever
    """

    def __init__(self, to: TextIO, clock: Callable[[], float] = time.monotonic) -> None:
        self._to, self._clock = to, clock
        self._what, self._began, self._told = "", 0.0, False

    def __call__(self, what: str, done: int, of: int) -> None:
        """Hear of work that goes on.

        Args:
            what: what it is, e.g. "packing"
            done: how many of its pieces are done; with none, it begins
            of: how many there are
        """
        now = self._clock()
        if what != self._what or not done:
            self._what, self._began, self._told = what, now, False
        took = now - self._began
        left = took / done * (of - done) if done else 0.0
        if not self._told and min(took, left) > _LONG and self._to.isatty():
            self._told = True
            print(f"heatbook: {what}: {done} of {of}, about {left:.0f} s more", file=self._to, flush=True)
