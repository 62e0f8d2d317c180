"""A port that is opened, and opened again after it was lost, wherever its adapter turns up."""

from __future__ import annotations

import os
import stat
from collections.abc import Callable
from pathlib import Path
from threading import Event
from typing import TYPE_CHECKING

from devices.finder import PortInfo, adapter_at, find_again
from devices.port import is_address

if TYPE_CHECKING:
    from serial import Serial

WAITS = (0.2, 0.5, 1.0)
"""How long is waited before the first attempt to open a lost port, the second and so on; the last from then on [s]."""


class Reopening:
    """Opens a port, and opens it again after it was lost.

    A USB adapter is looked for wherever it is plugged in again; any other port is where it was asked for. The number of
    a Linux pseudo-terminal that has gone is given to whoever asks for one next, such as a window that somebody types
    in: at the same path there is another's then, unless the link that leads there was made anew. For one thread at a
    time.

    Args:
        asked_for: path, name or network address, as for `devices.port.open_port`
        opener: opens the port that it is given, or raises a DeviceError
        ports: what is plugged in; asked after each opening, and before one that looks for an adapter
    """

    def __init__(self, asked_for: str, opener: Callable[[str], Serial], ports: Callable[[], list[PortInfo]]) -> None:
        self._asked_for = asked_for
        self._opener = opener
        self._ports = ports
        self._attempts = 0
        self._pseudo: tuple[object, int] | None = None
        self.port = asked_for
        """Where the port was opened last, or is to be opened first: after plugging in again it may be another path."""
        self.adapter: PortInfo | None = None
        """What was plugged in there, as far as the system ever listed it; None for a port that it does not list."""

    def open(self) -> Serial:
        """Open the port where it was asked for.

        Raises:
            DeviceError: it can't be opened; the text says why and what to do.
        """
        return self._open(self._asked_for)

    def reopen(self, stop: Event) -> Serial | None:
        """Make one attempt to open the lost port, after a wait that grows from attempt to attempt.

        Args:
            stop: ends the wait, and the attempt with it, once it is set

        Returns:
            the open port; None where `stop` was set, or where the probe is not plugged in again yet

        Raises:
            DeviceError: the port can't be opened, or not yet; the text says why.
        """
        wait = WAITS[min(self._attempts, len(WAITS) - 1)]
        self._attempts += 1
        if stop.wait(wait):
            return None
        port = self._find()
        return None if port is None else self._open(port)

    def settle(self) -> None:
        """Note that the open port works, so that the next time it is lost the waits begin with the shortest."""
        self._attempts = 0

    def _find(self) -> str | None:
        # Only a USB adapter says what it is; anything else can't be told from what else may be there.
        if self.adapter is None or self.adapter.vendor_id is None:
            return None if self._is_anothers() else self._asked_for
        return find_again(self.adapter, self._ports())

    def _is_anothers(self) -> bool:
        was, now = self._pseudo, _pseudo_terminal(self._asked_for)
        return was is not None and now is not None and was[0] == now[0] and was[1] != now[1]

    def _open(self, port: str) -> Serial:
        device = self._opener(port)
        self._pseudo = _pseudo_terminal(port)
        self.port = port
        if not is_address(port):
            # The system may list a port a little later than it can be opened.
            self.adapter = adapter_at(port, self._ports()) or self.adapter
        return device


def _pseudo_terminal(port: str) -> tuple[object, int] | None:
    """Which link leads to a pseudo-terminal, if one does, and when that was made [ns]; None for any other port."""
    try:
        if not os.path.realpath(port).startswith("/dev/pts/"):
            return None
        name, made = Path(port).lstat(), Path(port).stat().st_ctime_ns
    except (OSError, ValueError):
        return None
    return (name.st_ino, name.st_mtime_ns) if stat.S_ISLNK(name.st_mode) else None, made
