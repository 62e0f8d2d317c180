"""Lines to standard output: over real pipes, with nobody at the other end, and on a disk that is full."""

from __future__ import annotations

import fcntl
import os
from collections.abc import Iterator
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path
from threading import Thread
from typing import TextIO

import pytest

from tui.cli import outlet
from tui.cli.outlet import Outlet

LONG = "x" * 4095
"""A line that with its end is a page: a pipe of one page takes one, and no more."""


class Ends:
    """A pipe in place of standard output, and one in place of standard error."""

    def __init__(self) -> None:
        self.read, write = os.pipe()
        self._told, errors = os.pipe()
        fcntl.fcntl(write, fcntl.F_SETPIPE_SZ, 4096)
        self.out = os.fdopen(write, "w", encoding="utf-8")
        self.errors = os.fdopen(errors, "w", encoding="utf-8")

    def outlet(self, out: TextIO | None = None, patient: bool = False) -> Outlet:
        with redirect_stdout(out or self.out), redirect_stderr(self.errors):
            return Outlet(patient)

    def lines(self) -> list[str]:
        """All that comes out, once whoever writes has closed."""
        with os.fdopen(self.read, encoding="utf-8") as file:
            self.read = -1
            return file.read().splitlines()

    def told(self) -> list[str]:
        self.errors.close()
        with os.fdopen(self._told, encoding="utf-8") as file:
            self._told = -1
            return file.read().splitlines()

    def close(self) -> None:
        for end in (self.read, self._told):
            if end >= 0:
                os.close(end)
        self.errors.close()
        self.out.close()


@pytest.fixture
def ends(monkeypatch: pytest.MonkeyPatch) -> Iterator[Ends]:
    pipes = Ends()
    monkeypatch.setattr(outlet, "_PATIENCE", 0.1)
    yield pipes
    pipes.close()


def test_lines_come_out_whole_and_in_order(ends: Ends) -> None:
    said = [f"line {n} ä" for n in range(2000)]
    heard: list[list[str]] = []
    reader = Thread(target=lambda: heard.append(ends.lines()))
    reader.start()
    with ends.outlet() as out:
        for line in said:
            out.line(line)
    ends.out.close()
    reader.join()
    assert (heard, out.failed, ends.told()) == ([said], False, [])


def test_a_full_disk_is_told_once_and_holds_up_nobody(ends: Ends) -> None:
    with Path("/dev/full").open("w", encoding="utf-8") as full, ends.outlet(full, patient=True) as out:
        for _ in range(50):
            out.line("said")
    (told,) = ends.told()
    assert "standard output: No space left on device; the sitting goes on and is logged" in told
    assert out.failed


def test_whoever_read_it_has_gone(ends: Ends) -> None:
    os.close(ends.read)
    ends.read = -1
    with ends.outlet() as out:
        out.line("said")
    (told,) = ends.told()
    assert "nobody reads it any more" in told
    assert out.failed


@pytest.mark.parametrize("lines", [2, 5, 50])
def test_whoever_does_not_read_it_holds_up_nobody(ends: Ends, monkeypatch: pytest.MonkeyPatch, lines: int) -> None:
    monkeypatch.setattr(outlet, "_HELD", 10)
    with ends.outlet() as out:
        for _ in range(lines):
            out.line(LONG)
    (told,) = ends.told()
    assert "nobody takes what is said" in told
    assert out.failed


def test_from_a_recording_it_waits_until_it_is_read(ends: Ends, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(outlet, "_HELD", 10)
    heard: list[list[str]] = []
    with ends.outlet(patient=True) as out:
        for _ in range(11):  # one is in the pipe, one on its way, the others wait
            out.line(LONG)
        reader = Thread(target=lambda: heard.append(ends.lines()))
        reader.start()
        for n in range(200):
            out.line(str(n))
    ends.out.close()
    reader.join()
    assert heard == [[LONG] * 11 + [str(n) for n in range(200)]]
    assert not out.failed


def test_it_takes_up_where_other_output_has_ended(capsys: pytest.CaptureFixture[str]) -> None:
    print("before")
    with Outlet() as out:
        out.line("within")
    print("after")
    assert capsys.readouterr().out == "before\nwithin\nafter\n"
