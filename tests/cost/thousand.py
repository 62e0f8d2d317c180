"""What 1,000 sittings of two hours at 1 Hz cost, on the screen and at the command line, beside a logbook of 10.

Each figure stands beside the same of the logbook of 10, and beside a yardstick that is named. A command's cost is what
its process took of the processors, the screen's is time on the clock; memory is the most that a process held.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory, gettempdir
from time import perf_counter

from tests.cost.row import Row
from tests.cost.sat import home_of
from tests.cost.usable import YARDSTICK, used
from tests.terminal import Terminal, environment

FEW, SOME, MANY = 10, 100, 1000
KEPT = Path(gettempdir()) / "heatbook-sittings"
"""Where the logbooks are kept for the next time."""
_PROGRAM = ("-m", "tui.cli")
_SIZE = (100, 30)
_TYPED = "drawknife"
_TURNS = 5
_QUIET = 0.3
"""What is not written by then does not belong to a key any more [s]."""
_LOADS = "import json, sys; [json.loads(open(path).read()) for path in sys.argv[1:]]"
_LOADS_ALL = (
    "import json, sys; from pathlib import Path; [json.loads(p.read_bytes()) for p in Path(sys.argv[1]).iterdir()]"
)


@dataclass(frozen=True, slots=True)
class Cost:
    """What a program took."""

    seconds: float
    """Time [s]."""
    megabytes: float
    """The most memory that it held [MB]."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A command, and what it is held against."""

    what: str
    """What it does."""
    arguments: tuple[str, ...]
    """The command; `FIRST` and `SEVENTH` are sittings of one plan, `ARCHIVE` is where one is written and read."""
    yardstick: str
    """What the other does."""
    theirs: tuple[str, ...]
    """What Python is started with; with the same words, and `INDEX`, `LESSONS`, `ALL`."""
    bars: tuple[float, float]
    """The highest ratios that pass: to the same of 1,000 in a logbook of 10, and to the yardstick."""


COMMANDS = (
    Asked(
        "list --where 'peak > 1300 degC'",
        ("log", "list", "--where", "peak > 1300 degC"),
        "json.loads of its index",
        ("-c", _LOADS, "INDEX"),
        (3, 8),
    ),
    Asked("one sitting shown", ("log", "show", "FIRST"), "json.loads of it", ("-c", _LOADS, "FIRST.json"), (1.5, 30)),
    Asked(
        "two compared",
        ("log", "compare", "FIRST", "SEVENTH", "--from", "fire"),
        "json.loads of both",
        ("-c", _LOADS, "FIRST.json", "SEVENTH.json"),
        (1.5, 30),
    ),
    Asked("trends", ("log", "trends"), "json.loads of all", ("-c", _LOADS_ALL, "ALL"), (5, 1.5)),
    Asked("what all teach", ("log", "taught"), "json.loads of its index", ("-c", _LOADS, "INDEX"), (3, 15)),
    *(
        Asked(
            f"one exported, {form}",
            ("log", "export", "FIRST", "--to", form),
            "json.loads of it",
            ("-c", _LOADS, "FIRST.json"),
            (1.5, 35),
        )
        for form in ("csv", "json", "html")
    ),
    Asked(
        "lessons for each step of a plan",
        ("log", "lesson", "list", "--plan", "drawknife"),
        "json.loads of all lessons",
        ("-c", _LOADS, "LESSONS"),
        (3, 20),
    ),
    Asked(
        "packed",
        ("log", "pack", "ARCHIVE"),
        "python -m zipfile -c",
        ("-m", "zipfile", "-c", "ARCHIVE", "ALL"),
        (40, 1.5),
    ),
    Asked("unpacked", ("log", "unpack", "ARCHIVE"), "json.loads of all", ("-c", _LOADS_ALL, "ALL"), (120, 12)),
)


def rows(many: int = SOME) -> Iterator[Row]:
    """The screen, each command, and the memory of each."""
    with TemporaryDirectory() as folder:
        place = Path(folder)
        homes = [shutil.copytree(home_of(KEPT, count), place / str(count)) for count in (many, FEW)]
        yield from _on_screen(homes, many)
        for asked in COMMANDS:
            yield from _asked(asked, homes, many, place)


def whole() -> Iterator[Row]:
    """The same of 1,000 sittings in place of 100; they are made in three minutes the first time."""
    return rows(MANY)


def _rows(what: str, many: int, ours: Sequence[Cost], few: Sequence[Cost], bar: float) -> Iterator[Row]:
    of_many = f"{what}, {many:,} sittings"
    yield Row(of_many, _seconds(ours), f"the same, {FEW}", _seconds(few), bar)
    held = [median(cost.megabytes for cost in costs) for costs in (ours, few)]
    yield Row(f"{of_many}, memory", held[0], f"the same, {FEW}", held[1], 2.0, "MB")


def _seconds(costs: Sequence[Cost]) -> float:
    return median(cost.seconds for cost in costs)


