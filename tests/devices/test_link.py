"""The link over real pseudo-terminals."""

from __future__ import annotations

import os
import socket
import struct
import threading
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from devices.errors import DeviceError
from devices.finder import PortInfo
from devices.link import Link
from devices.link_state import LinkPhase
from devices.profile import Profile
from devices.slots import AT_ONCE
from plans.reading import Reading

StartLink = Callable[..., Link]
PATIENCE = 20.0
"""Longer than any wait should take, even on a busy machine [s]; reached only by a test that fails."""


def celsius(readings: list[Reading]) -> list[float | None]:
    return [None if r.kelvin is None else round(r.kelvin - 273.15, 3) for r in readings]


def test_bare_numbers_come_as_readings(probe: Any, ear: Any, clock: Any, link_to: StartLink, bare: Profile) -> None:
    link_to(probe.path, bare)
    clock.now = 3.5
    probe.send(b"20.5\r\n")
    ear.wait_for(1)
    clock.now = 4.0
    probe.send(b"21\n")
    assert celsius(ear.wait_for(2)) == [20.5, 21.0]
    assert [r.at for r in ear.readings] == [3.5, 4.0]


def test_labelled_lines(probe: Any, ear: Any, link_to: StartLink, bare: Profile) -> None:
    link_to(probe.path, replace(bare, pattern=("t: {value} C",), faults=(("OL", "open circuit"),)))
    probe.send(b"t: 125.745 C\nt:  OL C\nt: 9999 C\n")
    assert celsius(ear.wait_for(3)) == [125.745, None, None]
    assert [r.fault for r in ear.readings] == [None, "open circuit", "out of range"]


def test_the_first_line_is_dropped(probe: Any, ear: Any, link_to: StartLink, bare: Profile) -> None:
    link = link_to(probe.path, replace(bare, skip_first=True))
    probe.send(b"3.5\n23.5\n")
    assert celsius(ear.wait_for(1)) == [23.5]
    assert link.state.lines == 1


def test_partial_lines_are_put_together(probe: Any, ear: Any, link_to: StartLink, bare: Profile) -> None:
    link_to(probe.path, bare)
    for byte in b"1023.5\r\n900\n":
        probe.send(bytes([byte]))
    assert celsius(ear.wait_for(2)) == [1023.5, 900.0]


def test_junk_and_escapes_are_counted_and_kept_clean(probe: Any, ear: Any, link_to: StartLink, bare: Profile) -> None:
    link = link_to(probe.path, bare)
    probe.send(b"\x1b[2J\x1b]0;owned\x07\nhello\n\x9b31m\nnan\n1e999\n20.0\n")
    assert celsius(ear.wait_for(1)) == [20.0]
    state = link.state
    assert (state.lines, state.junk) == (6, 5)
    assert state.last_junk == ("?[2J?]0;owned?", "hello", "?31m", "nan", "1e999")


def test_a_line_without_an_end_is_given_up_and_what_follows_is_read(
    probe: Any, ear: Any, link_to: StartLink, bare: Profile
) -> None:
    link = link_to(probe.path, bare)
    probe.send(b"7" * 100_000)
    probe.send(b"\n21.5\n")
    assert celsius(ear.wait_for(1)) == [21.5]
    assert link.state.junk == 1


def test_of_a_flood_medians_are_handed_on_and_the_others_counted(
    probe: Any, ear: Any, clock: Any, link_to: StartLink, bare: Profile
) -> None:
    link = link_to(probe.path, bare)
    for second in range(1, 21):
        clock.now = float(second)
        # The last line is no temperature, and tells that all before it have been heard.
        probe.send(b"".join(b"%.1f\n" % (900 + n % 7) for n in range(500)) + b"9999\n")
        ear.wait(lambda readings, faults=second: sum(one.fault == "out of range" for one in readings) >= faults)
    state = link.state
    assert len(ear.readings) < 20 * 20
    assert (state.lines, state.junk, state.merged + len(ear.readings)) == (20 * 501, 0, 20 * 501)
    assert {one.fault for one in ear.readings} == {None, "out of range"}
    assert {round(one.kelvin - 273.15) for one in ear.readings if one.kelvin} <= set(range(900, 907))
    assert state.rate == pytest.approx(501, rel=0.4), "the reader takes it in pieces as it likes"
    assert state.too_fast.startswith("the probe says ")


def test_ten_lines_at_once_make_no_slow_probe_fast(
    probe: Any, ear: Any, clock: Any, link_to: StartLink, bare: Profile
) -> None:
    link = link_to(probe.path, bare)
    probe.send(b"".join(b"%d.0\n" % (900 + n) for n in range(10)))
    handed_on = len(ear.wait(lambda readings: link.state.merged + len(readings) == 10))
    for n in range(1, 9):
        clock.now = n / 4
        probe.send(b"905.0\n")
        ear.wait_for(handed_on + n)
        assert link.state.too_fast == ""
    assert (link.state.rate, link.state.pace) == (pytest.approx(4.0), "4.0/s")


