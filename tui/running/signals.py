"""Being told to end, by the system or by a terminal that has gone; with a screen and without one."""

from __future__ import annotations

import asyncio
import os
import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from threading import Thread, Timer

_SIGNALS = tuple(getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name))
_AT_MOST = 10.0
"""Told to end, the program ends by then, whatever holds it up; the journal is on the disk all the time [s]."""


def leave_on_signals(leave: Callable[[], None]) -> None:
    """Have `leave` called in the running asyncio loop, from now on, when the program is told to end.

    Where the loop does not come to it, or to an end, the program ends all the same.
    """
    loop = asyncio.get_running_loop()
    for number in _SIGNALS:
        # Not the main thread, as under some test runners, or a loop that has no signals, as on Windows.
        with suppress(NotImplementedError, RuntimeError, ValueError):
            loop.add_signal_handler(number, leave)
    if sys.platform != "win32":
        with suppress(ValueError):
            _listen()


def _listen() -> None:
    """Hear of signals in a thread as well, before the loop does: the loop may be held up.

    Raises:
        ValueError: not in the main thread.
    """
    heard, told = os.pipe()
    os.set_blocking(told, False)
    loop = os.dup(signal.set_wakeup_fd(told, warn_on_full_buffer=False))

    def pass_on() -> None:
        while number := os.read(heard, 1):
            if number[0] in _SIGNALS:
                end_within(_AT_MOST)
            with suppress(OSError):
                os.write(loop, number)

    Thread(target=pass_on, name="signals", daemon=True).start()


@contextmanager
def told_to_end(leave: Callable[[], None]) -> Iterator[None]:
    """Within this context, where no asyncio loop runs, have `leave` called when the program is told to end.

    Where what it prints is not read, or a disk stands still, the program ends all the same.

    Args:
        leave: called in the main thread, between two steps of whatever runs there; may raise
    """

    def told(*_: object) -> None:
        end_within(_AT_MOST)
        leave()

    before = [(number, signal.signal(number, told)) for number in _SIGNALS]
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


def end_within(seconds: float, status: int = 1) -> None:
    """End by then, whatever happens; for when the log has been put away, or can't be.

    Args:
        seconds: how long the program may still take to end by itself [s]
        status: the exit status where it does not
    """
    watchdog = Timer(seconds, os._exit, (status,))
    watchdog.daemon = True
    watchdog.start()
