"""The control lines of ports, that a switch closes: a loop has them, a pseudo-terminal has none."""

from __future__ import annotations

import socket
import threading
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

import pytest
from serial.urlhandler import protocol_loop

from devices.errors import DeviceError
from devices.finder import PortInfo
from devices.link import Link
from devices.pedal_line import POLL_EVERY, ControlLine, PedalLine, PedalWatch, Power
from devices.profile import Profile
from plans.reading import Reading
from plans.sitting.events import Word

PATIENCE = 20.0
"""Longer than any wait should take, even on a busy machine [s]; reached only by a test that fails."""

NEXT, BACK = Word.NEXT, Word.BACK


# The line of a port


Look = bool | Callable[[], bool]


def gone() -> bool:
    raise OSError(5, "Input/output error")


class Loop(protocol_loop.Serial):  # type: ignore[misc, unused-ignore]
    """A port whose line is a script; each look takes as long as the time between two looks."""

    def __init__(self, clock: Any, script: list[Look]) -> None:
        super().__init__("loop://")
        self._clock, self._script = clock, script
        self.done = threading.Event()

    def _look(self) -> bool:
        self._clock.now += POLL_EVERY
        if not self._script:
            self.done.set()
            return False
        found = self._script.pop(0)
        return found if isinstance(found, bool) else found()

    cts = property(_look)


def script(*spans: tuple[float, bool]) -> list[Look]:
    return [closed for seconds, closed in spans for _ in range(round(seconds / POLL_EVERY))]


@pytest.fixture
def pedal(clock: Any) -> Iterator[Callable[..., PedalLine]]:
    """A started pedal on ports that are opened one after the other."""
    pedals = []

    def start(deliver: Callable[[Word], None], *devices: Any, **more: Any) -> PedalLine:
        waiting = list(devices)

        def opener(port: str) -> Any:
            if not waiting:
                raise DeviceError(port, "is gone", "")
            return waiting.pop(0)

        pedal = PedalLine("loop://", deliver, clock, ports=list, opener=opener, **more)
        pedal.start()
        pedals.append(pedal)
        return pedal

    yield start
    for pedal in pedals:
        pedal.close()
    assert not [thread for thread in threading.enumerate() if thread.name == "pedal"]


def test_a_press_and_a_hold_from_the_line_in_a_thread(pedal: Callable[..., PedalLine], clock: Any) -> None:
    device = Loop(clock, script((0.2, False), (0.2, True), (0.5, False), (1.0, True)))
    heard: list[tuple[Word, str]] = []
    line = pedal(lambda word: heard.append((word, threading.current_thread().name)), device)
    assert device.done.wait(PATIENCE)
    line.close()
    line.close()
    assert heard == [(NEXT, "pedal"), (BACK, "pedal")]
    assert not device.is_open


def test_it_is_found_again_after_it_was_unplugged(pedal: Callable[..., PedalLine], clock: Any) -> None:
    first = Loop(clock, [*script((0.2, False), (0.2, True)), gone])
    # Opens, but is gone before the first look: told no second time.
    second = Loop(clock, [gone])
    third = Loop(clock, script((0.3, True), (0.2, False), (0.2, True), (0.1, False)))
    heard: list[Word] = []
    told: list[DeviceError] = []
    pedal(heard.append, first, second, third, tell=told.append)
    assert third.done.wait(PATIENCE)
    # The foot was on it when it went, and when it came back: only what it did after that counts.
    assert heard == [NEXT]
    assert [str(error) for error in told] == [
        "loop://: the pedal is unplugged. Plug its adapter in again; until then say next with a key."
    ]
    assert not first.is_open


def test_an_adapter_is_looked_for_wherever_it_turns_up(clock: Any) -> None:
    plugged_in = [PortInfo("/dev/a", "Adapter", "Maker", 1, 2, "S1")]
    opened: list[str] = []

    def moves() -> bool:
        plugged_in[:] = [replace(plugged_in[0], serial_number="S2"), replace(plugged_in[0], port="/dev/b")]
        return gone()

    devices = [Loop(clock, [False, moves]), Loop(clock, [])]

    def opener(port: str) -> Any:
        opened.append(port)
        return devices[len(opened) - 1]

    line = PedalLine("/dev/a", print, clock, ports=lambda: list(plugged_in), opener=opener)
    line.start()
    assert devices[1].done.wait(PATIENCE)
    line.close()
    assert opened == ["/dev/a", "/dev/b"]


@pytest.mark.parametrize(
    ("line", "power", "fed", "left"),
    [(ControlLine.CTS, Power.RTS, "rts", "dtr"), (ControlLine.DSR, Power.DTR, "dtr", "rts")],
)
def test_the_line_is_the_one_that_was_asked_for_and_its_feed_is_on(
    clock: Any, line: ControlLine, power: Power, fed: str, left: str
) -> None:
    """A loop has RTS wired to CTS and DTR to DSR."""
    device: Any = protocol_loop.Serial("loop://")
    device.rts = device.dtr = False
    heard: list[Word] = []
    watch = PedalWatch(heard.append, clock, line, power)
    assert watch(device)
    assert (getattr(device, fed), getattr(device, left)) == (True, False)
    for closed, seconds in ((False, 0.2), (True, 0.2), (False, 0.2)):
        setattr(device, fed, closed)
        for _ in range(round(seconds / POLL_EVERY)):
            clock.now += POLL_EVERY
            assert watch(device)
    assert heard == [NEXT]
    device.close()


