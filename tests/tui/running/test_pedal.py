"""A pedal that stands by a sitting: on the probe's port, on a port of its own, or nowhere."""

from __future__ import annotations

import os
import pty
import tty
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from devices.errors import DeviceError
from plans.sitting.events import Word
from tui.config.settings import PedalSetting
from tui.running.pedal import stand, stand_by
from tui.running.sources import ClockSource

if TYPE_CHECKING:
    from tests.tui.running.conftest import ToldSource


@pytest.mark.parametrize("pedal", [None, PedalSetting(key="f9")], ids=["none", "a key alone"])
def test_without_a_switch_nothing_is_touched_nor_told(source: ToldSource, pedal: PedalSetting | None) -> None:
    told: list[Word | DeviceError] = []
    stand(pedal, source, told.append)()
    assert (source.asked, told) == ([], [])


def test_a_switch_without_a_port_hangs_on_the_probes(source: ToldSource) -> None:
    told: list[Word | DeviceError] = []
    stand(PedalSetting(line="cts"), source, told.append)()
    assert (source.asked, told) == (["watch line"], [])


def test_a_switch_with_a_port_of_its_own_lets_the_probes_be(source: ToldSource, port: str) -> None:
    stand(PedalSetting(line="cts", port=port), source, lambda _: None)()
    assert source.asked == []


def test_a_switch_that_hangs_on_no_port_is_told() -> None:
    told: list[Word | DeviceError] = []
    stand(PedalSetting(line="cts"), ClockSource(lambda: 0.0), told.append)()
    assert len(told) == 1
    assert "it names no port, and there is no probe" in str(told[0])


@pytest.fixture
def port() -> Iterator[str]:
    """A serial port without control lines, as every pseudo-terminal."""
    ours, theirs = pty.openpty()
    tty.setraw(theirs)
    yield os.ttyname(theirs)
    os.close(ours)
    os.close(theirs)


def test_a_port_without_control_lines_is_told(port: str) -> None:
    told: list[Word | DeviceError] = []
    lift = stand(PedalSetting(line="cts", port=port), ClockSource(lambda: 0.0), told.append)
    assert len(told) == 1
    assert "it has no control lines" in str(told[0])
    lift()
    lift()


def test_a_port_that_is_not_there_is_told(tmp_path: Path) -> None:
    told: list[Word | DeviceError] = []
    stand(PedalSetting(line="dsr", port=str(tmp_path / "none")), ClockSource(lambda: 0.0), told.append)()
    assert len(told) == 1
    assert "none" in str(told[0])


@pytest.mark.parametrize(
    "pedal", [None, PedalSetting(key="f9"), PedalSetting(line="cts")], ids=["none", "a key alone", "on no port"]
)
def test_while_no_sitting_runs_a_pedal_that_has_no_switch_or_no_port_is_let_be(pedal: PedalSetting | None) -> None:
    told: list[Word | DeviceError] = []
    stand_by(pedal, "", told.append)()
    assert told == []


@pytest.mark.parametrize("own", [True, False], ids=["own port", "the probe's"])
def test_while_no_sitting_runs_a_switch_is_looked_at_on_its_port(port: str, own: bool) -> None:
    told: list[Word | DeviceError] = []
    pedal = PedalSetting(line="cts", port=port if own else "")
    stand_by(pedal, "/dev/nosuch" if own else port, told.append)()
    assert len(told) == 1
    assert "it has no control lines" in str(told[0])