def test_what_is_held_is_handed_on_before_the_probe_is_told_as_lost(
    probe: Any, ear: Any, clock: Any, bare: Profile
) -> None:
    heard = threading.Event()

    def listens(_: object) -> None:
        if link.state.lines == AT_ONCE + 2:
            heard.set()

    # The clock stands still, so that there is room for a few and then for none.
    link = Link(probe.path, bare, ear, clock, list, listens)
    with link:
        for n in range(AT_ONCE):
            probe.send(b"%.1f\n" % (900 + n))
            ear.wait_for(n + 1)
        probe.send(b"910\n9999\n")
        assert heard.wait(PATIENCE)
        probe.unplug()
        readings = ear.wait_for(AT_ONCE + 3)
    assert [one.fault for one in readings[AT_ONCE:]] == [None, "out of range", "lost: unplugged"]
    probe.plug()


def test_unplugged_and_plugged_in_again(probe: Any, ear: Any, clock: Any, link_to: StartLink, bare: Profile) -> None:
    opened = threading.Semaphore(0)

    def ports() -> list[PortInfo]:
        opened.release()
        return []

    link = link_to(probe.path, bare, ports)
    assert opened.acquire(timeout=20)
    probe.send(b"20\n")
    ear.wait_for(1)
    clock.now = 2.0
    probe.unplug()
    assert ear.wait_for(2)[-1] == Reading(2.0, None, "lost: unplugged")
    assert link.state.phase is LinkPhase.LOST
    probe.plug()
    # What is sent before the port is open again is lost, as on a real cable.
    assert opened.acquire(timeout=20)
    probe.send(b"22\n")
    assert celsius(ear.wait_for(3)) == [20.0, None, 22.0]
    assert link.state.trouble == ""


def test_an_adapter_is_found_again_wherever_it_turns_up(
    probe: Any, ear: Any, link_to: StartLink, bare: Profile, tmp_path: Any
) -> None:
    elsewhere = type(probe)(tmp_path / "elsewhere")
    adapter = PortInfo(probe.real_path, "Adapter", "Maker", 1, 2, "S1")
    plugged_in = [adapter]
    opened = threading.Semaphore(0)

    def ports() -> list[PortInfo]:
        opened.release()
        return list(plugged_in)

    link = link_to(probe.path, bare, ports)
    assert opened.acquire(timeout=20)
    assert link.state.description == "Adapter"
    # Another adapter now stands at the old path; ours has moved.
    plugged_in[:] = [replace(adapter, serial_number="S2"), replace(adapter, port=elsewhere.path, description="Moved")]
    probe.unplug()
    ear.wait_for(1)
    probe.plug()
    # Asked once to look for it, and once more when it is open.
    assert opened.acquire(timeout=20)
    assert opened.acquire(timeout=20)
    probe.send(b"99\n")
    elsewhere.send(b"22\n")
    assert celsius(ear.wait_for(2)) == [None, 22.0]
    assert (link.state.port, link.state.description) == (elsewhere.path, "Moved")
    elsewhere.close()


def test_an_adapter_that_the_system_lists_late_is_not_forgotten(
    probe: Any, ear: Any, link_to: StartLink, bare: Profile
) -> None:
    adapter = PortInfo(probe.path, "Adapter", "Maker", 1, 2, "S1")
    # When it is opened, looked for, and opened again.
    listed = [[adapter], [adapter], []]
    asked = threading.Semaphore(0)

    def ports() -> list[PortInfo]:
        asked.release()
        return listed.pop(0)

    link = link_to(probe.path, bare, ports)
    probe.unplug()
    ear.wait_for(1)
    probe.plug()
    for _ in range(3):
        assert asked.acquire(timeout=20)
    probe.send(b"20\n")
    ear.wait_for(2)
    assert link.state.description == "Adapter"


def test_silence_is_told_once_and_ended_by_a_reading(
    probe: Any, ear: Any, clock: Any, link_to: StartLink, bare: Profile
) -> None:
    link = link_to(probe.path, bare)
    probe.send(b"20\n")
    ear.wait_for(1)
    clock.now = 5.0
    probe.send(b"x\n21\n")
    ear.wait_for(2)
    clock.now = 10.1
    assert ear.wait_for(3)[-1] == Reading(10.1, None, "lost: silent for 5 s")
    assert (link.state.phase, link.state.trouble, link.state.rate) == (LinkPhase.OPEN, "silent for 5 s", None)
    clock.now = 60.0
    probe.send(b"22\n")
    assert celsius(ear.wait_for(4)) == [20.0, 21.0, None, 22.0]
    assert link.state.trouble == ""


