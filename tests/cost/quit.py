"""From the key that leaves at once to the end of the process, its terminal restored, beside a bare Textual app."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

from tests.cost.bare import BARE, LEAVE, WORD
from tests.cost.row import Row, by_turns
from tests.listening.played.cells import WELD
from tests.listening.played.program import Program
from tests.terminal import Terminal, environment

MOST = 1.0
TURNS = 5
SMALL, LARGE = (80, 24), (200, 55)


@dataclass(frozen=True, slots=True)
class Place:
    """A screen, and the way there."""

    what: str
    """What it is called."""
    command: tuple[str, ...]
    """What Python is started with."""
    way: tuple[tuple[str, str], ...]
    """What is to be seen, and what is pressed then."""
    size: tuple[int, int] = SMALL
    """Width and height of the terminal."""
    cautions: bool = False
    """Whether the cautions stand before it."""


_PROGRAM = ("-m", "tui.cli")
_RUN = (*_PROGRAM, "run", "drawknife")
_LOG = (*_PROGRAM, "log")
PLACES = (
    Place("shelf", _PROGRAM, (("Drawknife with a laid steel edge", ""),)),
    Place("help", _PROGRAM, (("Drawknife with a laid steel edge", "?"), ("?  close", ""))),
    Place("cautions", _RUN, (("read on", ""),)),
    Place("live", _RUN, (("done, next step", ""),), cautions=True),
    Place("live, 200x55", _RUN, (("done, next step", ""),), LARGE, cautions=True),
    Place("demo", (*_PROGRAM, "demo"), (("Nothing here is hot", ""),)),
    Place("log", _LOG, (("Weld heats", ""),)),
    Place("review", _LOG, (("Weld heats", "\r"), ("reading line", ""))),
    Place("reckoner", (*_PROGRAM, "reckon"), (("thermocouple", ""),)),
)


def rows() -> Iterator[Row]:
    """Each screen, left at once."""
    with TemporaryDirectory() as folder:
        kept = Path(folder) / "kept"
        kept.mkdir()
        Program(kept).play(WELD % 12.0, [(0.0, 20.0, "next"), (60.0, 1250.0, ""), (90.0, 1100.0, "")])
        (kept / "home" / "heatbook.toml").touch()  # or the first start asks its questions
        for place in PLACES:
            bare = Place("a bare Textual app", BARE, ((WORD, ""),), place.size)
            ours, theirs = (partial(_timed, one, kept / "home") for one in (place, bare))
            ours(0)  # compiles what is not compiled yet
            cost, yardstick = by_turns(TURNS, ours, theirs)
            yield Row(f"quit: {place.what}", cost, bare.what, yardstick, MOST)


def _timed(place: Place, kept: Path, turn: int) -> float:
    """In a copy of the home that was kept, so that no sitting that was left before is in the way.

    Raises:
        TimeoutError: the screen never came.
        AssertionError: the terminal was left otherwise than it was.
    """
    home = kept.with_name(f"turn{turn}")
    shutil.copytree(kept, home)
    here = environment(HEATBOOK_HOME=str(home), PYTHONPYCACHEPREFIX=str(kept.with_name("compiled")))
    terminal = Terminal([sys.executable, *place.command], place.size, here)
    try:
        if place.cautions:
            terminal.read_cautions()
        for seen, pressed in place.way:
            terminal.until(seen)
            terminal.press(pressed)
        start = perf_counter()
        terminal.press(LEAVE)
        terminal.end()
        took = perf_counter() - start
        terminal.assert_restored()
    finally:
        terminal.close()
        shutil.rmtree(home)
    return took
