"""A hold goes on while the program does not: stopped as a machine that sleeps, or killed and gone on with.

Nothing is waited for but what programs print: how long the break lasts is told by a second sitting, in a home of its
own, whose shorter hold runs out meanwhile.
"""

from __future__ import annotations

import json
import os
import signal
import sys
import tty
from collections.abc import Callable, Iterator
from pathlib import Path
from threading import Event, Thread
from time import monotonic
from typing import Any

import pexpect
import pytest

HOLD, BREAK = 8.0, 3.5
"""[s]"""
OVEN = """
heatbook = 1
title = "A hold in the oven"
about = "Short, so that a test need not wait."

[[step]]
title = "Hold"
kind = "temper"

[step.oven]
at = "200 degC"
for = "%g s"
"""
SOAK = """
heatbook = 1
title = "A soak"
about = "Short, so that a test need not wait."

[[step]]
title = "Soak"
kind = "normalize"
fire = "930 degC"
heat_to = "900 degC"
soak = "%g s"
section = "40 x 6 mm"

[step.air]
until = "480 degC"
"""
CALLS = {"oven": "time up", "soak": "soak done"}


class Sitting:
    """The program in a terminal, its lines read one by one."""

    def __init__(self, home: Path, *arguments: str) -> None:
        command = ["-m", "tui.cli", "run", *arguments, "--no-screen", "--json"]
        self.child = pexpect.spawn(
            sys.executable, command, env=dict(os.environ) | {"HEATBOOK_HOME": str(home)}, timeout=30, echo=False
        )

    def until(self, **wanted: object) -> dict[str, Any]:
        """Read on to the line that has these values."""
        while True:
            self.child.expect(r"(\{[^\r\n]*\})\r\n")
            record: dict[str, Any] = json.loads(self.child.match.group(1))
            if wanted.items() <= record.items():
                return record

    def begin(self, phase: str) -> float:
        """Say next, and read on until the phase has begun; its time."""
        self.until(event="phase", phase="ready")
        self.child.sendline("next")
        return float(self.until(event="phase", phase=phase)["at_seconds"])


Start = Callable[..., Sitting]


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Start]:
    """Begin a sitting in a home of that name: `start("soak", "plan.toml")`."""
    begun: list[Sitting] = []

    def begin(home: str, *arguments: str) -> Sitting:
        begun.append(Sitting(tmp_path / home, *arguments))
        return begun[-1]

    yield begin
    for one in begun:
        one.child.close(force=True)


@pytest.fixture
def probe() -> Iterator[str]:
    """A probe on a pseudo-terminal, on work at heat; the path of its port."""
    master, slave = os.openpty()
    tty.setraw(slave)
    enough = Event()

    def speak() -> None:
        while not enough.wait(0.1):
            os.write(master, b"905.0\r\n")

    speaker = Thread(target=speak)
    speaker.start()
    yield os.ttyname(slave)
    enough.set()
    speaker.join()
    os.close(master)
    os.close(slave)


@pytest.mark.parametrize("end", [signal.SIGSTOP, signal.SIGKILL])
def test_what_is_left_of_a_hold_is_right_after_a_break(
    start: Start, probe: str, tmp_path: Path, heatbook: Callable[..., Any], end: signal.Signals
) -> None:
    for name, text, seconds in (("oven", OVEN, HOLD), ("soak", SOAK, HOLD), ("meanwhile", OVEN, BREAK)):
        (tmp_path / f"{name}.toml").write_text(text % seconds)
    with_probe = ["--port", probe]
    sittings = {
        "oven": start("oven", str(tmp_path / "oven.toml")),
        "soak": start("soak", str(tmp_path / "soak.toml"), *with_probe),
    }
    meanwhile = start("meanwhile", str(tmp_path / "meanwhile.toml"))
    began, zero = {}, {}
    for phase, one in sittings.items():
        began[phase], zero[phase] = one.begin(phase), monotonic()
        os.kill(one.child.pid, end)
    meanwhile.begin("oven")
    meanwhile.until(event="call", call="time up")
    for phase, one in sittings.items():
        if end is signal.SIGSTOP:
            os.kill(one.child.pid, signal.SIGCONT)
        else:
            one.child.wait()
            sittings[phase] = start(phase, "--go-on", "last", *(with_probe if phase == "soak" else []))
    for phase, one in sittings.items():
        if end is signal.SIGKILL:
            assert one.until(event="phase")["phase"] == phase
        told = one.until(event="call", call=CALLS[phase])
        by_the_wall = monotonic() - zero[phase]
        # By its own clock and by the clock on the wall: they would differ by the break had its own stood still.
        assert told["at_seconds"] - began[phase] == pytest.approx(HOLD, abs=0.6)
        assert by_the_wall == pytest.approx(HOLD, abs=BREAK / 2)
        one.child.sendline("finish")
        one.until(event="put away", state="finished")
        shown = heatbook("log", "show", "last", "--json", HEATBOOK_HOME=str(tmp_path / phase))
        heat = json.loads(shown.stdout)["steps"][0]["heats"][0]
        assert HOLD - 0.6 <= heat[{"oven": "hold_seconds", "soak": "soak_seconds"}[phase]] <= by_the_wall + 1
