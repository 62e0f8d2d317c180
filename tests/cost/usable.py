"""From the start of the process until its screen can be used, beside a bare Textual app's first paint.

A screen can be used when all of it stands there and it has answered a key; what it paints before that does not count.
Two costs of each: time on the clock, and what the process took of the processors, which a busy machine changes less.
"""

from __future__ import annotations

import resource
import shutil
import sys
import time
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from plans.logbook import Logbook, LoggedSitting
from plans.reader import find_plan
from plans.sitting import Hands, Said, Word
from tests.cost.bare import BARE, WORD
from tests.cost.row import Row
from tests.terminal import Terminal, environment

MOST = 1.6
TURNS = 9
COLUMNS = 80
DOWN, RIGHT = "\x1b[B", "\x1b[C"


@dataclass(frozen=True, slots=True)
class Opening:
    """A screen that a command opens, and how one knows that it can be used."""

    what: str
    """What it is called."""
    command: tuple[str, ...]
    """What Python is started with."""
    whole: tuple[str, ...]
    """Texts from its top to its foot, by which it is whole."""
    key: str = ""
    """A key that no other screen answers as it does; none for a screen that is only painted."""
    answer: str = ""
    """What comes to the terminal after the key, and never before it."""
    rows: int = 24
    """Height of the terminal, which is 80 wide."""


_PROGRAM = ("-m", "tui.cli")
YARDSTICK = Opening("a bare Textual app, first paint", BARE, (WORD,))
OPENINGS = (
    Opening(
        "shelf",
        _PROGRAM,
        ("2 sittings in the log", "Go on with", "Normalize three heats", "left before its end", "reckoner", "help"),
        DOWN,
        "A bar of",
    ),
    Opening(
        "run PLAN",
        (*_PROGRAM, "run", "drawknife"),
        ("Before the first fire", "carbon monoxide", "read on", "leave"),
        DOWN,
        "Side-shielded glasses",
    ),
    Opening(
        "demo",
        (*_PROGRAM, "demo"),
        ("A rehearsal", "Nothing here is hot", "apart from your log", "begin"),
        DOWN,
        "begins with its cautions",
        rows=18,  # so that there is something to scroll to
    ),
    Opening(
        "log",
        (*_PROGRAM, "log"),
        ("2 sittings", "unfinished", "open", "help"),
        DOWN,
        "go on",
    ),
    Opening(
        "reckoner",
        (*_PROGRAM, "reckon"),
        ("thermocouple", "its corner after", "middle then", "questions", "back"),
        RIGHT,
        "How long a bar lies",
    ),
)


def rows() -> Iterator[Row]:
    """Each screen that a command opens: how long it takes, and what of the processors."""
    with TemporaryDirectory() as folder:
        place = Path(folder)
        kept = place / "kept"
        keep_two(kept)
        here = environment(PYTHONPYCACHEPREFIX=str(place / "compiled"))
        costs: dict[str, list[tuple[float, float]]] = {opening.what: [] for opening in (*OPENINGS, YARDSTICK)}
        for turn in range(1 + TURNS):
            for opening in (*OPENINGS, YARDSTICK):
                home = place / "home"
                shutil.copytree(kept, home)
                cost = used(opening, here | {"HEATBOOK_HOME": str(home)})
                shutil.rmtree(home)
                if turn:  # the first compiles what is not compiled yet
                    costs[opening.what].append(cost)
    for kind, name in enumerate(("usable", "usable, processor")):
        theirs = median(cost[kind] for cost in costs[YARDSTICK.what])
        for opening in OPENINGS:
            ours = median(cost[kind] for cost in costs[opening.what])
            yield Row(f"{name}: {opening.what}", ours, YARDSTICK.what, theirs, MOST)


def keep_two(home: Path) -> None:
    """Settings as they ship, and a logbook with a finished sitting and before it an unfinished one."""
    home.mkdir()
    (home / "heatbook.toml").touch()
    book = Logbook(home / "logbook")
    for day, words in ((1, (Word.NEXT, Word.NEXT)), (2, (Word.NEXT, Word.FINISH))):
        logged = LoggedSitting.begin(
            book, find_plan("normalize", None), datetime(2026, 11, day, 9, tzinfo=UTC), None, Hands()
        )
        for at, word in enumerate(words):
            logged.take(Said(60.0 * at, word))
        logged.put_away()
    book.summaries()
    book.close()


def used(opening: Opening, here: dict[str, str]) -> tuple[float, float]:
    """Start a program, wait until it can be used, and kill it.

    Returns:
        how long that took, and what the program took of the processors until then [s]

    Raises:
        TimeoutError: it never could.
    """
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    began = time.perf_counter()
    with closing(Terminal([sys.executable, *opening.command], (COLUMNS, opening.rows), here, False)) as terminal:
        wait_for(terminal, opening)
        took = time.perf_counter() - began
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return took, after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime


def wait_for(terminal: Terminal, opening: Opening) -> None:
    """Wait until a screen can be used.

    Raises:
        TimeoutError: it never could.
        EOFError: the program has gone.
    """
    terminal.painted(*opening.whole)
    if opening.key:
        terminal.press(opening.key)
        terminal.painted(opening.answer)
