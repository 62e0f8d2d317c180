"""Presses of keys, told from one that bounces or is held down."""

from __future__ import annotations

from collections.abc import Callable
from math import inf

from devices.clock import Clock

BOUNCE = 0.35
"""A press that comes within this after the last one is the same press, bouncing [s]."""
REPEAT = 0.75
"""How long a key is held before it repeats itself, on the slowest of the usual settings of a keyboard [s]."""
FIRST_REPEAT = 0.22
"""How long, at least, on the quickest of them; from memory, no source [s]."""
HELD = 0.12
"""A key that comes again within this is held, or bounces: no finger is as quick, and no usual repetition slower [s]."""


class Debounce:
    """Tells a press from one that only comes again, by bouncing or because the key is held.

    A terminal tells nothing of a key that is let go. So a press counts once and then not again before it has been quiet
    for `BOUNCE`, nor within `REPEAT` of the one that counted: the first repetition of a held key comes after a wait.

    Presses go by what they are for, and keys by themselves besides: one that is still held when the screen that it has
    led to stands there is no press on that.

    Args:
        clock: what presses are timed by [s]
    """

    def __init__(self, clock: Clock) -> None:
        self._clock = clock
        self._came: dict[str, float] = {}
        self._counted: dict[str, float] = {}
        self._held = False
        self._last_key = ""
        self._key_came: dict[str, float] = {}
        self._quiet = inf
        """How long the key that came last had been quiet before [s]; without end for a click."""
        self._waiting: Callable[[], object] | None = None
        """What a press is for that may have been the first repetition of a held key."""

    def key(self, key: str, at: float) -> None:
        """Hear of a key, before what it is for is asked about.

        Args:
            key: its name
            at: when it came, by the clock [s]
        """
        self._held = not self._is_new(f"key {key}", at)
        self._quiet = at - self._key_came.get(key, -inf)
        if key == self._last_key and self._quiet < HELD:
            self._waiting = None  # it is held
        self._act()
        self._last_key, self._key_came[key] = key, at

    def click(self) -> None:
        """Hear that what comes next is no key's."""
        self._act()
        self._held, self._quiet = False, inf

    def briskly(self, act: Callable[[], object], later: Callable[[float, Callable[[], None]], object]) -> None:
        """Do what the key that came last is for: at each press, however brisk, and once where the key is held.

        What may be the first repetition of a held key waits for `HELD`, or for another key, which then comes after it.

        Args:
            act: what the key is for
            later: calls a function after so many seconds, as a screen's timer does
        """
        if self._quiet < HELD:
            return
        if not FIRST_REPEAT <= self._quiet < REPEAT:
            act()
            return

        def unless_it_came_again() -> None:
            if self._waiting is act:
                self._act()

        self._waiting = act
        later(HELD, unless_it_came_again)

    def _act(self) -> None:
        waiting, self._waiting = self._waiting, None
        if waiting is not None:
            waiting()

    def counts(self, what: str) -> bool:
        """Whether what arrives now is a press of its own; given by what it is for, each judged by itself."""
        return self._is_new(what, self._clock()) and not self._held

    def _is_new(self, name: str, at: float) -> bool:
        came, counted = self._came.get(name), self._counted.get(name)
        self._came[name] = at
        if came is not None and at - came < BOUNCE:
            return False
        if counted is not None and at - counted < REPEAT:
            return False
        self._counted[name] = at
        return True
