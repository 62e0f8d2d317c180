"""A hold goes on while the program does not: stopped as a machine that sleeps, or killed and gone on with.

Nothing is waited for but what programs print: how long the break lasts is told by a second sitting, in a home of its
own, whose shorter hold runs out meanwhile.
"""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import tty
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from threading import Event, Thread, Timer
from time import monotonic
from typing import Any

import pytest

from tests.listening.played.program import Program

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
ENDS = (signal.SIGSTOP, signal.SIGKILL)
CALLS = {"oven": "time up", "soak": "soak done"}


@dataclass(frozen=True, slots=True)
class Moment:
    """Something that happened in the program, by its clock, and by ours no sooner and no later than what we did."""

    at: float
    """Time on the sitting's own clock [s]."""
    earliest: float
    """Our clock before we said what it came of [s]."""
    latest: float
    """Our clock after we read that it had happened [s]."""


class Sitting:
    """The program without a screen, its lines read one by one."""

    def __init__(self, home: Path, *arguments: str) -> None:
        self.child = subprocess.Popen(
            [sys.executable, "-m", "tui.cli", "run", *arguments, "--no-screen", "--json"],
            env=os.environ | {"HEATBOOK_HOME": str(home)},
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            bufsize=1,
        )
        # What it never says is not waited for.
        self.given_up = Timer(60.0, self.child.kill)
        self.given_up.start()

    def until(self, **wanted: object) -> dict[str, Any]:
        """Read on to the line that has these values."""
        assert self.child.stdout is not None
        for line in self.child.stdout:
            record: dict[str, Any] = json.loads(line)
            if wanted.items() <= record.items():
                return record
        raise AssertionError(f"it ended without {wanted}")

    def begin(self, phase: str) -> Moment:
        """Say next, and read on until the phase has begun."""
        self.until(event="phase", phase="ready")
        return self.say("next", event="phase", phase=phase)

    def say(self, word: str, /, **wanted: object) -> Moment:
        """Say a word, and read on to the line that has these values."""
        earliest = monotonic()
        assert self.child.stdin is not None
        self.child.stdin.write(word + "\n")
        return Moment(float(self.until(**wanted)["at_seconds"]), earliest, monotonic())


Start = Callable[..., Sitting]


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Start]:
    """Begin a sitting in a home of that name: `start("soak", "plan.toml")`."""
    begun: list[Sitting] = []

    def begin(home: str, *arguments: str) -> Sitting:
        begun.append(Sitting(tmp_path / home / "home", *arguments))
        return begun[-1]

    yield begin
    for one in begun:
        one.given_up.cancel()
        one.child.kill()
        one.child.communicate()


@pytest.fixture
def probe() -> Iterator[Callable[[], str]]:
    """Plugs in a probe on a pseudo-terminal, on work at heat; gives the path of its port."""
    masters: list[int] = []
    slaves: list[int] = []
    enough = Event()

    def plug_in() -> str:
        master, slave = os.openpty()
        tty.setraw(slave)
        masters.append(master)
        slaves.append(slave)
        return os.ttyname(slave)

    def speak() -> None:
        while not enough.wait(0.1):
            for master in masters:
                os.write(master, b"905.0\r\n")

    speaker = Thread(target=speak)
    speaker.start()
    yield plug_in
    enough.set()
    speaker.join()
    for end in (*masters, *slaves):
        os.close(end)


@pytest.mark.slow
def test_what_is_left_of_a_hold_is_right_after_a_break(start: Start, probe: Callable[[], str], tmp_path: Path) -> None:
    """In the oven and in a soak, stopped and killed: all four side by side, so that they are waited for once."""
    for name, text, seconds in (("oven", OVEN, HOLD), ("soak", SOAK, HOLD), ("meanwhile", OVEN, BREAK)):
        (tmp_path / f"{name}.toml").write_text(text % seconds)
    with_probe = {end: ["--port", probe()] for end in ENDS}
    sittings = {}
    for end in ENDS:
        sittings["oven", end] = start(f"oven {end.name}", str(tmp_path / "oven.toml"))
        sittings["soak", end] = start(f"soak {end.name}", str(tmp_path / "soak.toml"), *with_probe[end])
    meanwhile = start("meanwhile", str(tmp_path / "meanwhile.toml"))
    began = {}
    for (phase, end), one in sittings.items():
        began[phase, end] = one.begin(phase)
        one.child.send_signal(end)
    meanwhile.begin("oven")
    meanwhile.until(event="call", call="time up")
    for (phase, end), one in sittings.items():
        if end is signal.SIGSTOP:
            one.child.send_signal(signal.SIGCONT)
        else:
            one.child.wait()
            more = with_probe[end] if phase == "soak" else []
            sittings[phase, end] = start(f"{phase} {end.name}", "--go-on", "last", *more)
    for (phase, end), one in sittings.items():
        if end is signal.SIGKILL:
            assert one.until(event="phase")["phase"] == phase
        told = one.until(event="call", call=CALLS[phase])
        assert told["at_seconds"] - began[phase, end].at == pytest.approx(HOLD, abs=0.6)
        assert monotonic() - began[phase, end].earliest >= HOLD - 0.6
    for (phase, end), one in sittings.items():
        start_of_it, finished = began[phase, end], one.say("finish", event="word", word="finish")
        # By its own clock and by the clock on the wall: they would differ by the break had its own stood still.
        shortest, longest = finished.earliest - start_of_it.latest, finished.latest - start_of_it.earliest
        assert shortest - BREAK / 2 <= finished.at - start_of_it.at <= longest + 0.6
        one.until(event="put away", state="finished")
        shown = Program(tmp_path / f"{phase} {end.name}").ask("log", "show", "last", "--json")
        heat = json.loads(shown)["steps"][0]["heats"][0]
        seconds = heat[{"oven": "hold_seconds", "soak": "soak_seconds"}[phase]]
        assert HOLD - 0.6 <= seconds <= longest + 0.6