def test_nothing_but_junk_is_told_as_unreadable(
    probe: Any, ear: Any, clock: Any, link_to: StartLink, bare: Profile
) -> None:
    link = link_to(probe.path, bare)
    probe.send(b"20\n")
    ear.wait_for(1)
    clock.now = 5.5
    assert ear.wait_for(2)[-1] == Reading(5.5, None, "lost: silent for 5 s")
    probe.send(b"T=20\n")
    assert ear.wait_for(3)[-1] == Reading(5.5, None, "lost: unreadable for 5 s")
    assert link.state.last_junk == ("T=20",)


def test_a_first_line_that_never_ends_is_told_as_unreadable(
    probe: Any, ear: Any, clock: Any, link_to: StartLink, bare: Profile
) -> None:
    link_to(probe.path, replace(bare, skip_first=True))
    # More than the system holds for the reader: when all is sent, some was read.
    probe.send(b"7" * 200_000)
    clock.now = 5.5
    assert ear.wait_for(1) == [Reading(5.5, None, "lost: unreadable for 5 s")]


def test_a_silent_probe_that_is_plugged_in_again_is_told_as_silent(
    probe: Any, ear: Any, clock: Any, link_to: StartLink, bare: Profile
) -> None:
    opened = threading.Semaphore(0)

    def ports() -> list[PortInfo]:
        opened.release()
        return []

    link_to(probe.path, bare, ports)
    assert opened.acquire(timeout=20)
    probe.unplug()
    ear.wait_for(1)
    probe.plug()
    assert opened.acquire(timeout=20)
    clock.now = 6.0
    assert [r.fault for r in ear.wait_for(2)] == ["lost: unplugged", "lost: silent for 5 s"]


def test_a_spike_is_flagged(probe: Any, ear: Any, link_to: StartLink, bare: Profile) -> None:
    link_to(probe.path, bare)
    probe.send(b"1000\n1600\n1001\n")
    assert [r.fault for r in ear.wait_for(3)] == [None, "jumped", None]


def test_the_rate_is_by_the_links_own_clock(
    probe: Any, ear: Any, clock: Any, link_to: StartLink, bare: Profile
) -> None:
    link = link_to(probe.path, bare)
    assert link.state.rate is None
    for n in range(5):
        clock.now = n * 0.25
        probe.send(b"20\n")
        ear.wait_for(n + 1)
    assert link.state.rate == pytest.approx(4.0)


def test_a_port_that_is_taken(probe: Any, link_to: StartLink, bare: Profile, ear: Any, clock: Any) -> None:
    link_to(probe.path, bare)
    with pytest.raises(DeviceError, match="another program has taken it"):
        Link(probe.path, bare, ear, clock).start()


