"""A program in a terminal of its own, with a probe on a cable: what processor it takes, and what it writes."""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import struct
import subprocess
import termios
import tty
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from time import monotonic

import pyte

GIVE_UP = 60.0
Command = Callable[[str], list[str]]
_TICKS = os.sysconf("SC_CLK_TCK")
_PRIVATE = re.compile(rb"\x1b\[[<>=?][0-9;]*[u$p]+")
"""Private modes that pyte takes for others that it knows."""


@dataclass
class Wired:
    """A program that runs, seen from outside."""

    process: subprocess.Popen[bytes]
    """The program."""
    terminal: int
    """Our end of its terminal."""
    cable: int
    """Our end of the cable from the probe."""
    screen: pyte.Screen
    """What stands on its terminal, as of the last `until`."""
    stream: pyte.ByteStream = field(init=False)
    """What feeds the screen."""

    def __post_init__(self) -> None:
        self.stream = pyte.ByteStream(self.screen)

    @property
    def processor(self) -> float:
        """Processor time that the program has used since it began, its own and the system's for it [s]."""
        figures = Path(f"/proc/{self.process.pid}/stat").read_text().rpartition(")")[2].split()
        return (int(figures[11]) + int(figures[12])) / _TICKS

    def say(self, celsius: float) -> None:
        """Have the probe send a line."""
        os.write(self.cable, f"{celsius:.1f}\n".encode())

    def press(self, key: str) -> None:
        """Press a key."""
        os.write(self.terminal, key.encode())

    def read(self, until: float) -> bytes:
        """What comes to the terminal next, at the latest until a time; empty where nothing came."""
        ready, _, _ = select.select([self.terminal], [], [], max(0.0, until - monotonic()))
        return os.read(self.terminal, 65536) if ready else b""

    def shown(self, *texts: str, gone: str = "") -> None:
        """Read on until all of these stand on the screen, and one does not.

        Raises:
            TimeoutError: they never did.
        """
        give_up = monotonic() + GIVE_UP
        while True:
            lines = "\n".join(self.screen.display)
            if all(text in lines for text in texts) and not (gone and gone in lines):
                return
            if monotonic() > give_up:
                raise TimeoutError(f"no {texts}:\n{lines}")
            self.stream.feed(_PRIVATE.sub(b"", self.read(monotonic() + 0.2)))


def play(
    programs: Sequence[Wired], hertz: float, seconds: float, celsius: Callable[[float], float]
) -> Iterator[tuple[float, Wired, bytes]]:
    """Let the probes of several programs speak alike for a while; each piece that comes to a terminal meanwhile.

    Args:
        programs: the programs
        hertz: how often their probes speak
        seconds: for how long
        celsius: what they say at a time since this began [s]

    Yields:
        when a piece came [s, `monotonic`], to whose terminal, and the piece
    """
    began, said = monotonic(), 0
    terminals = {program.terminal: program for program in programs}
    while (now := monotonic() - began) < seconds:
        if now * hertz >= said:
            line = celsius(now)
            for program in programs:
                program.say(line)
            said += 1
        left = began + min(seconds, said / hertz) - monotonic()
        for terminal in select.select(list(terminals), [], [], max(0.0, left))[0]:
            yield monotonic(), terminals[terminal], os.read(terminal, 65536)


@contextmanager
def wired(command_for: Command, size: tuple[int, int], environment: Mapping[str, str]) -> Iterator[Wired]:
    """Run a program in a terminal with a probe; it is killed afterwards.

    Args:
        command_for: the command, given the port of the probe
        size: columns and rows
        environment: of the program
    """
    ours, theirs = pty.openpty()
    cable, port = os.openpty()
    tty.setraw(port)
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", size[1], size[0], 0, 0))
    command = command_for(os.ttyname(port))
    process = subprocess.Popen(
        command, stdin=theirs, stdout=theirs, stderr=theirs, env=environment, start_new_session=True
    )
    os.close(theirs)
    try:
        yield Wired(process, ours, cable, pyte.Screen(*size))
    finally:
        process.kill()
        process.wait()
        for end in (ours, cable, port):
            os.close(end)
