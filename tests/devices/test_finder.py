"""Which ports there are, and where an adapter has gone."""

from __future__ import annotations

import fcntl
import json
import os
import sys
from pathlib import Path
from typing import Any

import pytest

from devices.finder import NO_PORT, PortInfo, describe_ports, find_again, find_ports, say_ports, with_taken

ADAPTER = PortInfo("/dev/one", "A serial adapter", "Someone", 0x1234, 0xABCD, "S1", "1-2")
linux_only = pytest.mark.skipif(sys.platform != "linux", reason="tells who has a port from the system's tables")


def test_a_port_in_words_and_in_json() -> None:
    assert str(ADAPTER) == "/dev/one  A serial adapter, made by Someone, USB 1234:abcd, serial number S1"
    assert json.loads(json.dumps(ADAPTER.to_record())) == {
        "port": "/dev/one",
        "description": "A serial adapter",
        "maker": "Someone",
        "vendor_id": "1234",
        "product_id": "abcd",
        "serial_number": "S1",
        "taken": None,
        "taken_by": None,
    }
    assert str(PortInfo("/dev/two", taken=False)) == "/dev/two  serial port, free"
    assert str(PortInfo("/dev/two", taken=True, taken_by="cat")) == "/dev/two  serial port, taken by cat"
    assert str(PortInfo("/dev/two", taken=True)) == "/dev/two  serial port, taken by another program"


def test_no_port_says_what_to_do() -> None:
    assert say_ports([]) == NO_PORT
    assert "Plug in" in NO_PORT
    assert say_ports([PortInfo("/dev/a"), PortInfo("/dev/b")]).splitlines() == [
        "/dev/a  serial port",
        "/dev/b  serial port",
    ]


def test_the_ports_of_this_machine_are_sorted_and_the_same_with_and_without_looking_who_has_them() -> None:
    ports = [port.port for port in find_ports()]
    assert [port.port for port in describe_ports()] == ports
    assert len(set(ports)) == len(ports)


@linux_only
def test_what_an_adapter_says_is_cleaned(monkeypatch: pytest.MonkeyPatch) -> None:
    from serial.tools import list_ports
    from serial.tools.list_ports_common import ListPortInfo

    def port(path: str, description: str) -> ListPortInfo:
        info = ListPortInfo(path)
        info.description = description
        info.manufacturer, info.vid, info.pid = "\x9bmaker", 1, 2
        return info

    monkeypatch.setattr(list_ports, "comports", lambda: [port("/dev/x10", "n/a"), port("/dev/x9", "\x1b[2Jprobe")])
    assert find_ports() == [
        PortInfo("/dev/x9", "?[2Jprobe", "?maker", 1, 2),
        PortInfo("/dev/x10", "", "?maker", 1, 2),
    ]


def test_an_adapter_pulled_out_while_the_ports_are_listed_is_no_error(monkeypatch: pytest.MonkeyPatch) -> None:
    from serial.tools import list_ports

    def torn() -> list[Any]:
        raise TypeError("int() argument must be a string")

    monkeypatch.setattr(list_ports, "comports", torn)
    assert find_ports() == []


@linux_only
def test_who_has_a_port(probe: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    free, by_us = with_taken(PortInfo(probe.real_path)), Path("/proc/self/comm").read_text().strip()
    # The probe's own end of the cable is open in this very process.
    assert (free.taken, free.taken_by) == (True, by_us)
    os.close(probe._slave)
    assert with_taken(PortInfo(probe.real_path)).taken is False
    probe._slave = os.open(probe.real_path, os.O_RDWR | os.O_NOCTTY)
    fcntl.flock(probe._slave, fcntl.LOCK_EX)
    # A program of somebody else's can't be looked into, but its lock is seen.
    monkeypatch.setattr("devices.finder._opener", lambda _: None)
    locked = with_taken(PortInfo(probe.path))
    assert (locked.taken, locked.taken_by) == (True, by_us)


def other(**changes: Any) -> PortInfo:
    fields: dict[str, Any] = {
        "port": "/dev/one",
        "vendor_id": 0x1234,
        "product_id": 0xABCD,
        "serial_number": "S1",
        "location": "1-2",
    }
    return PortInfo(**(fields | changes))


@pytest.mark.parametrize(
    ("ports", "where"),
    [
        ([], None),
        ([other()], "/dev/one"),
        ([other(port="/dev/two", location="9")], "/dev/two"),
        ([other(serial_number="S2")], None),
        ([other(product_id=1)], None),
        ([other(serial_number="S2"), other(port="/dev/two")], "/dev/two"),
    ],
)
def test_the_same_adapter_is_found_by_its_numbers(ports: list[PortInfo], where: str | None) -> None:
    assert find_again(ADAPTER, ports) == where


@pytest.mark.parametrize(
    ("ports", "where"),
    [
        ([other(serial_number="", port="/dev/two", location="1-3"), other(serial_number="")], "/dev/one"),
        ([other(serial_number="", port="/dev/two"), other(serial_number="", location="1-3")], "/dev/two"),
        ([other(serial_number="", port="/dev/two", location="1-3")], "/dev/two"),
        ([other(serial_number="", port=f"/dev/{n}", location=f"1-{n}") for n in (7, 8)], None),
        ([other(serial_number="", location="1-7"), other(serial_number="", port="/dev/8", location="1-8")], "/dev/one"),
    ],
)
def test_adapters_without_a_serial_number_are_told_by_socket_then_path(
    ports: list[PortInfo], where: str | None
) -> None:
    assert find_again(PortInfo("/dev/one", "", "", 0x1234, 0xABCD, "", "1-2"), ports) == where
