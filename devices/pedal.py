"""What a foot says with a pedal: one that types a key, which comes more than once a press, or one that is a switch."""

from __future__ import annotations

from devices.clock import Clock
from plans.sitting import Word

BOUNCE = 0.35
"""A press that comes within this after the last one is the same press, bouncing [s]."""
REPEAT = 0.75
"""How long a key is held before it repeats itself, on the slowest of the usual settings of a keyboard [s]."""
HOLD = 0.8
"""A switch that is held for this long says "back" in place of "next" [s]."""
SETTLE = 0.03
"""A switch that has not moved for this long has stopped bouncing [s]."""
_BLIND = 0.5
"""A switch that was not looked at for longer than this may have been pressed and let go unseen [s]."""


class Debounce:
    """Tells a press of a key from one that only comes again, by bouncing or because the key is held.

    A terminal tells nothing of a key that is let go. So a key counts once and then not again before it has been quiet
    for `BOUNCE`, nor within `REPEAT` of the press that counted: the first repetition of a held key comes after a wait.

    Args:
        clock: what the arrivals of keys are timed by [s]
    """

    def __init__(self, clock: Clock) -> None:
        self._clock = clock
        self._came: dict[str, float] = {}
        self._counted: dict[str, float] = {}

    def counts(self, key: str) -> bool:
        """Whether a key that arrives now, given by its name, is a press of its own. Each key is judged by itself."""
        at = self._clock()
        came, counted = self._came.get(key), self._counted.get(key)
        self._came[key] = at
        if came is not None and at - came < BOUNCE:
            return False
        if counted is not None and at - counted < REPEAT:
            return False
        self._counted[key] = at
        return True


class Switch:
    """What a foot says through a switch: "next" by a short press, "back" by a long hold (`HOLD`).

    It has no clock and no port: it is shown the switch again and again. A switch that is closed from the start, or
    that was not looked at for half a second, says nothing before it has been open once.
    """

    def __init__(self) -> None:
        self._closed: bool | None = None
        """As it has settled; None while that is not known."""
        self._moving: bool | None = None
        self._moved_at = 0.0
        self._pressed_at: float | None = None
        self._seen_at: float | None = None
        self._said_at: float | None = None

    def see(self, at: float, closed: bool) -> Word | None:
        """What the foot has just said, the switch being `closed` or open at `at` [s]; None where it said nothing."""
        if self._seen_at is not None and at - self._seen_at > _BLIND:
            self._closed = self._moving = self._pressed_at = None
        self._seen_at = at
        if closed is not self._moving:
            self._moving, self._moved_at = closed, at
        word = None
        if closed is not self._closed and at - self._moved_at >= SETTLE:
            word = self._settle(closed)
        elif closed and self._pressed_at is not None and at - self._pressed_at >= HOLD:
            self._pressed_at = None
            word = Word.BACK
        if word is not None:
            self._said_at = at
        return word

    def _settle(self, closed: bool) -> Word | None:
        was_open = self._closed is False
        self._closed = closed
        if closed:
            again = self._said_at is not None and self._moved_at - self._said_at < BOUNCE
            self._pressed_at = self._moved_at if was_open and not again else None
            return None
        pressed_at, self._pressed_at = self._pressed_at, None
        if pressed_at is None:
            return None
        return Word.BACK if self._moved_at - pressed_at >= HOLD else Word.NEXT
