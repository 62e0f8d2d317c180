"""A port that was lost, looked for again."""

from __future__ import annotations

import os
from pathlib import Path
from threading import Event
from typing import Any

import pytest

from devices.errors import DeviceError
from devices.finder import PortInfo
from devices.port import close_port, open_port
from devices.profile import Profile
from devices.reopening import WAITS, Reopening


class Impatient(Event):
    """Notes how long it would have been waited for, and waits no time."""

    def __init__(self) -> None:
        super().__init__()
        self.waits: list[float | None] = []

    def wait(self, timeout: float | None = None) -> bool:
        self.waits.append(timeout)
        return self.is_set()


def test_waits_grow_until_the_port_works_again(probe: Any, bare: Profile) -> None:
    stop = Impatient()
    port = Reopening(probe.path, lambda path: open_port(path, bare), list)
    close_port(port.open())
    probe.unplug()
    for _ in range(len(WAITS) + 2):
        with pytest.raises(DeviceError, match="there is no such port"):
            port.reopen(stop)
    assert stop.waits == [*WAITS, WAITS[-1], WAITS[-1]]
    assert list(WAITS) == sorted(WAITS)
    probe.plug()
    for settled in (False, True):
        device = port.reopen(stop)
        assert device is not None
        close_port(device)
        assert stop.waits[-1] == WAITS[-1], "a port that only opens does not work yet"
        if settled:
            port.settle()
    device = port.reopen(stop)
    assert device is not None
    close_port(device)
    assert stop.waits[-1] == WAITS[0]


def test_nothing_is_opened_once_it_is_to_stop() -> None:
    opened: list[str] = []

    def opener(path: str) -> Any:
        opened.append(path)

    stop = Event()
    stop.set()
    assert Reopening("/dev/a", opener, list).reopen(stop) is None
    assert opened == []


def test_an_adapter_that_is_not_plugged_in_is_not_taken_for_another(probe: Any, bare: Profile, tmp_path: Path) -> None:
    ours = PortInfo(probe.real_path, "Adapter", "Maker", 1, 2, "S1")
    listed = [ours]
    port = Reopening(probe.path, lambda path: open_port(path, bare), lambda: list(listed))
    close_port(port.open())
    assert port.adapter == ours
    # Another one stands at the old path.
    listed[:] = [PortInfo(probe.real_path, "Adapter", "Maker", 1, 2, "S2")]
    assert port.reopen(Impatient()) is None
    moved = tmp_path / "elsewhere"
    moved.symlink_to(os.path.realpath(probe.path))
    listed[:] = [PortInfo(str(moved), "Adapter", "Maker", 1, 2, "S1")]
    device = port.reopen(Impatient())
    assert device is not None
    close_port(device)
    assert port.port == str(moved)


@pytest.mark.skipif(not Path("/dev/pts").exists(), reason="no pseudo-terminals that are known by a number")
@pytest.mark.parametrize("by", ["its number", "a link that is left", "a link made anew"])
def test_a_pseudo_terminal_that_got_the_number_of_a_lost_one_is_let_be(by: str, bare: Profile, tmp_path: Path) -> None:
    ours, theirs = os.openpty()
    real, link = Path(os.ttyname(theirs)), tmp_path / "probe"
    link.symlink_to(real)
    port = Reopening(str(real if by == "its number" else link), lambda path: open_port(path, bare), list)
    close_port(port.open())
    device = port.reopen(Impatient())
    assert device is not None, "it has not gone"
    close_port(device)
    made = real.stat().st_ctime_ns
    os.close(ours)
    os.close(theirs)
    ends: list[int] = []
    # The system's clock for files goes in steps of some milliseconds; what is made within one can't be told apart.
    while not real.exists() or real.stat().st_ctime_ns == made:
        while real.exists() and ends:
            os.close(ends.pop())
        ends += os.openpty()
    if by == "a link made anew":
        ends += os.openpty()
        link.unlink()
        link.symlink_to(os.ttyname(ends[-1]))
    device = port.reopen(Impatient())
    assert (device is not None) == (by == "a link made anew")
    if device is not None:
        close_port(device)
    for end in ends:
        os.close(end)
