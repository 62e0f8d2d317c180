"""A sitting without a screen: for a board by the anvil, a script, a recording, or a rehearsal that needs nobody."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from queue import Empty, SimpleQueue
from threading import Thread
from time import monotonic
from typing import TYPE_CHECKING

from devices.errors import DeviceError
from plans.reading import Reading
from plans.sitting.events import Event, Said, Tick, Word
from plans.sitting.glance import glance
from plans.sitting.words import WordError, parse_word
from tui.running.sources import Delivered, Source

if TYPE_CHECKING:
    from plans.logbook.logged_sitting import LoggedSitting
    from tui.cli.report import Report
    from tui.running.sound import Aloud

_TICK = 0.25
"""How often time is told when nothing else comes [s]."""
_FLUSH = 1.0
"""How often waiting readings go to the disk [s]."""
_LONGEST_LINE = 4096


class Leave:
    """The sitting is to be left: standard input ended, or the program was told to end."""


Inbox = SimpleQueue[Delivered | str | Leave]
"""What has come and was not taken yet: from outside, and lines of standard input."""


def follow(
    running: LoggedSitting,
    source: Source,
    inbox: Inbox,
    report: Report | None,
    listen: bool,
    alone: bool = False,
    aloud: Aloud | None = None,
) -> None:
    """Run a sitting until it is finished or left; it is then still to be put away.

    Args:
        running: the sitting
        source: where time and readings come from; started, and to be closed by whoever started it
        inbox: where the source delivers
        report: where events are said; None to say nothing
        listen: whether words come on standard input
        alone: whether it goes on when standard input ends, by what the probe says, until it is told to end
        aloud: speaks; None for silence
    """
    desk = _Desk(running, source, report, aloud)
    desk.show(running.begun_with)
    with _leave_on_signals(lambda: inbox.put(Leave())):
        if listen:
            Thread(target=_listen, args=(inbox, alone), name="words", daemon=True).start()
        while not running.sitting.state.finished:
            try:
                item = inbox.get(timeout=_TICK)
            except Empty:
                item = Tick(source.clock())
            if isinstance(item, Leave):
                return
            if isinstance(item, Word):  # first: it is a text as well
                desk.say(Said(source.clock(), item))
            elif isinstance(item, DeviceError):
                desk.tell(str(item))
            elif isinstance(item, str):
                desk.hear_line(item)
            else:
                desk.take(item)
                source.taken(item.at, running.sitting, desk.say)
            desk.keep_up()
    if aloud is not None:
        aloud.finish()


def play(running: LoggedSitting, entries: Iterable[Reading | Said | Tick], report: Report | None) -> None:
    """Run a sitting on a recording, on its own clock and as fast as it goes; the recording's end is the sitting's.

    Raises:
        DeviceError: a row of the recording is wrong; what came before is in the log.
    """
    desk = _Desk(running, None, report, None)
    at = 0.0
    with _leave_on_signals(_interrupt):
        for entry in entries:
            at = entry.at
            if isinstance(entry, Said):
                desk.say(entry)
            else:
                desk.take(entry)
            desk.keep_up()
        if not running.sitting.state.finished:
            desk.say(Said(at, Word.FINISH, "the recording ended"))


class _Desk:
    """Hands things to the sitting and says what comes of them."""

    def __init__(
        self, running: LoggedSitting, source: Source | None, report: Report | None, aloud: Aloud | None
    ) -> None:
        self._running = running
        self._source = source
        self._report = report
        self._aloud = aloud
        self._flushed_at = monotonic()
        self._trouble: str | None = None

    def take(self, entry: Said | Reading | Tick) -> None:
        events = self._running.take(entry)
        if self._report:
            for event in events:
                self._report.event(event, self._running.sitting)
        self.show(events)

    def show(self, events: Sequence[Event]) -> None:
        """Let it be heard how the sitting stands now, and what happened."""
        if self._aloud is not None:
            sitting = self._running.sitting
            self._aloud.hear(events, glance(sitting, sitting.now))

    def say(self, said: Said) -> None:
        """Take a word; the first one says that the cautions, which were printed before it, have been read."""
        if self._running.sitting.state.acknowledged_at is None and said.word is not Word.ACKNOWLEDGE:
            self.take(Said(said.at, Word.ACKNOWLEDGE))
        try:
            self.take(said)
        except WordError as error:
            if self._report:
                self._report.refused(said.at, said.word.value, str(error))

    def hear_line(self, line: str) -> None:
        assert self._source is not None
        at = self._source.clock()
        try:
            said = parse_word(line, at)
        except WordError as error:
            if self._report:
                self._report.refused(at, line[:80], str(error))
            return
        self.say(said)

    def tell(self, trouble: str) -> None:
        """Say what is wrong with what is plugged in."""
        if self._report:
            self._report.trouble(self._running.sitting.now, trouble)

    def keep_up(self) -> None:
        """Flush the log when it is time, and say once when it can't be written."""
        if monotonic() - self._flushed_at >= _FLUSH:
            self._flushed_at = monotonic()
            self._running.flush()
        trouble = self._running.trouble
        if trouble != self._trouble:
            self._trouble = trouble
            if self._report:
                at = self._running.sitting.now
                self._report.trouble(at, trouble or "the log can be written again; nothing is lost")


def _listen(inbox: Inbox, alone: bool) -> None:
    # Read from the descriptor: a thread that waits in sys.stdin makes the interpreter complain when it ends.
    rest = b""
    while data := _read():
        *lines, rest = (rest + data).split(b"\n")
        rest = rest[:_LONGEST_LINE]
        for line in lines:
            if text := line[:_LONGEST_LINE].decode("utf-8", "replace").strip():
                inbox.put(text)
    if text := rest.decode("utf-8", "replace").strip():
        inbox.put(text)
    if not alone:
        inbox.put(Leave())


def _read() -> bytes:
    try:
        return os.read(0, 4096)
    except OSError:
        return b""


def _interrupt() -> None:
    raise KeyboardInterrupt


@contextmanager
def _leave_on_signals(leave: Callable[[], None]) -> Iterator[None]:
    """Within, being told to end calls `leave`, so that the log is put away whole."""
    numbers = [getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)]
    before = [(number, signal.signal(number, lambda *_: leave())) for number in numbers]
    try:
        yield
    finally:
        for number, handler in before:
            signal.signal(number, handler)
