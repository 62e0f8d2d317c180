"""A forge in real time on a pseudo-terminal: the program takes it for a probe that is plugged in."""

from __future__ import annotations

import os
import time
import tty

from tests.listening.played.forge import Forge, Watcher


class Line:
    """A serial line: what is said goes in here and comes out at `port`."""

    def __init__(self) -> None:
        self._master, self._slave = os.openpty()
        tty.setraw(self._slave)
        self.port = os.ttyname(self._slave)

    def say(self, _: float, celsius: float | None) -> None:
        """A line of the probe, as it comes."""
        os.write(self._master, b"open\r\n" if celsius is None else b"%.1f\r\n" % celsius)

    def close(self) -> None:
        """Pull the plug."""
        os.close(self._master)
        os.close(self._slave)


class Pace(Watcher):
    """Holds the forge to the clock on the wall."""

    def __init__(self) -> None:
        self.began = time.time()
        """By the clock on the wall, seconds since 1970."""
        self._zero = time.monotonic()

    def look(self, forge: Forge) -> None:
        ahead = forge.at - (time.monotonic() - self._zero)
        if ahead > 0:
            time.sleep(ahead)
