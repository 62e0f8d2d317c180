"""Presses of keys, told from one that bounces or is held down."""

from __future__ import annotations

from devices.clock import Clock

BOUNCE = 0.35
"""A press that comes within this after the last one is the same press, bouncing [s]."""
REPEAT = 0.75
"""How long a key is held before it repeats itself, on the slowest of the usual settings of a keyboard [s]."""


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

    def key(self, key: str, at: float) -> None:
        """Hear of a key, before what it is for is asked about.

        Args:
            key: its name
            at: when it came, by the clock [s]
        """
        self._held = not self._is_new(f"key {key}", at)

    def click(self) -> None:
        """Hear that what comes next is no key's."""
        self._held = False

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
