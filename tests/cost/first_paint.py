"""From the start of the process to the first thing on the screen, beside a bare Textual app."""

from __future__ import annotations

import os
import pty
import select
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from tempfile import TemporaryDirectory

from tests.cost.bare import BARE, WORD
from tests.cost.row import Row, by_turns

MOST = 1.25
TURNS = 9
MARK = WORD.encode()
GIVE_UP = 60.0


def rows() -> Iterator[Row]:
    """The first paint of the shelf."""
    with TemporaryDirectory() as folder:
        environment = os.environ | {"TERM": "xterm-256color", "PYTHONPYCACHEPREFIX": f"{folder}/compiled"}
        environment |= {"HEATBOOK_HOME": f"{folder}/home"}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        ours, bare = (
            partial(_timed, [sys.executable, *arguments], environment) for arguments in (["-m", "tui.cli"], [*BARE])
        )
        for paint in (ours, bare):
            paint(0)  # compiles what is not compiled yet
        painted, yardstick = by_turns(TURNS, ours, bare)
    yield Row("first paint", painted, "a bare Textual app", yardstick, MOST)


def _timed(arguments: list[str], environment: dict[str, str], turn: int) -> float:
    del turn
    start = time.perf_counter()
    with painted(arguments, environment):
        return time.perf_counter() - start


@contextmanager
def painted(arguments: list[str], environment: dict[str, str], mark: bytes = MARK) -> Iterator[bytes]:
    """Run a program until `mark` is painted: what has come to its terminal by then. It is killed afterwards.

    Raises:
        TimeoutError: nothing was painted.
    """
    ours, theirs = pty.openpty()
    seen = b""
    give_up = time.perf_counter() + GIVE_UP
    process = subprocess.Popen(arguments, stdin=theirs, stdout=theirs, stderr=theirs, env=environment)
    os.close(theirs)
    try:
        while mark not in seen:
            ready, _, _ = select.select([ours], [], [], max(0.0, give_up - time.perf_counter()))
            if not ready:
                raise TimeoutError(f"nothing after {GIVE_UP:g} s: {seen!r}")
            seen += os.read(ours, 65536)
        yield seen
    finally:
        process.kill()
        process.wait()
        os.close(ours)
