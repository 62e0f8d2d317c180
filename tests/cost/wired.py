"""A program in a terminal of its own, with a probe on a cable: what processor it takes, and what it writes."""

from __future__ import annotations

import os
import select
import tty
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import closing, contextmanager
from time import monotonic

from tests.terminal import Terminal

Command = Callable[[str], list[str]]


class Wired(Terminal):
    """A program that runs in a terminal, with a probe.

    Args:
        command: what is run
        size: columns and rows
        environment: of the program
        cable: our end of the cable from the probe
    """

    def __init__(self, command: Sequence[str], size: tuple[int, int], environment: Mapping[str, str], cable: int):
        super().__init__(command, size, environment, controlling=False)
        self._cable = cable

    def say(self, celsius: float) -> None:
        """Have the probe send a line."""
        os.write(self._cable, f"{celsius:.1f}\n".encode())


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
    terminals = {program.ours: program for program in programs}
    while (now := monotonic() - began) < seconds:
        if now * hertz >= said:
            line = celsius(now)
            for program in programs:
                program.say(line)
            said += 1
        left = began + min(seconds, said / hertz) - monotonic()
        for terminal in select.select(list(terminals), [], [], max(0.0, left))[0]:
            yield monotonic(), terminals[terminal], terminals[terminal].read()


@contextmanager
def wired(command_for: Command, size: tuple[int, int], environment: Mapping[str, str]) -> Iterator[Wired]:
    """Run a program in a terminal with a probe; it is killed afterwards.

    Args:
        command_for: the command, given the port of the probe
        size: columns and rows
        environment: of the program
    """
    cable, port = os.openpty()
    tty.setraw(port)
    try:
        with closing(Wired(command_for(os.ttyname(port)), size, environment, cable)) as program:
            yield program
    finally:
        os.close(cable)
        os.close(port)
