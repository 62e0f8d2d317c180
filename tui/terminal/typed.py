"""What comes from a terminal: keys, the mouse, and whatever else a bad line makes of them."""

from __future__ import annotations

import asyncio
import os
import re
import termios
from codecs import getincrementaldecoder
from collections.abc import Callable, Iterable
from operator import methodcaller

from textual import constants, events
from textual._xterm_parser import XTermParser
from textual.message import Message
from textual.messages import InBandWindowResize

from tui.terminal.one_by_one import OneByOne
from tui.terminal.opened import Opened
from tui.terminal.pastes import Pastes

_AT_ONCE = 4096
_SEQUENCES = re.compile("(?=\x1b)")
_UNASKED = (events.Resize, InBandWindowResize)
"""Told only by terminals that are asked to, which ours is not; made of rubbish, a size may be anything."""


class Typed:
    """Reads a terminal in the running asyncio loop, from `start` to `stop`.

    What makes no sense is left out, and reading goes on behind it.

    Args:
        fileno: descriptor of the terminal
        one_by_one: takes keys, movements of the mouse and pastes
        ended: called once, when nothing can be read any more, with the reason
    """

    def __init__(self, fileno: int, one_by_one: OneByOne, ended: Callable[[str], None]) -> None:
        self._loop = asyncio.get_running_loop()
        self._fileno = fileno
        self._opened: Opened | None = None
        self._one_by_one, self._ended = one_by_one, ended
        self._decode = getincrementaldecoder("utf-8")("replace").decode
        self._pastes = Pastes()
        self._parser = XTermParser()
        self._timer: asyncio.TimerHandle | None = None

    def start(self) -> None:
        """Read from now on."""
        self._opened = Opened(self._fileno)
        self._loop.add_reader(self._opened.descriptor, self._read, self._opened.descriptor)

    def stop(self) -> None:
        """Read no more; what was read by half is forgotten."""
        self._cancel()
        opened, self._opened = self._opened, None
        if opened is not None:
            self._loop.remove_reader(opened.descriptor)
            opened.close()

    def _read(self, descriptor: int) -> None:
        try:
            data = os.read(descriptor, _AT_ONCE)
            if not data:
                termios.tcgetattr(descriptor)  # nothing, and yet a terminal: somebody has set it so
        except (BlockingIOError, InterruptedError):
            return
        except (OSError, termios.error) as error:
            self.stop()
            self._ended(str(error.args[-1]))
            return
        self.feed(data)

    def feed(self, data: bytes) -> None:
        """Take bytes as if they had been read."""
        self._cancel()
        self._take(self._pastes.take(self._decode(data)))
        if (patience := self._pastes.patience) is not None:
            self._timer = self._loop.call_later(patience, self._stalled)
        else:
            # A lone escape is a key when nothing has followed it.
            self._timer = self._loop.call_later(constants.ESCAPE_DELAY + 0.01, self._hand_on, methodcaller("tick"))

    def _take(self, parts: Iterable[str | events.Paste]) -> None:
        for part in parts:
            if isinstance(part, events.Paste):
                self._parser = XTermParser()
                self._one_by_one.put(part)
            else:
                for sequence in filter(None, _SEQUENCES.split(part)):
                    self._hand_on(methodcaller("feed", sequence))

    def _stalled(self) -> None:
        self._parser = XTermParser()  # it would make keys of a sequence that has come by half
        self._take(self._pastes.stalled())

    def _hand_on(self, parse: Callable[[XTermParser], Iterable[Message]]) -> None:
        try:
            for message in parse(self._parser):
                if not isinstance(message, _UNASKED):
                    self._one_by_one.put(message)
        except Exception:  # what the parser did not expect: it can't be used after that
            self._parser = XTermParser()

    def _cancel(self) -> None:
        if self._timer is not None:
            self._timer.cancel()
