"""The clock that readings are stamped by."""

from __future__ import annotations

import time
from typing import Protocol


class Clock(Protocol):
    """Seconds that never run backward, from any zero."""

    def __call__(self) -> float: ...


def through_sleep() -> Clock:
    """A clock that goes on while the machine is suspended, so that a closed lid does not stretch a soak [s].

    Where the platform has no such clock, its steady one, which may stop in suspend.
    """
    boottime = getattr(time, "CLOCK_BOOTTIME", None)
    if boottime is None:
        return time.monotonic
    return lambda: time.clock_gettime(boottime)
