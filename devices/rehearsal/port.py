"""Both ends of the pseudo-terminal that stands for the probe's cable."""

from __future__ import annotations

import os
import tty


class Cable:
    """A pseudo-terminal in raw mode: we write at one end, a serial port reads at `path`.

    Raises:
        OSError: the system has no pseudo-terminal to give.
    """

    def __init__(self) -> None:
        self._master, self._slave = os.openpty()
        try:
            # Without raw mode the line discipline would echo and edit what passes.
            tty.setraw(self._slave)
            os.set_blocking(self._master, False)
            self.path = os.ttyname(self._slave)
        except BaseException:
            self.close()
            raise

    def send(self, line: bytes) -> bool:
        """Write a line; False when nobody has read for so long that it no longer fits."""
        try:
            return os.write(self._master, line) == len(line)
        except BlockingIOError:
            return False

    def close(self) -> None:
        """Close both ends; closing twice does no harm."""
        for end in (self._master, self._slave):
            if end >= 0:
                os.close(end)
        self._master = self._slave = -1
