"""A probe on a real pseudo-terminal, and an ear that notes what a link hands on."""

from __future__ import annotations

import contextlib
import os
import threading
import tty
from collections.abc import Callable, Iterator
from pathlib import Path
from time import monotonic

import pytest

from devices.finder import PortInfo
from devices.link import Link
from devices.link_state import LinkPhase
from devices.profile import Profile, Unit
from plans.reading import Reading

PATIENCE = 20.0
"""Longer than any wait should take, even on a busy machine [s]; reached only by a test that fails."""


class WiredProbe:
    """A probe on a cable: bytes written here come out of the port at `path`, which stays the same across replugging."""

    def __init__(self, path: Path) -> None:
        self.path = str(path)
        self.master = self._slave = -1
        self.plug()

    def plug(self) -> None:
        self.master, self._slave = os.openpty()
        tty.setraw(self._slave)
        self.real_path = os.ttyname(self._slave)
        beside = f"{self.path}.new"
        Path(beside).symlink_to(self.real_path)
        Path(beside).rename(self.path)

    def unplug(self) -> None:
        for end in (self.master, self._slave):
            os.close(end)
        Path(self.path).unlink()

    def send(self, data: bytes) -> None:
        while data:
            data = data[os.write(self.master, data) :]

    def close(self) -> None:
        for end in (self.master, self._slave):
            with contextlib.suppress(OSError):
                os.close(end)


class Ear:
    """What a link handed on, in order; waits for more without sleeping."""

    def __init__(self) -> None:
        self.readings: list[Reading] = []
        self._more = threading.Condition()

    def __call__(self, reading: Reading) -> None:
        with self._more:
            self.readings.append(reading)
            self._more.notify_all()

    def wait(self, enough: Callable[[list[Reading]], bool]) -> list[Reading]:
        with self._more:
            assert self._more.wait_for(lambda: enough(self.readings), PATIENCE), self.readings[-20:]
            return list(self.readings)

    def wait_for(self, count: int, meanwhile: Callable[[], object] | None = None) -> list[Reading]:
        """Wait for so many readings, doing something again and again meanwhile."""
        give_up = monotonic() + PATIENCE
        while meanwhile is not None and len(self.readings) < count and monotonic() < give_up:
            meanwhile()
            with self._more:
                self._more.wait(0.05)
        return self.wait(lambda readings: len(readings) >= count)


class HandClock:
    """A clock that goes on only when told to."""

    def __init__(self) -> None:
        self.now = 0.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def probe(tmp_path: Path) -> Iterator[WiredProbe]:
    probe = WiredProbe(tmp_path / "probe")
    yield probe
    probe.close()


@pytest.fixture
def ear() -> Ear:
    return Ear()


@pytest.fixture
def clock() -> HandClock:
    return HandClock()


@pytest.fixture
def bare() -> Profile:
    """A bare number a line; nothing is dropped, so that a test sees all that it sends."""
    return Profile("bare", "A number a line", Unit.CELSIUS, skip_first=False)


@pytest.fixture
def link_to(ear: Ear, clock: HandClock) -> Iterator[Callable[..., Link]]:
    """Makes started links, which are closed at the end of the test."""
    links: list[Link] = []

    def start(port: str, profile: Profile, ports: Callable[[], list[PortInfo]] = list) -> Link:
        link = Link(port, profile, ear, clock, ports)
        link.start()
        links.append(link)
        return link

    yield start
    for link in links:
        link.close()
        assert link.state.phase is LinkPhase.CLOSED
    assert not [thread for thread in threading.enumerate() if thread.name == "probe reader"]
