"""A terminal, opened once more, so that it can be read and written without ever being waited for."""

from __future__ import annotations

import os
from contextlib import suppress


class Opened:
    """A descriptor of a terminal that does not block, neither reading nor writing; to be closed.

    Whether a descriptor blocks is shared with whoever has it from the same opening, as the shell: hence another one.

    Args:
        fileno: a descriptor of the terminal
    """

    def __init__(self, fileno: int) -> None:
        self._shared = fileno
        self.descriptor = fileno
        with suppress(OSError):
            flags = os.O_RDWR | os.O_NOCTTY | os.O_NONBLOCK | os.O_CLOEXEC
            self.descriptor = os.open(os.ttyname(fileno), flags)
            return
        # It is another user's, as after su.
        os.set_blocking(fileno, False)

    def close(self) -> None:
        """Let go of it."""
        if self.descriptor != self._shared:
            os.close(self.descriptor)
        else:
            with suppress(OSError):
                os.set_blocking(self._shared, True)
