"""What is written to a terminal: nobody ever waits for it, whether it reads or not."""

from __future__ import annotations

import asyncio
import os
import select
import time
from collections.abc import Callable

from tui.terminal.opened import Opened

_ENOUGH = 8192
"""While more than this waits for the terminal to read on, what is drawn is left out [bytes]."""
_CANCEL = b"\x18"
"""Ends an escape sequence that was begun."""


class Output:
    """Writes to a terminal, and keeps what it does not take at once; much that waits is a picture of the past.

    For the thread of the running asyncio loop alone.

    Args:
        fileno: descriptor of the terminal
        caught_up: called when it has taken all that waited, and something was left out meanwhile: draw it all anew
        failed: called once, when it can't be written to any more
    """

    def __init__(self, fileno: int, caught_up: Callable[[], None], failed: Callable[[OSError], None]) -> None:
        self._loop = asyncio.get_running_loop()
        self._opened = Opened(fileno)
        self._descriptor = self._opened.descriptor
        self._caught_up, self._failed = caught_up, failed
        self._waiting = bytearray()
        self._watching = self._left_out = self._over = False

    @property
    def silent(self) -> bool:
        """Whether the terminal has not taken all that was written."""
        return bool(self._waiting)

    def write(self, text: str) -> None:
        """Write it, or as much as is taken, and the rest when the terminal reads on; left out where much waits."""
        if self._over:
            return
        if len(self._waiting) > _ENOUGH:
            self._left_out = True
            return
        # A lone surrogate in a name or note is no reason to fail.
        self._waiting += text.encode("utf-8", "replace")
        if not self._watching:
            self._go_on()

    def finish(self, text: str, at_most: float) -> None:
        """Write this in place of what waits, and wait for it to be taken.

        Args:
            text: what is to be written last
            at_most: how long it is waited for [s]
        """
        if self._over:
            return
        self._watch(False)
        self._waiting[:] = (_CANCEL if self._waiting else b"") + text.encode("utf-8", "replace")
        give_up = time.monotonic() + at_most
        while self._push() and (left := give_up - time.monotonic()) > 0:
            select.select([], [self._descriptor], [], left)

    def last(self, text: str) -> None:
        """Write what is taken of this, from any thread, in place of what waits; nothing must be written after it.

        Raises:
            OSError: the terminal does not take it, or has gone.
        """
        os.write(self._descriptor, _CANCEL + text.encode())

    def close(self) -> None:
        """Let go of the terminal."""
        self._over = True
        self._watch(False)
        self._opened.close()

    def _go_on(self) -> None:
        self._watch(self._push())
        if self._left_out and not self.silent:
            self._left_out = False
            self._caught_up()

    def _push(self) -> bool:
        """Write what is taken; whether there is more."""
        try:
            while self._waiting:
                del self._waiting[: os.write(self._descriptor, self._waiting)]
        except BlockingIOError:
            return True
        except OSError as error:
            self._over = True
            self._failed(error)
        return False

    def _watch(self, watching: bool) -> None:
        if watching and not self._watching:
            self._loop.add_writer(self._descriptor, self._go_on)
        elif self._watching and not watching:
            self._loop.remove_writer(self._descriptor)
        self._watching = watching