def _on_screen(homes: list[Path], many: int) -> Iterator[Row]:
    here = environment()
    used(YARDSTICK, here)  # compiles what is not compiled yet
    turns, bare = [], []
    for _ in range(_TURNS):
        turns.append([_looked(home) for home in homes])
        bare.append(used(YARDSTICK, here)[0])
    # A letter paints a screen, however few sittings there are, so all three are held against painting one.
    bars = ((2.0, 2.0), (12.0, 0.5), (2.0, 2.0))
    for number, what in enumerate(("the log, until its list stands", "a letter of a search", "a review opened")):
        ours, few = ([turn[side][number] for turn in turns] for side in (0, 1))
        beside, bar = bars[number]
        yield from _rows(what, many, ours, few, beside)
        yield Row(f"{what}, {many:,} sittings", _seconds(ours), YARDSTICK.what, median(bare), bar)


def _looked(home: Path) -> list[Cost]:
    """What the log cost until its list stood there, the slowest letter of a search, and a review."""
    began = perf_counter()
    command = [sys.executable, *_PROGRAM, "log"]
    with closing(Terminal(command, _SIZE, environment(HEATBOOK_HOME=str(home)), False)) as terminal:
        terminal.until("sittings", "open", "help")
        costs = [Cost(perf_counter() - began, _most_held(terminal.pid))]
        _settled(terminal)
        terminal.press("/")
        _settled(terminal)
        letters = [_pressed(terminal, letter) for letter in _TYPED]
        costs.append(Cost(max(letters), _most_held(terminal.pid)))
        began = perf_counter()
        terminal.press("\r")
        terminal.until("reading line")
        costs.append(Cost(perf_counter() - began, _most_held(terminal.pid)))
    return costs


def _pressed(terminal: Terminal, key: str) -> float:
    """From a key to the last of what it had written [s]."""
    began = perf_counter()
    terminal.press(key)
    return _settled(terminal) - began


def _settled(terminal: Terminal) -> float:
    """When the program had written the last of what it had to say."""
    last = perf_counter()
    while terminal.read(_QUIET):
        last = perf_counter()
    return last


def _most_held(pid: int) -> float:
    """The most memory that a process has held so far [MB]."""
    lines = Path(f"/proc/{pid}/status").read_text().splitlines()
    held = next(line for line in lines if line.startswith("VmHWM"))
    return int(held.split()[1]) * 1024 / 1e6


def _asked(asked: Asked, homes: list[Path], many: int, place: Path) -> Iterator[Row]:
    turns = 1 if asked.what in ("packed", "unpacked") else _TURNS
    rounds = []
    for turn in range(turns):
        costs = [_run([*_PROGRAM, *_words(asked.arguments, home, place)], _home(asked, home, place)) for home in homes]
        costs.append(_run(_words(asked.theirs, homes[0], place / f"{turn}"), homes[0]))
        rounds.append(costs)
    ours, few, theirs = zip(*rounds, strict=True)
    yield from _rows(asked.what, many, ours, few, asked.bars[0])
    yield Row(f"{asked.what}, {many:,} sittings", _seconds(ours), asked.yardstick, _seconds(theirs), asked.bars[1])


def _home(asked: Asked, home: Path, place: Path) -> Path:
    return place / f"empty{home.name}" if asked.what == "unpacked" else home


def _words(words: tuple[str, ...], home: Path, place: Path) -> list[str]:
    """The words of a command, each name in its place."""
    logbook = home / "logbook"
    sittings = logbook / "sittings"
    names = sorted(path.stem for path in sittings.iterdir())
    first, seventh = names[0], names[6]
    archive = f"{place}-{home.name}.zip"
    known = {
        "FIRST": first,
        "SEVENTH": seventh,
        "FIRST.json": str(sittings / f"{first}.json"),
        "SEVENTH.json": str(sittings / f"{seventh}.json"),
        "INDEX": str(logbook / "index.json"),
        "LESSONS": str(logbook / "lessons.json"),
        "ALL": str(sittings),
        "ARCHIVE": archive,
    }
    return [known.get(word, word) for word in words]


_RUN = """
import resource, subprocess, sys
subprocess.run([sys.executable, *sys.argv[1:]], stdout=subprocess.DEVNULL, check=True)
taken = resource.getrusage(resource.RUSAGE_CHILDREN)
print(taken.ru_utime + taken.ru_stime, taken.ru_maxrss * 1024 / 1e6)
"""
"""Runs a program from a small one: what is started counts the memory of what started it as its own."""


def _run(arguments: list[str], home: Path) -> Cost:
    """What a program took of the processors, and held; it must not fail."""
    here = os.environ | {"HEATBOOK_HOME": str(home)}
    done = subprocess.run(
        [sys.executable, "-c", _RUN, *arguments], check=True, capture_output=True, text=True, env=here
    )
    return Cost(*map(float, done.stdout.split()))
