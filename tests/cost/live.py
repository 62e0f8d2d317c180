"""What the live screen costs while a probe speaks, and how late it shows what the probe said, beside a bare app."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import datetime, timedelta
from math import ceil, exp, inf, sin
from pathlib import Path
from tempfile import TemporaryDirectory
from time import monotonic

from plans.logbook.book import Logbook
from plans.logbook.logged_sitting import LoggedSitting
from plans.reader import read_plan_file
from plans.reading import ProbeOn, Reading
from plans.sitting.events import Said, Word
from plans.sitting.hands import Hands, HandsFree
from plans.sitting.senses import Probe
from tests.cost.row import Row
from tests.cost.wired import Wired, play, wired

PLAN = Path(__file__).with_name("live.toml")
ICE = 273.15
BARS = {(80, 24): 2.5, (200, 55): 4.0}
"""By the size of the terminal; where the bare app takes 2 % of a core, these are 5 % and 8 %."""
HERTZ = 10.0
SETTLING, MEASURED = 3.0, 10.0
"""How long a probe speaks before what it costs is measured, and while it is [s]."""
HELD, TIMED = 6.0, 15.0
"""How long what it says stays the same, and then falls, for how late that is shown [s]."""
HEATS = ((1.0, 300.0), (335.0, 600.0), (635.0, inf))
"""When the bar went into the fire, and out of it [s]."""
BEFORE = 935.0
"""How long the sitting has run before it is measured: its trace is full [s]."""
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
"""A line that is written anew with every reading."""
_SHOWN = re.compile(rb"(\d+) skin")
_MORE = re.compile(rb"\d+ heats more")
_WORDS = 8
"""So many words are said to see how late each is shown."""


def rows() -> Iterator[Row]:
    """Shares of a core and bytes by size, a rehearsal, and how late readings and words are shown."""
    for size, bar in BARS.items():
        with TemporaryDirectory() as folder, sitting(size, Path(folder)) as ours, bare(size) as yardstick:
            yield from _shares(ours, yardstick, f"{size[0]}x{size[1]}", bar)
    size = (80, 24)
    with TemporaryDirectory() as folder, rehearsal(size, Path(folder)) as ours, bare(size) as yardstick:
        what = "processor in 1 s, a rehearsal at 10 x, 80x24"
        took, theirs = (share for share, _ in measured((ours, yardstick), lambda _: 900.0))
        yield Row(what, took, "a bare app, a line 10 times a second", theirs, 6.0)
    with TemporaryDirectory() as folder, sitting(size, Path(folder)) as ours, bare(size) as yardstick:
        yield from _lateness(ours, yardstick)


def _shares(ours: Wired, yardstick: Wired, size: str, bar: float) -> Iterator[Row]:
    fire = measured((ours, yardstick), lambda at: 1000 + 5 * at + _noise(at))
    ours.press("o")
    strike = measured((ours, yardstick), lambda at: 1150 - 8 * at + _noise(at))
    for where, ((took, written), (theirs, their_bytes)) in {"in the fire": fire, "struck": strike}.items():
        bare_app = "a bare app, a line 10 times a second"
        yield Row(f"processor in 1 s, live screen {size}, {where}", took, bare_app, theirs, bar)
        megabytes, their_megabytes = 60 * written / 1e6, 60 * their_bytes / 1e6
        yield Row(f"written in 1 min, live screen {size}, {where}", megabytes, bare_app, their_megabytes, 30.0, "MB")


def measured(programs: Sequence[Wired], celsius: Callable[[float], float]) -> list[tuple[float, float]]:
    """What each program takes of a core, and the bytes that it writes in a second, while its probe speaks."""
    for _ in play(programs, HERTZ, SETTLING, lambda _: celsius(0.0)):
        pass
    before = [program.processor() for program in programs]
    written = {id(program): 0 for program in programs}
    for _, program, piece in play(programs, HERTZ, MEASURED, celsius):
        written[id(program)] += len(piece)
    return [
        ((program.processor() - used) / MEASURED, written[id(program)] / MEASURED)
        for program, used in zip(programs, before, strict=True)
    ]


def _lateness(ours: Wired, yardstick: Wired) -> Iterator[Row]:
    ours.press("o")
    words = sorted(_word_shown(ours) for _ in range(_WORDS))
    # The latest of a few waits for whatever else the machine does.
    for what, took, bar in (("the middle", words[_WORDS // 2], 1.0), ("the latest", words[-1], 3.0)):
        yield Row(f"a word, from its key to the screen, {what} of {_WORDS}", took, "100 ms", 0.1, bar)
    warm = 1180.0
    for hertz in (1.0, 10.0, 100.0):
        late = wire_to_screen(ours, yardstick, hertz, warm)
        warm -= 4 * TIMED + 10
        for share, bar in ((0.5, 1.0), (0.99, 2.0)):
            mine, theirs = (sorted(one)[ceil(share * len(one)) - 1] for one in late)
            what = f"wire to screen, {share:.0%} of readings, {hertz:g} Hz"
            yield Row(f"{what} (the bare app: {theirs * 1000:.0f} ms)", mine, "a quarter of a second", 0.25, bar)


def wire_to_screen(ours: Wired, yardstick: Wired, hertz: float, start: float) -> tuple[list[float], list[float]]:
    """How late each change of the figure is shown, by us and by the bare app, while a temperature falls [s].

    What we show is the median of the last second, smoothed, which is late by design: it counts from the reading that
    brought it about.
    """
    probe = Probe()
    pushed: list[tuple[float, float, float]] = []
    seen: dict[int, list[tuple[float, float]]] = {id(ours): [], id(yardstick): []}

    def falling(at: float) -> float:
        # It holds still until what was before is forgotten.
        celsius = start - 4 * max(0.0, at - HELD)
        probe.hear(at, celsius + ICE)
        # Surely past the half, so that no reading sooner or later than here brings it about there.
        shown = inf if probe.smooth is None else round(probe.smooth - ICE + 0.1)
        pushed.append((monotonic(), shown, round(celsius)))
        return celsius

    tails = {id(ours): b"", id(yardstick): b""}
    for at, program, piece in play((ours, yardstick), hertz, HELD + TIMED, falling):
        text = tails[id(program)] + piece
        seen[id(program)] += [(at, float(found[1])) for found in _SHOWN.finditer(text)]
        tails[id(program)] = text[-12:]
    return (
        _delays([(at, ours_is) for at, ours_is, _ in pushed], seen[id(ours)]),
        _delays([(at, theirs_is) for at, _, theirs_is in pushed], seen[id(yardstick)]),
    )


def _delays(pushed: Sequence[tuple[float, float]], seen: Sequence[tuple[float, float]]) -> list[float]:
    """From when a falling figure was first due to when it, or a later one, was shown [s]."""
    delays, before = [], inf
    for due, figure in pushed:
        if figure < before < inf:
            shown = next((at for at, value in seen if value <= figure), None)
            delays += [] if shown is None else [max(0.0, shown - due)]
        before = figure
    return delays


def _word_shown(program: Wired) -> float:
    """From the press of a key to one heat more on the screen; five seconds where it is lost [s]."""
    for _ in play((program,), HERTZ, 1.5, lambda _: 1150.0):
        pass
    pressed, text = monotonic(), b""
    program.press("r")
    for at, _, piece in play((program,), HERTZ, 5.0, lambda _: 1150.0):
        text += piece
        if _MORE.search(text):
            return at - pressed
    return 5.0


def _noise(at: float) -> float:
    return 2 * sin(97 * at)


def begun(folder: Path) -> None:
    """The quarter of an hour before: a reading ten times a second, two heats, and in the fire for the third."""
    book = Logbook(folder / "logbook")
    started = datetime.now().astimezone() - timedelta(seconds=BEFORE)
    logged = LoggedSitting.begin(book, read_plan_file(PLAN), started, ProbeOn.WORK, Hands(HandsFree.NEVER))
    logged.take(Said(0.0, Word.ACKNOWLEDGE))
    words = [(at, word) for heat in HEATS for at, word in zip(heat, (Word.IN, Word.OUT), strict=True) if at < BEFORE]
    for tenth in range(int(HERTZ * BEFORE)):
        now = tenth / HERTZ
        while words and words[0][0] <= now:
            logged.take(Said(*words.pop(0)))
        logged.take(Reading(now, ICE + _celsius(now)))
    logged.put_away()
    book.close()


def _celsius(at: float) -> float:
    """How warm the bar was by then."""
    into, out = max((heat for heat in HEATS if heat[0] <= at), default=HEATS[0])
    if at >= out:
        return 1180 - 8 * (at - out) + _noise(at)
    missing = 1160 if into == HEATS[0][0] else 330
    return 1180 - missing * exp(-max(0.0, at - into) / 70) + _noise(at)


@contextmanager
def sitting(size: tuple[int, int], folder: Path) -> Iterator[Wired]:
    """A sitting that has run for a quarter of an hour and is gone on with, in the fire."""
    begun(folder)

    def command(port: str) -> list[str]:
        return [sys.executable, "-m", "tui.cli", "run", "--go-on", "last", "--port", port, "--hands-free", "never"]

    with wired(command, size, environment(folder)) as program:
        program.until("yellow")
        yield program


@contextmanager
def rehearsal(size: tuple[int, int], folder: Path) -> Iterator[Wired]:
    """A rehearsal, past what stands before it."""
    command = [sys.executable, "-m", "tui.cli", "demo", "--speed", "10"]
    with wired(lambda _: command, size, environment(folder)) as program:
        program.until("Nothing here is hot")
        program.press(" ")
        program.until(gone="Nothing here is hot")
        yield program


@contextmanager
def bare(size: tuple[int, int]) -> Iterator[Wired]:
    """The bare app, once it is there."""
    with wired(lambda port: [sys.executable, "-c", BARE, port], size, environment(Path())) as program:
        program.until("bare app")
        yield program


def environment(folder: Path) -> Mapping[str, str]:
    """That of a program: a terminal of many colours, and nothing kept but in the folder."""
    more = {"TERM": "xterm-256color", "COLORTERM": "truecolor", "HEATBOOK_HOME": str(folder)}
    return {name: value for name, value in os.environ.items() if name != "NO_COLOR"} | more
