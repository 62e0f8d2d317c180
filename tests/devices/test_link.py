"""The link over real pseudo-terminals."""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from devices.finder import PortInfo
from devices.link import Link, LinkPhase
from devices.profile import Profile
from plans.reading import Reading

StartLink = Callable[..., Link]


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


def test_a_burst_comes_through_whole_and_in_order(probe: Any, ear: Any, link_to: StartLink, bare: Profile) -> None:
    link = link_to(probe.path, bare)
    sent = [20 + n / 100 for n in range(5000)]
    probe.send(b"".join(b"%.2f\n" % number for number in sent))
    assert celsius(ear.wait_for(5000)) == pytest.approx(sent)
    assert (link.state.lines, link.state.junk) == (5000, 0)


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
