"""A probe watched by itself, without a sitting, as `heatbook probe watch` does."""

from __future__ import annotations

from collections.abc import Generator
from datetime import UTC, datetime
from queue import Empty, Full, Queue
from time import monotonic
from typing import Any

from devices.link import Link
from devices.profile import Profile
from plans.reading import Reading
from plans.units import celsius

_HELD = 10_000
"""Readings that wait while nobody takes them; beyond it the oldest are dropped."""


def watch_probe(port: str, profile: Profile) -> Generator[dict[str, Any], None, None]:
    """What a probe says, a record for each reading, until the iterator is closed.

    A record has four keys: `at`, the wall clock's time in UTC as ISO 8601 with milliseconds
    ("2024-05-01T12:00:00.250Z"); `celsius`, the temperature [degC], or None; `fault`, why there is none, or None; and
    `stands_for`, how many readings it is the median of: 1, but for a probe that says more than about twenty a second.
    When only lines come that can't be read, the fault shows the last of them.

    Args:
        port: path, name or network address, as for `devices.port.open_port`
        profile: how the probe talks

    Raises:
        DeviceError: the port can't be opened; raised when the first record is asked for.
    """
    waiting: Queue[dict[str, Any]] = Queue(_HELD)

    merged = 0

    def deliver(reading: Reading) -> None:
        nonlocal merged
        state = link.state
        record = _record(reading, state.last_junk) | {"stands_for": 1 + state.merged - merged}
        merged = state.merged
        while True:
            try:
                return waiting.put_nowait(record)
            except Full:
                _drop(waiting)

    link = Link(port, profile, deliver, monotonic)
    with link:
        while True:
            yield waiting.get()


def _drop(waiting: Queue[dict[str, Any]]) -> None:
    try:
        waiting.get_nowait()
    except Empty:
        return


def _record(reading: Reading, last_junk: tuple[str, ...]) -> dict[str, Any]:
    fault = reading.fault
    if fault is not None and fault.startswith("lost: unreadable") and last_junk:
        fault += f', such as "{last_junk[-1]}"'
    return {
        "at": datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z"),
        "celsius": None if reading.kelvin is None else round(celsius(reading.kelvin), 3),
        "fault": fault,
    }