def test_with_a_supply_of_its_own_no_line_is_touched(clock: Any) -> None:
    device: Any = protocol_loop.Serial("loop://")
    device.rts = device.dtr = False
    assert PedalWatch(print, clock, power=None)(device)
    assert (device.rts, device.dtr) == (False, False)
    device.close()


def test_it_looks_no_more_often_than_it_needs_to(clock: Any) -> None:
    looks = script((1.0, False))
    device: Any = Loop(clock, looks)
    watch = PedalWatch(print, lambda: 5.0)
    for _ in range(20):
        assert watch(device)
    assert len(looks) == 49
    device.close()


def test_a_port_that_is_gone_says_so(clock: Any) -> None:
    device: Any = protocol_loop.Serial("loop://")
    watch = PedalWatch(print, clock)
    assert watch(device)
    device.close()
    clock.now = 1.0
    assert not watch(device)


# Ports without control lines


NO_LINES = "it has no control lines, so that no pedal can be connected to it. Connect the pedal to a real serial port"


def test_a_pedal_on_a_port_without_control_lines_is_refused(probe: Any, clock: Any) -> None:
    line = PedalLine(probe.path, print, clock, ports=list)
    with pytest.raises(DeviceError) as caught:
        line.start()
    assert str(caught.value).startswith(f"{probe.path}: {NO_LINES}")
    line.close()
    # The port is free again.
    with pytest.raises(DeviceError, match="no control lines"):
        PedalLine(probe.path, print, clock, power=None, ports=list).start()


def test_a_pedal_on_the_network_is_refused(clock: Any) -> None:
    with socket.create_server(("127.0.0.1", 0)) as server:
        address = f"socket://127.0.0.1:{server.getsockname()[1]}"
        with pytest.raises(DeviceError, match="no control lines"):
            PedalLine(address, print, clock, ports=list).start()


def test_a_port_that_is_not_there_is_refused(clock: Any, tmp_path: Any) -> None:
    line = PedalLine(str(tmp_path / "absent"), print, clock)
    with pytest.raises(DeviceError, match="there is no such port"):
        line.start()
    line.close()


def test_a_mistake_in_the_receiver_comes_out_at_closing(clock: Any) -> None:
    device: Any = Loop(clock, script((0.2, False), (0.2, True), (0.2, False)))

    def deliver(_: Word) -> None:
        raise KeyError("a mistake of the program")

    line = PedalLine("loop://", deliver, clock, ports=list, opener=lambda _: device)
    line.start()
    assert line._thread is not None
    line._thread.join(PATIENCE)
    with pytest.raises(KeyError):
        line.close()
    line.close()
    assert not device.is_open


# On the port of the probe


def test_the_link_looks_at_the_line_while_it_reads(probe: Any, ear: Any, clock: Any, bare: Profile) -> None:
    looked: list[Any] = []
    enough = threading.Semaphore(0)

    def look(device: Any) -> None:
        looked.append(device)
        enough.release()

    with Link(probe.path, bare, ear, clock, list, look):
        probe.send(b"20\n")
        ear.wait_for(1)
        # It is not kept from looking by a probe that says nothing.
        for _ in range(10):
            assert enough.acquire(timeout=PATIENCE)
        assert looked[0].timeout == POLL_EVERY
        probe.unplug()
        ear.wait_for(2)
        probe.plug()
        ear.wait_for(3, lambda: probe.send(b"21\n"))
    first = looked[0]
    assert [round(reading.kelvin - 273.15) for reading in ear.readings if reading.kelvin][:2] == [20, 21]
    assert any(device is not first for device in looked)


def test_a_pedal_at_the_probes_port_that_has_no_lines_is_told_once_and_the_probe_reads_on(
    probe: Any, ear: Any, clock: Any, bare: Profile
) -> None:
    told: list[DeviceError] = []
    watch = PedalWatch(print, clock, tell=told.append)
    with Link(probe.path, bare, ear, clock, list, watch):
        for count in range(5):
            clock.now += 1.0
            probe.send(b"20\n")
            ear.wait_for(count + 1)
        assert [reading.fault for reading in ear.readings] == [None] * 5
    assert len(told) == 1
    assert told[0] is watch.trouble
    assert NO_LINES in str(told[0])


def test_a_press_comes_through_the_link(ear: Any, clock: Any, bare: Profile, monkeypatch: pytest.MonkeyPatch) -> None:
    device = Loop(clock, script((0.2, False), (0.2, True), (0.2, False)))
    monkeypatch.setattr("devices.link.open_port", lambda *_: device)
    heard: list[Word] = []
    with Link("loop://", bare, ear, clock, list, PedalWatch(heard.append, clock)):
        device.write(b"20\n")
        assert device.done.wait(PATIENCE)
    assert heard == [NEXT]
    assert [reading for reading in ear.readings if reading.kelvin] == [Reading(ear.readings[0].at, 293.15)]
