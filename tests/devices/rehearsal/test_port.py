"""The pseudo-terminal that stands for the probe's cable."""

from __future__ import annotations

import os
from contextlib import closing
from errno import ENOENT

import pytest

from devices.errors import DeviceError
from devices.port import close_port, open_port
from devices.rehearsal.port import Cable
from devices.rehearsal.rehearsal import PROFILE


def test_carries_bytes_unchanged() -> None:
    line = bytes(range(256)) + b"\r\n"
    with closing(Cable()) as cable:
        device = open_port(cable.path, PROFILE)
        try:
            assert cable.send(line)
            assert device.read(len(line)) == line
        finally:
            close_port(device)


def test_never_waits_for_a_reader_that_does_not_read() -> None:
    with closing(Cable()) as cable:
        assert not all(cable.send(b"x" * 1000) for _ in range(1000))


def test_a_system_that_has_none_to_give_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    def none_left() -> tuple[int, int]:
        raise OSError(ENOENT, "out of pty devices")

    monkeypatch.setattr(os, "openpty", none_left)
    with pytest.raises(DeviceError, match=r"no pseudo-terminal to give \(out of pty devices\)\. Close programs"):
        Cable()
