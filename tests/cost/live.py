"""What the live screen costs while a probe speaks, and how late it shows what the probe said, beside a bare app."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from math import exp, inf, sin
from pathlib import Path
from tempfile import TemporaryDirectory

from plans.logbook import Logbook, LoggedSitting
from plans.reader import read_plan_file
from plans.reading import ProbeOn, Reading
from plans.sitting import Hands, HandsFree, Said, Word
from tests.cost.row import Row
from tests.cost.wired import Wired, wired

PLAN = Path(__file__).with_name("live.toml")
SIZES = ((80, 24), (200, 55))
ICE = 273.15
HEATS = ((1.0, 300.0), (335.0, 600.0), (635.0, inf))
"""When the bar went into the fire, and out of it [s]."""
SETTLING, MEASURED = 3.0, 10.0
"""How long the probe speaks before it is measured, and while it is [s]."""
BARE = """
import sys
from threading import Thread

from textual.app import App
from textual.widgets import Static

class Bare(App):
    def compose(self):
        yield Static("bare app")

    def on_mount(self):
        Thread(target=self.listen, daemon=True).start()

    def listen(self):
        with open(sys.argv[1], "rb", buffering=0) as port:
            while True:
                line = port.readline()
                self.call_from_thread(self.query_one(Static).update, f"{float(line):.0f} skin")

Bare().run()
"""


@dataclass(frozen=True, slots=True)
class Share:
    """What a program took of a core, and wrote."""

    processor: float
    """Seconds of processor in a second."""
    bytes: float
    """Bytes written to the terminal in a second."""


def share(program: Wired, celsius: float, slope: float, hertz: float = 10.0) -> Share:
    """What it takes while the probe speaks, changing from a temperature on by `slope` in a second."""
    for _ in program.play(hertz, SETTLING, lambda _: celsius):
        pass
    before = program.processor
    written = sum(
        len(piece) for _, piece in program.play(hertz, MEASURED, lambda at: celsius + slope * at + 2 * sin(97 * at))
    )
    return Share((program.processor - before) / MEASURED, written / MEASURED)


def begun(folder: Path) -> None:
    """A quarter of an hour of a sitting, a reading ten times a second, with two heats and in the fire for the third."""
    book = Logbook(folder / "logbook")
    left = HEATS[-1][0] + 300.0
    logged = LoggedSitting.begin(
        book,
        read_plan_file(PLAN),
        datetime.now().astimezone() - timedelta(seconds=left),
        ProbeOn.WORK,
        Hands(HandsFree.NEVER),
    )
    logged.take(Said(0.0, Word.ACKNOWLEDGE))
    words = iter(
        [*((at, word) for heat in HEATS for at, word in zip(heat, (Word.IN, Word.OUT), strict=False)), (inf, Word.NOTE)]
    )
    at, word = next(words)
    for tenth in range(int(10 * left)):
        now = tenth / 10
        while at <= now:
            logged.take(Said(at, word))
            at, word = next(words)
        logged.take(Reading(now, ICE + temperature(now)))
    logged.put_away()
    book.close()


def temperature(at: float) -> float:
    """How warm the bar is by then [degC]."""
    into, out = max((heat for heat in HEATS if heat[0] <= at), default=HEATS[0])
    noise = 2 * sin(97 * at)
    return noise + (
        1180 - (1160 if into == HEATS[0][0] else 330) * exp(-max(0.0, at - into) / 70)
        if at < out
        else 1180 - 8 * (at - out)
    )


@contextmanager
def sitting(size: tuple[int, int], folder: Path) -> Iterator[Wired]:
    """A sitting that has run for a quarter of an hour, gone on with, in the fire."""
    begun(folder)

    def command(port: str) -> list[str]:
        return [sys.executable, "-m", "tui.cli", "run", "--go-on", "last", "--port", port, "--hands-free", "never"]

    with wired(command, size, environment(folder)) as program:
        program.shown("heat 3 of 4")
        yield program


def environment(folder):
    return os.environ | {"TERM": "xterm-256color", "COLORTERM": "truecolor", "HEATBOOK_HOME": str(folder)}


@contextmanager
def bare(size: tuple[int, int], environment: dict[str, str]) -> Iterator[Wired]:
    """The bare app, once it is there."""
    with wired(lambda port: [sys.executable, "-c", BARE, port], size, environment) as program:
        program.shown("bare app")
        yield program


def rows() -> Iterator[Row]:
    """Shares of a core."""
    with TemporaryDirectory() as folder:
        environment = os.environ | {"TERM": "xterm-256color", "COLORTERM": "truecolor"}
        environment |= {"HEATBOOK_HOME": f"{folder}/home"}
        for size in SIZES:
            with sitting(size, environment) as program, bare(size, environment) as yardstick:
                program.press(" ")
                fire = share(program, 900.0, 10.0)
                program.press("o")
                strike = share(program, 1150.0, -8.0)
                theirs = share(yardstick, 900.0, 10.0)
            print(size, fire, strike, theirs)
        yield from ()
