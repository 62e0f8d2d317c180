"""Being told to end, by the system or by a terminal that has gone."""

from __future__ import annotations

import asyncio
import os
import signal
from collections.abc import Callable
from contextlib import suppress
from threading import Timer

_SIGNALS = ("SIGINT", "SIGTERM", "SIGHUP")
_GRACE = 1.0
"""A terminal that has gone may keep the screen from closing; longer than this it is not waited for [s]."""


def leave_on_signals(leave: Callable[[], None]) -> None:
    """From now on `leave` is called, in the running loop, when the program is told to end."""
    loop = asyncio.get_running_loop()

    def told(number: int) -> None:
        leave()
        if number == getattr(signal, "SIGHUP", None):
            expect_no_terminal()

    for name in _SIGNALS:
        number = getattr(signal, name, None)
        if number is not None:
            # Not the main thread, as under some test runners, or a loop that has no signals, as on Windows.
            with suppress(NotImplementedError, RuntimeError, ValueError):
                loop.add_signal_handler(number, told, number)


def expect_no_terminal() -> None:
    """End soon, whatever happens; for when the log has been put away, and closing the screen may block for ever."""
    watchdog = Timer(_GRACE, os._exit, (1,))
    watchdog.daemon = True
    watchdog.start()
