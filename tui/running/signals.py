"""Being told to end, by the system or by a terminal that has gone; with a screen and without one."""

from __future__ import annotations

import asyncio
import os
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from threading import Timer

_SIGNALS = tuple(getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name))
_GRACE = 1.0
"""A terminal that has gone may keep the screen from closing; longer than this it is not waited for [s]."""


def leave_on_signals(leave: Callable[[], None]) -> None:
    """Have `leave` called in the running asyncio loop, from now on, when the program is told to end."""
    loop = asyncio.get_running_loop()

    def told(number: int) -> None:
        leave()
        if number == getattr(signal, "SIGHUP", None):
            expect_no_terminal()

    for number in _SIGNALS:
        # Not the main thread, as under some test runners, or a loop that has no signals, as on Windows.
        with suppress(NotImplementedError, RuntimeError, ValueError):
            loop.add_signal_handler(number, told, number)


@contextmanager
def told_to_end(leave: Callable[[], None]) -> Iterator[None]:
    """Within this context, where no asyncio loop runs, have `leave` called when the program is told to end.

    Args:
        leave: called in the main thread, between two steps of whatever runs there; may raise
    """
    before = [(number, signal.signal(number, lambda *_: leave())) for number in _SIGNALS]
    try:
        yield
    finally:
        for number, handler in before:
            signal.signal(number, handler)


def interrupt() -> None:
    """End what runs as ctrl+c would: to be called by `told_to_end`.

    Raises:
        KeyboardInterrupt: always.
    """
    raise KeyboardInterrupt


def expect_no_terminal() -> None:
    """End soon, whatever happens; for when the log has been put away, and closing the screen may block for ever."""
    watchdog = Timer(_GRACE, os._exit, (1,))
    watchdog.daemon = True
    watchdog.start()
