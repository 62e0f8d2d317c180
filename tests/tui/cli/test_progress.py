"""What takes long is told once, to whoever waits at a terminal, and to nobody else."""

from __future__ import annotations

import os
import pty
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TextIO

import pytest

from tests.terminal import Terminal, environment
from tui.cli.progress import Progress

KEPT = Path(__file__).parents[2] / "plans" / "logbook" / "kept" / "format-1.json"
IMPATIENT = """
import sys
from tui.cli import progress
from tui.cli.main import main

progress._LONG = -1.0
sys.exit(main(sys.argv[1:]))
"""


@pytest.fixture
def terminal() -> Iterator[tuple[int, TextIO]]:
    """A terminal: the end that a person has, and the end that a program writes to."""
    ours, theirs = pty.openpty()
    with os.fdopen(theirs, "w") as stream:
        yield ours, stream
    os.close(ours)


def told(ours: int, stream: TextIO) -> str:
    """What stands on the terminal by now."""
    print("end", file=stream, flush=True)
    seen = b""
    while not seen.endswith(b"end\r\n"):
        seen += os.read(ours, 4096)
    return seen.decode().removesuffix("end\r\n").replace("\r\n", "\n")


@pytest.mark.parametrize(
    ("each", "of", "line"),
    [
        (0.022, 1000, "heatbook: reading: 46 of 1000, about 21 s more\n"),
        (0.5, 10, "heatbook: reading: 3 of 10, about 4 s more\n"),
        (0.5, 4, ""),  # what is left then is over as soon as it is read
        (0.001, 900, ""),
    ],
)
def test_it_is_told_once_after_a_second_if_a_second_is_left(
    terminal: tuple[int, TextIO], each: float, of: int, line: str
) -> None:
    now = 100.0
    progress = Progress(terminal[1], lambda: now)
    for done in range(of):
        progress("reading", done, of)
        now += each
    assert told(*terminal) == line


def test_where_nobody_waits_nothing_is_told(tmp_path: Path) -> None:
    now = 100.0
    with (tmp_path / "errors").open("w") as stream:
        progress = Progress(stream, lambda: now)
        for done in range(1000):
            progress("reading", done, 1000)
            now += 1.0
    assert (tmp_path / "errors").read_text() == ""


@pytest.mark.slow
def test_a_search_that_reads_old_sittings_says_so_and_so_does_packing(home: Path) -> None:
    sittings = home / "logbook" / "sittings"
    sittings.mkdir(parents=True)
    shutil.copy(KEPT, sittings / "20261125-091500-normalize.json")
    told = []
    for words in (["list", "--where", "peak > 900 degC"], ["list", "--where", "peak > 900 degC"], ["pack", "all.zip"]):
        words = [str(home / word) if word == "all.zip" else word for word in words]
        one = Terminal([sys.executable, "-c", IMPATIENT, "log", *words], (200, 24), environment())
        assert one.end() == 0
        told.append([line for line in one.said.splitlines() if line.startswith("heatbook: ")])
        one.close()
    reading = "heatbook: reading once what an earlier version kept: 0 of 1, about 0 s more"
    packing = [f"heatbook: {what}: 0 of 1, about 0 s more" for what in ("reading what is packed", "packing")]
    assert told == [[reading], [], packing]
