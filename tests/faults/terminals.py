"""Terminals that go, fall silent or are held up, at every screen: the program ends when it must, with its log whole."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
import tty
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from plans.logbook import Logbook
from plans.logbook.disk.lock import Lock
from plans.sitting import Said
from tests.speaking import speaking
from tests.terminal import PATIENCE, Terminal, environment

SOON = 2.0
"""The program must have ended by then [s]."""
_SILENCE = 3.0
"""How long a terminal is silent before the program is told to end [s]."""
_SHARE = 0.3
"""Of a processor, at most, while nobody reads the screen: what redraws it takes, and nothing that spins."""


@dataclass(frozen=True, slots=True)
class Place:
    """A screen, and how to come there."""

    name: str
    words: tuple[str, ...]
    """The command."""
    way: tuple[tuple[str, str], ...]
    """What is to be seen, and the keys that are pressed then."""
    running: bool = False
    """Whether a sitting runs there, with a probe that speaks, once its cautions have been read."""
    on: tuple[str, str] | None = None
    """The key that leads on from there, and what is to be seen then."""
    fresh: bool = False
    """Whether it comes before anything was ever set."""


_LIVE = ("run", "drawknife", "--port")
_ANEW = (("Go on with it?", "a"),)
"""The log has a sitting of this plan that was left."""
PLACES = (
    Place("first start", (), (("first start", ""),), fresh=True),
    Place("shelf", (), (("Drawknife with a laid steel edge", ""),)),
    Place("help", (), (("Drawknife with a laid steel edge", "?"), ("?  close", ""))),
    Place("cautions", ("run", "drawknife"), (*_ANEW, ("read on", ""))),
    Place("live", _LIVE, _ANEW, running=True),
    Place("far view", _LIVE, _ANEW, running=True, on=("f", "fingers off")),
    Place("step sheet", _LIVE, _ANEW, running=True, on=("c", "back to the sitting")),
    Place("note", _LIVE, _ANEW, running=True, on=("n", "enter keeps it")),
    Place("leaving", _LIVE, _ANEW, running=True, on=("q", "to be gone on with later")),
    Place("before a rehearsal", ("demo",), (("Nothing here is hot", ""),)),
    Place("rehearsal", ("demo",), (("Nothing here is hot", " "), ("m mute", ""))),
    Place("log", ("log",), (("search   N name", ""),)),
    Place("review", ("log",), (("search   N name", "\r"), ("reading line", ""))),
    Place("reckoner", ("reckon",), (("skin cooled after", ""),)),
)


def _fill(terminal: Terminal) -> None:
    """Have it draw more than the terminal takes while nobody reads."""
    for size in ((200, 55), (198, 55)) * 6:
        terminal.resize(*size)
        time.sleep(0.1)


@dataclass(frozen=True, slots=True)
class Ending:
    """How a terminal ends."""

    name: str
    controlling: bool
    """Whether it is the one that controls the program."""
    silent: Callable[[Terminal], None] | None
    """What makes it fall silent first."""
    end: Callable[[Terminal], None]
    """What ends it, or the program."""
    status: tuple[int, ...] = (0, 1)
    """Which the program may end with."""


def _told(number: int) -> Callable[[Terminal], None]:
    return lambda terminal: os.kill(terminal.process.pid, number)


ENDINGS = (
    Ending("closed", True, None, Terminal.hang_up),
    Ending("closed without a signal", False, None, Terminal.hang_up),
    Ending("not read, then closed without a signal", False, _fill, Terminal.hang_up),
    Ending("not read, then SIGTERM", True, _fill, _told(signal.SIGTERM)),
    Ending("not read, then SIGHUP", True, _fill, _told(signal.SIGHUP)),
    Ending("held by flow control, then SIGTERM", True, Terminal.hold, _told(signal.SIGTERM)),
    Ending("held by flow control, then SIGINT", False, Terminal.hold, _told(signal.SIGINT)),
)


def endings(folder: Path, place: Place) -> Iterator[str | None]:
    """Every ending at one screen.

    Args:
        folder: an empty one
        place: the screen

    Yields:
        For each ending what was wrong, or None.
    """
    for number, ending in enumerate(ENDINGS):
        try:
            wrong = _ended_by(folder / str(number), place, ending)
        except (TimeoutError, EOFError) as error:
            wrong = [str(error)]
        yield f"{ending.name}: {'; '.join(wrong)}" if wrong else None


def _ended_by(home: Path, place: Place, ending: Ending) -> list[str]:
    """Open the program at a screen, let its terminal end in one way, and tell what is wrong with what is left."""
    _prepare(home, place.fresh)
    with ExitStack() as stack:
        words = place.words
        if place.running:
            probe, port = os.openpty()
            tty.setraw(port)
            stack.callback(os.close, port)
            stack.callback(os.close, probe)
            stack.enter_context(speaking(probe, b"801.5\r\n"))
            words = (*words, os.ttyname(port))
        command = [sys.executable, "-m", "tui.cli", *words]
        terminal = Terminal(command, environment=environment(HEATBOOK_HOME=str(home)), controlling=ending.controlling)
        stack.callback(terminal.close)
        for text, keys in place.way:
            terminal.until(text)
            terminal.press(keys)
        if place.running:
            _acknowledge(home, terminal)
        if place.on is not None:
            key, shown = place.on
            terminal.press_anew(key)
            terminal.until(shown)
        return _end(home, place, ending, terminal)


def _end(home: Path, place: Place, ending: Ending, terminal: Terminal) -> list[str]:
    wrong: list[str] = []
    share = 0.0
    if ending.silent is not None:
        ending.silent(terminal)
        grown, used = _grown(home), terminal.processor()
        time.sleep(_SILENCE)
        share = (terminal.processor() - used) / _SILENCE
        if terminal.process.poll() is not None:
            wrong.append("it ended while the terminal was silent")
        if place.running and _grown(home) <= grown:
            wrong.append("its log did not grow while the terminal was silent")
    at = time.monotonic()
    ending.end(terminal)
    seconds, used = None, 0.0
    try:
        if ending.silent is None:
            used = terminal.processor()
        terminal.process.wait(SOON * 3)
        seconds = time.monotonic() - at
    except subprocess.TimeoutExpired:
        wrong.append("it did not end")
        if ending.silent is None:
            share = (terminal.processor() - used) / (SOON * 3)
    if seconds is not None and seconds > SOON:
        wrong.append(f"it took {seconds:.1f} s to end")
    if share > _SHARE:
        wrong.append(f"it used {share:.0%} of a processor meanwhile")
    status = terminal.process.returncode
    if seconds is not None and status not in ending.status:
        wrong.append(f"status {status}")
    if Lock(home / "logbook" / "lock").taken():
        wrong.append("the lock is held")
    return wrong + _log_wrong(home, place)


def _log_wrong(home: Path, place: Place) -> list[str]:
    book = Logbook(home / "logbook")
    wrong = ["a journal is left"] if _journals(home) else []
    if len(book.summaries()) != 1 + place.running:
        wrong.append(f"{len(book.summaries())} sittings in the log")
    elif place.running:
        kept = book.load("last")
        if not any(isinstance(event, Said) for event in kept.log.events) or not len(kept.log.readings):
            wrong.append("the log is not whole")
    return wrong + book.messages


def _prepare(home: Path, fresh: bool) -> None:
    """A home with one sitting and, unless it is fresh, settings, so that nothing is asked."""
    from plans.logbook.logged_sitting import LoggedSitting
    from plans.reader import find_plan
    from plans.sitting import Word

    home.mkdir()
    if not fresh:
        (home / "heatbook.toml").write_text("")
    book = Logbook(home / "logbook")
    logged = LoggedSitting.begin(book, find_plan("drawknife", None), datetime(2026, 3, 14, 9, 15, tzinfo=UTC))
    logged.take(Said(1.0, Word.ACKNOWLEDGE))
    logged.put_away()
    book.close()


def _acknowledge(home: Path, terminal: Terminal) -> None:
    """Read the cautions to their end, and wait until the log says so and readings come in after it."""
    terminal.read_cautions()
    give_up = time.monotonic() + PATIENCE
    read: int | None = None
    while read is None or _grown(home) <= read:
        if read is None and any(b"acknowledge" in path.read_bytes() for path in _journals(home)):
            read = _grown(home)
        terminal.read(0.1)
        if time.monotonic() > give_up:
            raise TimeoutError("that the cautions were read is not in the log, or no reading after it")


def _journals(home: Path) -> list[Path]:
    return list((home / "logbook").rglob("*.jsonl"))


def _grown(home: Path) -> int:
    return sum(path.stat().st_size for path in _journals(home))
