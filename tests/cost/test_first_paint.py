"""From the start of the process to the first thing on the screen, beside a bare Textual app in the same run."""

from __future__ import annotations

import os
import pty
import select
import subprocess
import sys
import time
from pathlib import Path
from statistics import median

import pytest

MOST = 1.25
"""Times the bare app's."""
ROUNDS = 9
MARK = b"heatbook"
BARE = """
from textual.app import App
from textual.widgets import Static

class Bare(App):
    def compose(self):
        yield Static("heatbook")

Bare().run()
"""
GIVE_UP = 60.0


def first_paint(arguments: list[str], environment: dict[str, str]) -> float:
    """Seconds until the mark is on the terminal."""
    ours, theirs = pty.openpty()
    seen = b""
    start = time.perf_counter()
    process = subprocess.Popen(arguments, stdin=theirs, stdout=theirs, stderr=theirs, env=environment)
    os.close(theirs)
    try:
        while MARK not in seen:
            left = GIVE_UP - (time.perf_counter() - start)
            ready, _, _ = select.select([ours], [], [], max(0.0, left))
            assert ready, f"nothing after {GIVE_UP:g} s: {seen!r}"
            seen += os.read(ours, 65536)
        return time.perf_counter() - start
    finally:
        process.kill()
        process.wait()
        os.close(ours)


@pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")
def test_first_paint_takes_little_longer_than_a_bare_app(home: Path) -> None:
    """Both are run in turn, so that a busy machine slows both."""
    environment = os.environ | {"HEATBOOK_HOME": str(home), "TERM": "xterm-256color"}
    programs = {"bare": [sys.executable, "-c", BARE], "ours": [sys.executable, "-m", "tui.cli"]}
    for arguments in programs.values():
        first_paint(arguments, environment)  # compiles what is not compiled yet
    times: dict[str, list[float]] = {name: [] for name in programs}
    for _ in range(ROUNDS):
        for name, arguments in programs.items():
            times[name].append(first_paint(arguments, environment))
    bare, ours = median(times["bare"]), median(times["ours"])
    assert ours < MOST * bare, f"{ours * 1000:.0f} ms against {bare * 1000:.0f} ms: {ours / bare:.2f} times"
