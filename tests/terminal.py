"""A program in a terminal of its own, seen from outside: keys go in, and what a terminal would show is read back."""

from __future__ import annotations

import fcntl
import os
import re
import select
import signal
import struct
import subprocess
import termios
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from time import monotonic

import pyte

from tui.widgets.painting import fine_pair

SIZE = (80, 24)
"""Columns and rows."""
PATIENCE = 60.0
"""What has not come by then never does [s]."""
PAGE_DOWN = "\x1b[6~"
_LEADER = ("/bin/sh", "-c", 'exec "$@" <>"$0" >&0 2>&0')
"""Opens a terminal first of all in its session, which makes it the one that controls the program."""
_PRIVATE = re.compile(rb"\x1b\[[<>=?][0-9;]*[u$p]+")
"""Private modes that pyte takes for others that it knows."""
_ESCAPE = re.compile(rb"\x1b(\[[0-9;:<>=?]*[ -/]*[@-~]|\][^\x07]*\x07|.)")


class Terminal:
    """A terminal with a program in it, whose other end is in our hands.

    Args:
        command: what is run
        size: columns and rows
        environment: of the program
        controlling: whether the program hears of the terminal's end by a signal
    """

    def __init__(
        self,
        command: Sequence[str],
        size: tuple[int, int] = SIZE,
        environment: Mapping[str, str] | None = None,
        controlling: bool = True,
    ) -> None:
        self.ours, theirs = os.openpty()
        self.path = os.ttyname(theirs)
        self.before = termios.tcgetattr(theirs)
        """How it was set before anybody used it."""
        self._set_size(*size)
        self._screen = pyte.Screen(*size)
        self._stream = pyte.ByteStream(self._screen)
        self.written = bytearray()
        """All that has come to it so far."""
        self._shown = self._passed = 0
        self.process = subprocess.Popen(
            [*_LEADER, self.path, *command] if controlling else command,
            stdin=theirs,
            stdout=theirs,
            stderr=theirs,
            env=environment,
            start_new_session=True,
        )
        os.close(theirs)

    @property
    def pid(self) -> int:
        """Of the program."""
        return self.process.pid

    # What comes from the program

    def read(self, seconds: float = PATIENCE) -> bytes:
        """What comes next; empty where nothing does in that time.

        Raises:
            EOFError: the program has let go of the terminal.
        """
        if not select.select([self.ours], [], [], max(0.0, seconds))[0]:
            return b""
        try:
            data = os.read(self.ours, 65536)
        except OSError:
            data = b""
        if not data:
            raise EOFError(f"the program has gone: {_ESCAPE.sub(b'', bytes(self.written))[-400:]!r}")
        self.written += data
        return data

    def painted(self, *texts: str) -> bytes:
        """Read on until all of these have come since the last that were waited for, wherever on the screen; all of it.

        Raises:
            TimeoutError: they never did.
            EOFError: the program has gone.
        """
        give_up, missing = monotonic() + PATIENCE, [text.encode() for text in texts]
        while True:
            since = bytes(self.written[self._passed :])
            plain = _ESCAPE.sub(b"", since)
            missing = [text for text in missing if text not in plain]
            if not missing:
                self._passed = len(self.written)
                return since
            if not self.read(give_up - monotonic()):
                raise TimeoutError(f"{missing} did not come in {PATIENCE:g} s, only: {plain[-400:]!r}")

    def rows(self) -> list[str]:
        """What stands on the screen."""
        fresh, self._shown = self.written[self._shown :], len(self.written)
        self._stream.feed(_PRIVATE.sub(b"", bytes(fresh)))
        return list(self._screen.display)

    def until(self, *texts: str, large: str = "", gone: str = "") -> None:
        """Read on until all of these are on the screen, one that is to stand there in large letters, and one is not.

        Raises:
            TimeoutError: they never were.
            EOFError: the program has gone.
        """
        give_up = monotonic() + PATIENCE
        while True:
            rows = self.rows()
            whole = "\n".join(rows)
            if all(text in whole for text in texts) and not (gone and gone in whole) and _shows_large(rows, large):
                return
            if not self.read(give_up - monotonic()):
                raise TimeoutError(f"no {texts} {large}, or still {gone!r}:\n{whole}")

    def changed(self, rows: list[str]) -> None:
        """Read on until something else stands on the screen than these rows.

        Raises:
            TimeoutError: it never did.
            EOFError: the program has gone.
        """
        while self.rows() == rows:
            if not self.read():
                raise TimeoutError("nothing changed:\n" + "\n".join(rows))

    @property
    def said(self) -> str:
        """What was printed after the screen had gone."""
        rest = self.written.rpartition(b"\x1b[?1049l")[2].decode().replace("\r\n", "\n")
        return re.sub(r"\x1b\[[<>=?]?[0-9;]*[a-z]", "", rest)

    def assert_restored(self) -> None:
        """The terminal is as it was."""
        assert b"\x1b[?1049h" in self.written
        for left in (b"\x1b[?1049l", b"\x1b[?25h", b"\x1b[?1000l", b"\x1b[?2004l"):
            assert left in self.written.rpartition(b"\x1b[?1049h")[2], f"{left!r} was not written"
        assert termios.tcgetattr(self.ours) == self.before

    # What goes to it

    def press(self, keys: str) -> None:
        """Send keys."""
        os.write(self.ours, keys.encode())

    def press_anew(self, key: str) -> None:
        """Press a key that was pressed before, not so soon that it would count as the same press."""
        seen = {self.rows()[0][-9:]}
        while len(seen) < 3:
            self.changed(self.rows())
            seen.add(self.rows()[0][-9:])
        self.press(key)

    def read_cautions(self) -> None:
        """Page down until they have all been seen, then space."""
        while not any("all read" in row for row in self.rows()):
            before = self.rows()
            if any("read on" in row for row in before):
                self.press(PAGE_DOWN)
            self.changed(before)
        self.press(" ")
        self.until(gone="all read")

    def resize(self, width: int, height: int) -> None:
        """Make it larger or smaller, and tell the program."""
        self.rows()
        self._screen.resize(height, width)
        self._set_size(width, height)
        os.kill(self.pid, signal.SIGWINCH)

    def hold(self) -> None:
        """Stop its output, as ctrl+s does."""
        theirs = os.open(self.path, os.O_RDWR | os.O_NOCTTY)
        termios.tcflow(theirs, termios.TCOOFF)
        os.close(theirs)

    # Its end

    def end(self) -> int:
        """Read to the end; the exit status, negative for a signal.

        Raises:
            TimeoutError: it does not end.
        """
        try:
            while self.read():
                pass
        except EOFError:
            return self.process.wait(PATIENCE)
        raise TimeoutError("it does not end:\n" + "\n".join(self.rows()))

    def hang_up(self) -> None:
        """The terminal goes; what the program does then is its own affair."""
        if self.ours >= 0:
            os.close(self.ours)
        self.ours = -1

    def close(self) -> None:
        """Kill the program, if it runs still, and let the terminal go."""
        self.process.kill()
        self.process.wait()
        self.hang_up()

    def processor(self) -> float:
        """Processor time that the program has used since it began, its own and the system's for it [s]."""
        fields = Path(f"/proc/{self.pid}/stat").read_text().rpartition(")")[2].split()
        return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")

    def _set_size(self, width: int, height: int) -> None:
        fcntl.ioctl(self.ours, termios.TIOCSWINSZ, struct.pack("HHHH", height, width, 0, 0))


def _shows_large(shown: list[str], text: str) -> bool:
    return not text or any(
        all(shown[top + at].startswith(row, left) for at, row in enumerate(rows))
        for rows in _large_letters(text)
        for top in range(len(shown) - len(rows) + 1)
        for left in range(len(shown[0]) - len(rows[0]) + 1)
    )


@cache
def _large_letters(text: str) -> set[tuple[str, ...]]:
    """A text as a line of three rows may show it, narrow or broad; what the letters look like is tested elsewhere."""
    drawn = {fine_pair(text, "", width, 3, quarters=True) for width in range(1, 80)}
    return {tuple(row[: max(map(len, map(str.rstrip, rows)))] for row in rows) for rows in drawn if rows}


def environment(**more: str) -> dict[str, str]:
    """That of a program in a terminal with 256 colours, which keeps its bytecode; what else it is to hold."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return kept | {"TERM": "xterm-256color"} | more
