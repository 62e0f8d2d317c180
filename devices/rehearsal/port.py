"""The cable in the rehearsal: a pseudo-terminal, from the simulated probe to a serial port that a link can open."""

from __future__ import annotations

import os
import tty

from devices.errors import DeviceError


class Cable:
    """A pseudo-terminal in raw mode: what `send` writes at one end is read from the serial port at `path`.

    Raises:
        DeviceError: the system has no pseudo-terminal to give.
    """

    def __init__(self) -> None:
        try:
            self._master, self._slave = os.openpty()
        except OSError as error:
            what = f"the system has no pseudo-terminal to give ({error.strerror or error})"
            raise DeviceError("a rehearsal", what, "Close programs that stand in terminals, and try again.") from error
        try:
            # Without raw mode the line discipline would echo and edit what passes.
            tty.setraw(self._slave)
            os.set_blocking(self._master, False)
            self.path = os.ttyname(self._slave)
            """Path of the end that is opened as a serial port."""
        except BaseException:
            self.close()
            raise

    def send(self, line: bytes) -> bool:
        """Write a line, given with its end; False when nobody has read for so long that it no longer fits."""
        try:
            return os.write(self._master, line) == len(line)
        except BlockingIOError:
            return False

    def close(self) -> None:
        """Close both ends of the cable; closing twice does no harm."""
        for end in (self._master, self._slave):
            if end >= 0:
                os.close(end)
        self._master = self._slave = -1
