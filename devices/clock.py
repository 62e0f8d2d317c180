"""The clock that readings, presses and waits are timed by: seconds that only go forward."""

from __future__ import annotations

import time
from typing import Protocol


class Clock(Protocol):
    """Called without arguments, gives seconds that never run backward, from any zero [s]."""

    def __call__(self) -> float: ...


def through_sleep() -> Clock:
    """A clock that goes on while the machine is suspended, so that a soak is not stretched by a closed lid.

    Returns:
        the system's clock with suspended time counted [s]; where it has none, its steady one, which may stop meanwhile
    """
    boottime = getattr(time, "CLOCK_BOOTTIME", None)
    if boottime is None:
        return time.monotonic
    return lambda: time.clock_gettime(boottime)
