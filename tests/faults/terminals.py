"""Terminals that go, fall silent or are held up, at every screen: the program ends when it must, with its log whole."""

from __future__ import annotations

import fcntl
import os
import re
import select
import signal
import struct
import subprocess
import sys
import termios
import time
import tty
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from plans.logbook import Logbook
from plans.logbook.lock import Lock
from plans.sitting import Said
from tests.speaking import speaking

SOON = 2.0
"""The program must have ended by then [s]."""
_SILENCE = 3.0
"""How long a terminal is silent before the program is told to end [s]."""
_SHARE = 0.3
"""Of a processor, at most, while nobody reads the screen: what redraws it takes, and nothing that spins."""
_GIVE_UP = 40.0
_LEADER = """
import fcntl, os, sys, termios
fcntl.ioctl(0, termios.TIOCSCTTY, 0)
os.execv(sys.executable, [sys.executable, *sys.argv[1:]])
"""
"""Makes the terminal the one that controls the program, as a shell does."""
_ESCAPE = re.compile(rb"\x1b(\[[0-9;:<>=?]*[ -/]*[@-~]|\][^\x07]*\x07|.)")


@dataclass(frozen=True, slots=True)
class Place:
    """A screen, and how to come there."""

    name: str
    words: tuple[str, ...]
    """The command."""
    way: tuple[tuple[str, str], ...]
    """What is to be seen, and the keys that are pressed then."""
    running: bool = False
    """Whether a sitting runs there, with a probe that speaks."""


PLACES = (
    Place("shelf", (), (("Normalize three heats", ""),)),
    Place("live", ("run", "drawknife", "--port"), (("read on", ""),), running=True),
    Place("log", ("log",), (("go on   q back", ""),)),
    Place("review", ("log",), (("go on   q back", "\r"), ("reading line", ""))),
    Place("reckoner", ("reckon",), (("skin cooled after", ""),)),
)


class Terminal:
    """A terminal with the program in it, whose other end is in our hands.

    Args:
        words: the command
        home: where the program keeps everything
        controlling: whether the program hears of its end by a signal
    """

    def __init__(self, words: tuple[str, ...], home: Path, controlling: bool) -> None:
        self.ours, self.theirs = os.openpty()
        _resize(self.ours, 80, 24)
        before = [sys.executable, "-c", _LEADER] if controlling else [sys.executable]
        self.process = subprocess.Popen(
            [*before, "-m", "tui.cli", *words],
            stdin=self.theirs,
            stdout=self.theirs,
            stderr=self.theirs,
            env=os.environ | {"TERM": "xterm-256color", "HEATBOOK_HOME": str(home)},
            start_new_session=True,
        )
        self.seen = b""

    def until(self, text: str) -> None:
        """Read until this has been on the screen.

        Raises:
            TimeoutError: it never was.
        """
        give_up = time.monotonic() + _GIVE_UP
        while text.encode() not in _ESCAPE.sub(b"", self.seen):
            if not self.read(give_up):
                raise TimeoutError(f"no {text!r}: {_ESCAPE.sub(b'', self.seen)[-400:]!r}")
        self.seen = b""

    def read(self, give_up: float) -> bool:
        """Read what is there, or comes by then; whether there was anything."""
        ready, _, _ = select.select([self.ours], [], [], max(0.0, give_up - time.monotonic()))
        if ready:
            self.seen += os.read(self.ours, 65536)
        return bool(ready)

    def press(self, keys: str) -> None:
        """Send keys."""
        os.write(self.ours, keys.encode())

    def fill(self) -> None:
        """Have it draw more than the terminal takes while nobody reads."""
        for size in ((200, 55), (198, 55)) * 6:
            _resize(self.ours, *size)
            os.kill(self.process.pid, signal.SIGWINCH)
            time.sleep(0.1)

    def hold(self) -> None:
        """Stop its output, as ctrl+s does."""
        termios.tcflow(self.theirs, termios.TCOOFF)

    def close(self) -> None:
        """The terminal goes."""
        for end in (self.ours, self.theirs):
            if end >= 0:
                os.close(end)
        self.ours = self.theirs = -1

    def processor(self) -> float:
        """Processor time that it has used so far [s]."""
        fields = Path(f"/proc/{self.process.pid}/stat").read_text().rpartition(")")[2].split()
        return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


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
    Ending("closed", True, None, Terminal.close),
    Ending("closed without a signal", False, None, Terminal.close),
    Ending("not read, then closed without a signal", False, Terminal.fill, Terminal.close),
    Ending("not read, then SIGTERM", True, Terminal.fill, _told(signal.SIGTERM)),
    Ending("not read, then SIGHUP", True, Terminal.fill, _told(signal.SIGHUP)),
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
        except TimeoutError as error:
            wrong = [str(error)]
        yield f"{ending.name}: {'; '.join(wrong)}" if wrong else None


def _ended_by(home: Path, place: Place, ending: Ending) -> list[str]:
    """Open the program at a screen, let its terminal end in one way, and tell what is wrong with what is left."""
    _prepare(home)
    with ExitStack() as stack:
        words = place.words
        if place.running:
            probe, port = os.openpty()
            tty.setraw(port)
            stack.callback(os.close, port)
            stack.callback(os.close, probe)
            stack.enter_context(speaking(probe, b"801.5\r\n"))
            words = (*words, os.ttyname(port))
        terminal = Terminal(words, home, ending.controlling)
        stack.callback(_kill, terminal)
        for text, keys in place.way:
            terminal.until(text)
            terminal.press(keys)
        if place.running:
            _acknowledge(home, terminal)
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


def _prepare(home: Path) -> None:
    """A home with settings, so that nothing is asked, and one sitting."""
    from plans.logbook.logged_sitting import LoggedSitting
    from plans.reader import find_plan
    from plans.sitting import Word

    home.mkdir()
    (home / "heatbook.toml").write_text("")
    book = Logbook(home / "logbook")
    logged = LoggedSitting.begin(book, find_plan("drawknife", None), datetime(2026, 3, 14, 9, 15, tzinfo=UTC))
    logged.take(Said(1.0, Word.ACKNOWLEDGE))
    logged.put_away()
    book.close()


def _acknowledge(home: Path, terminal: Terminal) -> None:
    """Press the key that reads the cautions on until the log says that they have been read."""
    for _ in range(40):
        terminal.press(" ")
        time.sleep(0.4)
        while terminal.read(time.monotonic()):
            pass
        if any(b"acknowledge" in path.read_bytes() for path in _journals(home)):
            return
    raise TimeoutError("the cautions never ended")


def _journals(home: Path) -> list[Path]:
    return list((home / "logbook").rglob("*.jsonl"))


def _grown(home: Path) -> int:
    return sum(path.stat().st_size for path in _journals(home))


def _resize(terminal: int, width: int, height: int) -> None:
    fcntl.ioctl(terminal, termios.TIOCSWINSZ, struct.pack("HHHH", height, width, 0, 0))


def _kill(terminal: Terminal) -> None:
    terminal.process.kill()
    terminal.process.wait()
    terminal.close()