def test_a_port_that_is_not_there_names_those_that_are(
    bare: Profile, ear: Any, clock: Any, tmp_path: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    absent = str(tmp_path / "absent")
    monkeypatch.setattr("devices.port.find_ports", lambda: [PortInfo("/dev/a"), PortInfo("/dev/b")])
    with pytest.raises(DeviceError) as caught:
        Link(absent, bare, ear, clock).start()
    assert str(caught.value) == f"{absent}: there is no such port. There are /dev/a, /dev/b."
    monkeypatch.setattr("devices.port.find_ports", list)
    with pytest.raises(DeviceError, match="There is no serial port"):
        Link(absent, bare, ear, clock).start()


@pytest.mark.parametrize("port", ["/dev/null", "{folder}", "{folder}/file"])
def test_what_is_no_serial_port(port: str, bare: Profile, ear: Any, clock: Any, tmp_path: Any) -> None:
    (tmp_path / "file").write_text("20\n")
    with pytest.raises(DeviceError, match="is not a serial port"):
        Link(port.format(folder=tmp_path), bare, ear, clock).start()


@pytest.mark.parametrize("port", ["", "a\0b", "/dev/null/x"])
def test_names_that_can_be_no_port(port: str, bare: Profile, ear: Any, clock: Any) -> None:
    with pytest.raises(DeviceError) as caught:
        Link(port, bare, ear, clock).start()
    assert str(caught.value).isprintable()


def test_no_permission_names_the_group(probe: Any, bare: Profile, ear: Any, clock: Any) -> None:
    grp = pytest.importorskip("grp")
    # Loaded now, as nobody may not be allowed to read it.
    pytest.importorskip("serial.tools.list_ports")
    group = next(group for group in grp.getgrall() if group.gr_gid not in (0, os.getegid()))
    was = os.geteuid()
    if was != 0:
        Path(probe.real_path).chmod(0)
        expected = "you may not use it. Ask"
    else:
        os.chown(probe.real_path, 0, group.gr_gid)
        Path(probe.real_path).chmod(0o660)
        expected = f"you may not use it. Join the group {group.gr_name} "
        os.setegid(65534)
        os.seteuid(65534)
    try:
        with pytest.raises(DeviceError) as caught:
            Link(probe.real_path, bare, ear, clock).start()
    finally:
        if was == 0:
            os.seteuid(0)
            os.setegid(0)
    assert expected in str(caught.value)


@pytest.mark.parametrize(
    ("port", "says"),
    [
        ("spy:///dev/null?file=/dev/null", "is no address"),
        ("socket://here", "is no address"),
        ("socket://:5000", "is no address"),
        ("socket://localhost:notaport", "is no address"),
        ("socket://localhost:99999", "is no address"),
        ("socket://[", "is no address"),
        ("rfc2217://", "is no address"),
        ("://", "is no address"),
        ("socket://127.0.0.1:1", "nothing answers there (Connection refused)"),
        ("rfc2217://127.0.0.1:1", "nothing answers there (Connection refused)"),
    ],
)
def test_addresses_that_lead_nowhere(port: str, says: str, bare: Profile, ear: Any, clock: Any) -> None:
    with pytest.raises(DeviceError) as caught:
        Link(port, bare, ear, clock).start()
    assert says in str(caught.value)


def test_a_probe_on_the_network_that_hangs_up_and_comes_back(ear: Any, link_to: StartLink, bare: Profile) -> None:
    with socket.create_server(("127.0.0.1", 0)) as server:
        link = link_to(f"socket://127.0.0.1:{server.getsockname()[1]}", bare)
        probe, _ = server.accept()
        with probe:
            probe.sendall(b"20\r\n2")
            ear.wait_for(1)
            # Hung up by a reset, as when its battery is taken out.
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
        assert ear.wait_for(2)[-1].fault == "lost: connection ended"
        probe, _ = server.accept()
        with probe:
            # What comes before the connection counts as open is dropped, so it is sent until it is heard.
            ear.wait_for(3, lambda: probe.sendall(b"21\r\n"))
            assert celsius(ear.readings[:3]) == [20.0, None, 21.0]
            link.close()


def test_a_loop_opens_and_closes(link_to: StartLink, bare: Profile) -> None:
    assert link_to("loop://", bare).state.phase is LinkPhase.OPEN


def test_closing_gives_the_port_back_and_may_be_done_twice(probe: Any, ear: Any, clock: Any, bare: Profile) -> None:
    def open_files() -> list[str]:
        return sorted(str(path) for path in Path("/proc/self/fd").glob("*"))

    before = open_files()
    for _ in range(3):
        with Link(probe.path, bare, ear, clock) as link:
            assert link.state.phase is LinkPhase.OPEN
        link.close()
        assert link.state.phase is LinkPhase.CLOSED
    assert open_files() == before
    Link(probe.path, bare, ear, clock).close()


def test_closing_does_not_wait_for_a_lost_port(probe: Any, ear: Any, link_to: StartLink, bare: Profile) -> None:
    link = link_to(probe.path, bare)
    probe.unplug()
    ear.wait_for(1)
    link.close()
    assert not [thread for thread in threading.enumerate() if thread.name == "probe reader"]
    probe.plug()


def test_nothing_is_handed_on_after_closing(probe: Any, ear: Any, link_to: StartLink, bare: Profile) -> None:
    link = link_to(probe.path, bare)
    link.close()
    probe.send(b"20\n")
    assert ear.readings == []


def test_what_is_wrong_in_the_receiver_comes_out_at_closing(probe: Any, clock: Any, bare: Profile) -> None:
    heard = threading.Event()

    def deliver(_: Reading) -> None:
        heard.set()
        raise KeyError("a mistake of the program")

    link = Link(probe.path, bare, deliver, clock)
    link.start()
    probe.send(b"20\n")
    assert heard.wait(20)
    with pytest.raises(KeyError) as caught:
        link.close()
    link.close()
    # The port is free again, although what was raised still holds on to all that was at hand.
    with Link(probe.path, bare, print, clock):
        assert caught.value.args == ("a mistake of the program",)


def test_a_loose_plug_is_told_once_until_there_is_a_reading(
    probe: Any, ear: Any, link_to: StartLink, bare: Profile
) -> None:
    opened = threading.Semaphore(0)

    def ports() -> list[PortInfo]:
        opened.release()
        return []

    link_to(probe.path, bare, ports)
    assert opened.acquire(timeout=20)
    for _ in range(2):
        probe.unplug()
        probe.plug()
        assert opened.acquire(timeout=20)
    probe.send(b"20\n")
    ear.wait_for(2)
    probe.unplug()
    assert [r.fault for r in ear.wait_for(3)] == ["lost: unplugged", None, "lost: unplugged"]
    probe.plug()
