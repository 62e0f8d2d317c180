"""Being told to end, by the system or by a terminal that has gone; with a screen and without one."""

from __future__ import annotations

import asyncio
import os
import signal
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from threading import Thread, Timer

_NAMES = ("SIGINT", "SIGTERM", "SIGHUP", "SIGQUIT")
_SIGNALS = tuple(getattr(signal, name) for name in _NAMES if hasattr(signal, name))
_AT_MOST = 10.0
"""Told to end, the program ends by then, whatever holds it up; the journal is on the disk all the time [s]."""


def hear(
    leave: Callable[[], None], others: Mapping[signal.Signals, Callable[[], None]], last: Callable[[], None]
) -> Callable[[], None]:
    """Have signals answered in the running asyncio loop, which nobody else may add signals to after that.

    Told to end, the program ends all the same where the loop does not come to it, or to an end.

    Args:
        leave: called when the program is told to end
        others: called at each of these
        last: called in another thread before the program ends while its loop is held up; may raise what it likes

    Returns:
        to be called when the screen has gone and the program only says what there is to say: from then on it ends soon
        when it is told to, and not in the midst of a line
    """
    loop = asyncio.get_running_loop()
    asked = {**dict.fromkeys(_SIGNALS, leave), **others}
    for number, do in asked.items():
        # Not the main thread, as under some test runners, or a loop that has no signals, as on Windows.
        with suppress(NotImplementedError, RuntimeError, ValueError):
            loop.add_signal_handler(number, do)
    told = None
    if sys.platform != "win32":
        with suppress(ValueError):
            told = _listen(last)

    def stop() -> None:
        for number in asked:
            # Whoever presses ctrl+c twice presses it again when the terminal has been set back.
            if loop.remove_signal_handler(number) and number in _SIGNALS:
                signal.signal(number, _end_soon)
        if told is not None:
            os.close(told)

    return stop


def _listen(last: Callable[[], None]) -> int:
    """Hear of signals in a thread as well, before the loop does: the loop may be held up.

    Returns:
        what the thread listens to, to be closed

    Raises:
        ValueError: not in the main thread.
    """
    heard, told = os.pipe()
    os.set_blocking(told, False)
    try:
        loop = os.dup(signal.set_wakeup_fd(told, warn_on_full_buffer=False))
    except ValueError:
        os.close(heard)
        os.close(told)
        raise

    def pass_on() -> None:
        while number := os.read(heard, 1):
            if number[0] in _SIGNALS:
                end_within(_AT_MOST, last=last)
            with suppress(OSError):
                os.write(loop, number)
        os.close(heard)
        os.close(loop)

    Thread(target=pass_on, name="signals", daemon=True).start()
    return told


@contextmanager
def told_to_end(leave: Callable[[], None]) -> Iterator[Callable[[], None]]:
    """Within this context, where no asyncio loop runs, have `leave` called when the program is told to end.

    It is called once: told again, as by a second ctrl+c or by a shell that tells the whole group, the program goes on
    putting away and saying what it has to, beyond this context too. Where what it prints is not read, or a disk stands
    still, it ends all the same.

    Args:
        leave: called in the main thread, between two steps of whatever runs there; may raise

    Yields:
        to be called when there is nothing to leave any more: after that `leave` is not called
    """
    told = over = False

    def tell(*_: object) -> None:
        nonlocal told
        again, told = told, True
        if not again:
            end_within(_AT_MOST)
            if not over:
                leave()

    def nothing_to_leave() -> None:
        nonlocal over
        over = True

    before = [(number, signal.signal(number, tell)) for number in _SIGNALS]
    try:
        yield nothing_to_leave
    finally:
        if not told:
            for number, handler in before:
                signal.signal(number, handler)


def interrupt() -> None:
    """End what runs as ctrl+c would: to be called by `told_to_end`.

    Raises:
        KeyboardInterrupt: always.
    """
    raise KeyboardInterrupt


def _end_soon(*_: object) -> None:
    end_within(_AT_MOST)


def end_within(seconds: float, status: int = 1, last: Callable[[], None] = lambda: None) -> None:
    """End by then, whatever happens; for when the log has been put away, or can't be.

    Args:
        seconds: how long the program may still take to end by itself [s]
        status: the exit status where it does not
        last: done before that, in a thread of its own; waits for nothing, and may raise what it likes
    """

    def end() -> None:
        with suppress(Exception):  # whatever it is, the end comes
            last()
        os._exit(status)

    watchdog = Timer(seconds, end)
    watchdog.daemon = True
    watchdog.start()
