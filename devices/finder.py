"""Which serial ports there are, what is plugged into them, and whether another program has them."""

from __future__ import annotations

import os
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Any

from plans.record import record
from plans.text import clean

NO_PORT = (
    "There is no serial port. Plug in the probe's adapter and look again; "
    "a probe on the network is given as socket://HOST:PORT."
)
"""What is said where no serial port is found."""


@record
class PortInfo:
    """One serial port, and what is plugged into it. Texts that an adapter gives of itself are safe to show."""

    port: str
    """Path or name of the port, as it is given to `--port` and to `devices.port.open_port`."""
    description: str = ""
    """What the adapter calls itself; empty where it says nothing."""
    maker: str = ""
    """Who made the adapter, as it says itself; empty where it says nothing."""
    vendor_id: int | None = None
    """USB number of the adapter's vendor; None for a port that is no USB adapter."""
    product_id: int | None = None
    """USB number of the vendor's product; None for a port that is no USB adapter."""
    serial_number: str = ""
    """The adapter's serial number, as it says itself; empty where it has none, as many have."""
    location: str = ""
    """The USB socket that the adapter is in, as the system numbers sockets ("1-4.2"); empty where it is not told."""
    taken: bool | None = None
    """Whether a program has the port open; None where that can't be told, or was not asked."""
    taken_by: str = ""
    """Name of the program that has the port open; empty where none has, or where its name may not be seen."""

    def to_record(self) -> dict[str, Any]:
        """The port as `--json` tells it; the USB numbers as four hexadecimal digits, as they are usually written."""
        return {
            "port": self.port,
            "description": self.description,
            "maker": self.maker,
            "vendor_id": None if self.vendor_id is None else f"{self.vendor_id:04x}",
            "product_id": None if self.product_id is None else f"{self.product_id:04x}",
            "serial_number": self.serial_number or None,
            "taken": self.taken,
            "taken_by": self.taken_by or None,
        }

    def __str__(self) -> str:
        about = [self.description or "serial port"]
        if self.maker:
            about.append(f"made by {self.maker}")
        if self.vendor_id is not None and self.product_id is not None:
            about.append(f"USB {self.vendor_id:04x}:{self.product_id:04x}")
        if self.serial_number:
            about.append(f"serial number {self.serial_number}")
        if self.taken:
            about.append(f"taken by {self.taken_by}" if self.taken_by else "taken by another program")
        elif self.taken is not None:
            about.append("free")
        return f"{self.port}  {', '.join(about)}"


def find_ports() -> list[PortInfo]:
    """The serial ports of this machine, sorted. None is opened, since opening one restarts many a probe."""
    from serial.tools import list_ports

    try:
        found = sorted(list_ports.comports())
    except (OSError, TypeError, ValueError):
        # An adapter that is pulled out while the system's tables are read leaves gaps in them.
        return []
    return [
        PortInfo(
            port=str(port.device),
            description="" if port.description in (None, "n/a", port.name) else clean(port.description),
            maker=clean(port.manufacturer or ""),
            vendor_id=port.vid,
            product_id=port.pid,
            serial_number=clean(port.serial_number or ""),
            location=clean(port.location or ""),
        )
        for port in found
    ]


def describe_ports() -> list[PortInfo]:
    """The serial ports of this machine, sorted, each with whether another program has it (Linux; elsewhere unknown)."""
    return [with_taken(port) for port in find_ports()]


def say_ports(ports: Iterable[PortInfo]) -> str:
    """The given ports for a person to read, a line each; where there is none, that, and what to do."""
    return "\n".join(str(port) for port in ports) or NO_PORT


def find_again(port: PortInfo, ports: Iterable[PortInfo]) -> str | None:
    """Where an adapter is now that was unplugged: the one with the same vendor, product and serial number.

    Adapters without a serial number can't be told apart: then the one in the same socket, else at the same path, else
    the only one of that kind.

    Args:
        port: the adapter as it was listed before
        ports: what is plugged in now

    Returns:
        path or name of its port; None where it is not there, or where it can't be told which one it is
    """
    kind = (port.vendor_id, port.product_id, port.serial_number)
    alike = [other for other in ports if (other.vendor_id, other.product_id, other.serial_number) == kind]
    for same in (
        [other for other in alike if other.location and other.location == port.location],
        [other for other in alike if other.port == port.port],
        alike,
    ):
        if len(same) == 1:
            return same[0].port
    return None


def adapter_at(port: str, ports: Iterable[PortInfo]) -> PortInfo | None:
    """The one among `ports` that is at a path, which may be a symbolic link to it; None where none is."""
    real = os.path.realpath(port)
    return next((info for info in ports if os.path.realpath(info.port) == real), None)


def with_taken(info: PortInfo) -> PortInfo:
    """The port with `taken` and `taken_by` filled in from Linux's locks and open files; unchanged on other systems."""
    if not Path("/proc/locks").exists():
        return info
    holder = _lock_holder(info.port) or _opener(info.port)
    return replace(info, taken=holder is not None, taken_by="" if not holder else _program(holder))


def _lock_holder(port: str) -> str | None:
    """Process number of who has locked the port."""
    try:
        status = Path(port).stat()
        locks = Path("/proc/locks").read_text().splitlines()
    except OSError:
        return None
    file = f"{os.major(status.st_dev):02x}:{os.minor(status.st_dev):02x}:{status.st_ino}"
    return next((words[4] for words in map(str.split, locks) if len(words) > 5 and words[5] == file), None)


def _opener(port: str) -> str | None:
    """Process number of who has the port open, among the processes that may be looked into."""
    real = os.path.realpath(port)
    for process in Path("/proc").glob("[0-9]*"):
        try:
            if any(str(entry.readlink()) == real for entry in (process / "fd").iterdir()):
                return process.name
        except OSError:
            continue
    return None


def _program(process: str) -> str:
    try:
        return clean(Path("/proc", process, "comm").read_text().strip())
    except OSError:
        return ""
