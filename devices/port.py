"""Opening and closing of a serial port, and why it would not open, in plain words."""

from __future__ import annotations

import contextlib
import errno
import os
import stat
import sys
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

from devices.errors import DeviceError
from devices.finder import NO_PORT, PortInfo, find_ports, with_taken
from devices.profile import Profile
from plans.text import clean

if TYPE_CHECKING:
    from serial import Serial

if sys.platform == "win32":
    BROKEN: tuple[type[Exception], ...] = (OSError, TypeError, ValueError)
    """All that pyserial raises when a port has gone away under it, or can't be opened."""
else:
    import termios

    BROKEN = (OSError, TypeError, ValueError, termios.error)
"""All that pyserial raises when a port has gone away under it, or can't be opened."""

READ_TIMEOUT = 0.1
"""How long one read waits, and so how soon a reader notices that it should end [s]."""

_AT_MOST = 65_536
"""About so much is read at once, so that whoever reads is back in time for whatever else there is [bytes]."""

_NOTHING_THERE = (errno.ENOENT, errno.ENODEV, errno.ENXIO)
_TAKEN = (errno.EBUSY, errno.EAGAIN)


def is_address(port: str) -> bool:
    """Whether a port is given as an address (socket://, rfc2217:// or loop://) and not as one of this machine's own."""
    return "://" in port


def open_port(port: str, profile: Profile) -> Serial:
    """Open a port with a profile's settings, for this program alone.

    Args:
        port: path or name of a serial port; or an address: socket://HOST:PORT, rfc2217://HOST:PORT, loop://
        profile: gives the port's speed, data bits, parity and stop bits

    Returns:
        the open port; a read from it waits `READ_TIMEOUT` at most

    Raises:
        DeviceError: the port can't be opened; the text says why and what to do.
    """
    import serial

    if is_address(port):
        _refuse_other_addresses(port)
    elif os.name == "posix":
        _refuse_other_files(port)
    try:
        return serial.serial_for_url(
            port,
            baudrate=profile.baud,
            bytesize=profile.bytesize,
            parity=profile.parity[0].upper(),
            stopbits=profile.stopbits,
            timeout=READ_TIMEOUT,
            exclusive=True,
        )
    except BROKEN as error:
        raise _reason(port, profile, error) from error


def read_there(device: Serial, wait: bool) -> bytes:
    """Read in one go what has come, since reading a flood piece by piece costs more than all that is done with it.

    Args:
        device: an open port
        wait: if nothing has come, wait until something does, for the port's timeout at most

    Returns:
        what has come, about 64 kB at most; the rest is for the next time

    Raises:
        one of BROKEN: the port has gone away.
    """
    there = device.in_waiting
    if not there and not wait:
        return b""
    data = bytes(device.read(there or 1))
    while data and len(data) < _AT_MOST and (there := device.in_waiting):
        data += _read_from_socket(device) if str(device.port).startswith("socket:") else device.read(there)
    return data


def _read_from_socket(device: Serial) -> bytes:
    """All that has come: pyserial can't tell how much that is, and would have it asked for byte by byte."""
    timeout = device.timeout
    device.timeout = 0
    try:
        return bytes(device.read(_AT_MOST))
    finally:
        device.timeout = timeout


def close_port(device: Serial) -> None:
    """Close a port, whether it is still plugged in or not; never fails. Only for the thread that reads from it."""
    # pyserial forgets to close the socket of a connection that the other side has ended.
    connection = getattr(device, "_socket", None)
    with contextlib.suppress(*BROKEN):
        device.close()
    if connection is not None:
        with contextlib.suppress(*BROKEN):
            connection.close()


def _refuse_other_addresses(port: str) -> None:
    try:
        parts = urlsplit(port)
        whole = parts.scheme == "loop" or bool(parts.hostname and parts.port)
    except ValueError:
        whole = False
    # pyserial knows more kinds, some of which write files.
    if not whole or parts.scheme not in ("socket", "rfc2217", "loop"):
        do = "Write it as socket://HOST:PORT or rfc2217://HOST:PORT."
        raise DeviceError(_shown(port), "is no address that a probe can have", do)


def _refuse_other_files(port: str) -> None:
    try:
        mode = Path(port).stat().st_mode
    except (OSError, ValueError) as error:
        if isinstance(error, PermissionError):
            raise _no_permission(port) from error
        raise _no_such_port(port) from error
    if not stat.S_ISCHR(mode):
        raise _not_serial(port)


def _reason(port: str, profile: Profile, error: Exception) -> DeviceError:
    number = getattr(error, "errno", None)
    text = str(error)
    if is_address(port):
        why = clean(getattr(error.__context__, "strerror", None) or text, 100)
        do = "Check that the probe is switched on, and its address."
        return DeviceError(_shown(port), f"nothing answers there ({why})", do)
    # On Windows the error is only told by its text, and "access denied" means that someone else has the port.
    if number in _TAKEN or (os.name == "nt" and "PermissionError" in text):
        by = with_taken(PortInfo(port)).taken_by
        what = f"another program has taken it ({by})" if by else "another program has taken it"
        return DeviceError(_shown(port), what, "Close that program, then try again.")
    if number in _NOTHING_THERE or "FileNotFoundError" in text:
        return _no_such_port(port)
    if number in (errno.EACCES, errno.EPERM):
        return _no_permission(port)
    if number is None and "configure port" in text:
        return _not_serial(port)
    if isinstance(error, ValueError) or number is None:
        settings = f"{profile.baud} baud, {profile.bytesize} bits, parity {profile.parity}, {profile.stopbits:g} stop"
        return DeviceError(_shown(port), f"does not take these settings: {settings}", "Mend them in the probe profile.")
    do = "Unplug the adapter and plug it in again."
    return DeviceError(_shown(port), f"can't be opened ({os.strerror(number)})", do)


def _shown(port: str) -> str:
    return clean(port, 200) or "port"


def _no_such_port(port: str) -> DeviceError:
    ports = find_ports()
    hint = f"There are {', '.join(info.port for info in ports)}." if ports else NO_PORT
    return DeviceError(_shown(port), "there is no such port", hint)


def _not_serial(port: str) -> DeviceError:
    return DeviceError(
        _shown(port), "is not a serial port, or nothing is connected to it", "See which ports there are: probe list."
    )


def _no_permission(port: str) -> DeviceError:
    hint = "Ask whoever looks after this machine for leave to read and write it."
    if os.name == "posix":
        import grp

        with contextlib.suppress(OSError, KeyError):
            status = Path(port).stat()
            group = grp.getgrgid(status.st_gid).gr_name
            if status.st_mode & stat.S_IRGRP and status.st_mode & stat.S_IWGRP and status.st_gid != 0:
                hint = f"Join the group {group} (sudo usermod -aG {group} YOUR_NAME), log out, and log in again."
    return DeviceError(_shown(port), "you may not use it", hint)
