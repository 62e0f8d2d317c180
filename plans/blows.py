"""What the work is struck with, and so how long tools touch it."""

from __future__ import annotations

from enum import StrEnum
from typing import Final

from plans.record import record


class StruckBy(StrEnum):
    """What strikes the work; its value is how plans write it."""

    HAND = "hand hammer"
    """A hammer in the hand, the work on the anvil."""
    POWER_HAMMER = "power hammer"
    """Two dies that meet in quick blows."""
    PRESS = "press"
    """Two dies that squeeze slowly."""


@record
class Blows:
    """For how long of how long tools touch the work while it is struck.

    Raises:
        ValueError: they touch for no time, or for longer than from one touch to the next.
    """

    by: StruckBy = StruckBy.HAND
    """What strikes it."""
    seconds: float = 0.15
    """How long the tools touch at a time [s]."""
    every: float = 1.0
    """From the beginning of one touch to that of the next [s]."""

    def __post_init__(self) -> None:
        if not 0 < self.seconds <= self.every:
            raise ValueError("tools touch the work for some time, and no longer than from one touch to the next")


USUAL: Final = {
    StruckBy.HAND: Blows(),
    StruckBy.POWER_HAMMER: Blows(StruckBy.POWER_HAMMER, 0.015, 0.4),
    StruckBy.PRESS: Blows(StruckBy.PRESS, 1.0, 3.0),
}
"""How each tool touches the work where the plan does not say: common practice, no source."""
