"""A sitting without a screen: for a board by the anvil, a script, a recording, or a rehearsal that needs nobody."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from enum import Enum, auto
from threading import Thread
from time import monotonic
from typing import TYPE_CHECKING

from devices import DeviceError
from plans.reading import Reading
from plans.sitting import Event, Said, Tick, Urgency, Word, WordError, parse_word
from plans.sitting.spoken import Talk
from plans.units import Units
from tui.cli.lines_in import Line, lines_in
from tui.running import Inbox

if TYPE_CHECKING:
    from tui.cli.report import Report
    from tui.running import Aloud, RunningSitting

_TICK = 0.25
"""How often time is told when nothing else comes, and looked at when more is piled up than can be taken at once [s]."""
_FLUSH = 1.0
"""How often waiting readings go to the disk [s]."""


class Leave:
    """The sitting is to be left: standard input ended, or the program was told to end."""


class WordsFrom(Enum):
    """Where the words of a sitting without a screen come from, besides its pedal."""

    SOURCE = auto()
    """From its source alone, as a rehearsal's smith says them; standard input is not read."""
    LINES = auto()
    """From the lines of standard input; where that ends, the sitting is left."""
    LINES_OR_PROBE = auto()
    """From the lines of standard input, but where that ends the sitting goes on by what its probe feels."""


def follow(
    running: RunningSitting,
    inbox: Inbox[Line | Leave],
    report: Report | None,
    words: WordsFrom,
    aloud: Aloud | None = None,
) -> None:
    """Run a sitting until it is finished or left; it is then still to be put away.

    Args:
        running: the sitting
        inbox: where its source delivers, and where `Leave` comes from whoever is told to end
        report: where events are said, and the cautions have been; None to say nothing
        words: where they come from
        aloud: speaks; None for silence
    """
    teller = _Teller(running, report, aloud, Talk())
    if words is not WordsFrom.SOURCE:
        Thread(target=_listen, args=(inbox, words), name="words", daemon=True).start()
    while not running.sitting.state.finished:
        item, more = inbox.take(_TICK)
        match item:
            case Leave():
                return
            case None:
                running.tick()
            case Word():
                teller.say(item)
            case Line():
                teller.say_line(item)
            case DeviceError():
                teller.trouble(str(item))
            case _:
                running.hear(item)
        if not more or teller.is_late:
            teller.keep_up()
        inbox.tell_missed(teller.trouble)
    if aloud is not None:
        aloud.finish()


def play(running: RunningSitting, entries: Iterable[Reading | Said | Tick], report: Report) -> None:
    """Run a sitting on a recording, as fast as it goes; the recording's end is the sitting's.

    Args:
        running: the sitting, on the clock of the recording
        entries: the rows of the recording; the clock goes on as they are asked for
        report: where events are said, and the cautions have been
    """
    teller = _Teller(running, report, None)
    for entry in entries:
        if isinstance(entry, Said):
            teller.say(entry.word, entry.text)
        else:
            running.take(entry)
        if teller.is_late:
            teller.keep_up()
    if not running.sitting.state.finished:
        teller.say(Word.FINISH, "the recording ended")
    teller.keep_up()


class _Teller:
    """Says what comes of a running sitting, what of it was refused, and what is wrong meanwhile.

    Args:
        running: the sitting
        report: where it is said; None to say nothing
        aloud: speaks; None for silence
        talk: tells when hammer time is to be counted down; None to leave that out, as from a recording
    """

    def __init__(
        self, running: RunningSitting, report: Report | None, aloud: Aloud | None, talk: Talk | None = None
    ) -> None:
        self._running, self._report, self._aloud, self._talk = running, report, aloud, talk
        self._flushed_at = self._kept_up_at = monotonic()
        self._trouble: str | None = None
        self._too_fast = False
        running.cautions_printed = report is not None
        running.heard_by = self._happened
        self._let_hear(running.logged.begun_with)

    def _happened(self, events: Sequence[Event]) -> None:
        if self._report:
            for event in events:
                self._report.event(event, self._running.sitting)
        self._let_hear(events)

    def _let_hear(self, events: Sequence[Event]) -> None:
        if self._aloud is not None:
            self._aloud.hear(events, self._running.seen)
        if self._talk is None or self._report is None:
            return
        seen = self._running.seen
        for saying in self._talk.hear(events, seen):
            if saying.urgency is Urgency.COUNTDOWN:
                self._report.countdown(saying, seen)

    def say(self, word: Word, text: str = "") -> None:
        """Say a word to the sitting, or say why it was refused."""
        try:
            self._running.say(word, text)
        except WordError as error:
            self._refuse(word.value, error)

    def say_line(self, line: Line) -> None:
        """Say what was typed to the sitting, or say why it was refused."""
        try:
            said = parse_word(line.text, 0.0, line.more, self._report.units if self._report else Units.METRIC)
        except WordError as error:
            self._refuse(line.text[:80], error)
            return
        self.say(said.word, said.text)

    def _refuse(self, text: str, why: WordError) -> None:
        if self._report:
            self._report.refused(self._running.source.clock(), text, str(why))

    def trouble(self, what: str) -> None:
        """Say what is wrong with the log, or with what is plugged in."""
        if self._report:
            self._report.trouble(self._running.sitting.now, what)

    @property
    def is_late(self) -> bool:
        """Whether it should `keep_up` even if more is to be taken."""
        return monotonic() - self._kept_up_at >= _TICK

    def keep_up(self) -> None:
        """Let the time be heard, flush the log when it is due, and say once when it can't be written."""
        self._let_hear([])
        self._kept_up_at = monotonic()
        if monotonic() - self._flushed_at >= _FLUSH:
            self._flushed_at = monotonic()
            self._running.flush()
            for news in self._running.news():
                self.trouble(news)
            self._say_too_fast()
        trouble = self._running.logged.trouble
        if trouble != self._trouble:
            self._trouble = trouble
            self.trouble(trouble or "the log can be written again; nothing is lost")

    def _say_too_fast(self) -> None:
        """Say once what becomes of the readings of a probe that says too many."""
        link = self._running.source.link_state()
        if link is not None and link.too_fast and not self._too_fast:
            self._too_fast = True
            self.trouble(link.too_fast)


def _listen(inbox: Inbox[Line | Leave], words: WordsFrom) -> None:
    for line in lines_in():
        inbox.put_line(line)
    if words is WordsFrom.LINES:
        inbox.put_line(Leave())
