"""What a foot says with a pedal that is a switch; one that types a key is a key."""

from __future__ import annotations

from devices.debounce import BOUNCE
from plans.sitting import Word

HOLD = 0.8
"""A switch that is held for this long says "back" in place of "next" [s]."""
SETTLE = 0.03
"""A switch that has not moved for this long has stopped bouncing [s]."""
_BLIND = 0.5
"""A switch that was not looked at for longer than this may have been pressed and let go unseen [s]."""


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
