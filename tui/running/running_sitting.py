"""A sitting that runs: its log, what feeds it, its pedal, and who hears of what comes of it."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from typing import TYPE_CHECKING

from plans.logbook import MOMENT
from plans.phase import FORGING, WARMING
from plans.shown import show_duration
from plans.sitting import Event, Glance, MainFigure, Said, Sitting, Tick, Word, WordError, glance_at
from tui.running.sources import RecordingSource, RehearsalSource

if TYPE_CHECKING:
    from plans.logbook import LoggedSitting, Summary
    from plans.reading import Reading
    from tui.running.pedal import Lift
    from tui.running.sources import Source

_SLOWEST, _FASTEST = 0.5, 256.0
"""Bounds for the speed of a rehearsal: rehearsal seconds in one second."""

_STANDS = 1.0
"""A forecast is counted on for so long before it is made anew, of the machine's own time [s]."""

Hears = Callable[[list[Event]], None]
"""Called with the events that came of one entry, at least one, after they have been logged."""


def _nobody(events: list[Event]) -> None:
    del events


class RunningSitting:
    """A sitting that runs, with its log on the disk, its source and its pedal; on the screen and without one.

    Words, readings and time go in through `say`, `hear` and `tick`, all in the one thread that owns it. Once the
    sitting is finished, what is heard waits: only the newest is kept, in case the smith takes the end back. The rows
    of a recording go in through `take`, those after the end as well: what was recorded is to be in the log.

    Args:
        logged: the sitting and its log
        source: what feeds it, started; it is closed when the sitting is put away
        lift: ends the pedal, when the sitting is put away; None without a pedal
    """

    def __init__(self, logged: LoggedSitting, source: Source, lift: Lift | None = None) -> None:
        self.logged = logged
        """The sitting and its log on the disk."""
        self.source = source
        """What feeds the sitting with readings and time."""
        self.heard_by: Hears = _nobody
        """Who is told of the events that come of each entry."""
        self.cautions_printed = False
        """Whether the cautions stood before the smith when he could say his first word, as without a screen; that word
        then says that they have been read. On the screen they are acknowledged by themselves."""
        self._lift = lift
        self._waiting: Reading | Tick | None = None
        self._put_away: Summary | None = None
        self._begun_with = len(logged.journal.log)
        self._ran_at = source.clock()
        """When the program last did anything for it, by the source's clock [s]."""
        self._stood_still: list[str] = []
        self._closed = False
        self._seen: Glance | None = None
        """As it was looked at last; None once something has been taken since."""
        self._forecast: Glance | None = None
        """As it was looked at when its figure was last forecast; None once something has happened since."""

    @property
    def sitting(self) -> Sitting:
        """The state of the run, to be read; what changes it goes through `say`, `hear`, `tick` and `take`."""
        return self.logged.sitting

    @property
    def id(self) -> str:
        """The sitting's name in the logbook."""
        return self.logged.id

    @property
    def seen(self) -> Glance:
        """How the sitting looks now; made once for each state, since a forecast is in it."""
        if self._seen is None:
            figure = self._counted_on()
            self._seen = glance_at(self.sitting, self.sitting.now, figure)
            if figure is None:
                self._forecast = self._seen
        return self._seen

    def _counted_on(self) -> MainFigure | None:
        """The figure that matters, from when it was last forecast; None where that must be done anew."""
        before, now = self._forecast, self.sitting.now
        # In a rehearsal that goes fast, each look would be a forecast.
        if before is None or not 0 <= now - before.at < _STANDS * (self.speed or 1.0):
            return None
        return before.figure.later(now - before.at)

    @property
    def untouched(self) -> bool:
        """Whether nothing was said, measured or called since it was begun; never of one that was gone on with."""
        journal = self.logged.journal
        return not journal.header.went_on and len(journal.log) == self._begun_with

    def hear(self, entry: Reading | Tick) -> list[Event]:
        """Take what the source delivered; once the sitting is finished, it waits. A rehearsal's smith may answer it.

        Returns:
            the events that came of it
        """
        self._note_that_it_runs()
        if self.sitting.state.finished:
            self._waiting = entry
            return []
        events = self.take(entry)
        self.source.taken(entry.at, self.sitting, lambda said: events.extend(self._answered(said)))
        return events

    def say(self, word: Word, text: str = "") -> list[Event]:
        """Take a word of the smith, said now by the source's clock.

        Args:
            word: what is said
            text: of a note, or why a sitting is finished

        Returns:
            the events that came of it

        Raises:
            WordError: the word means nothing just now; the text says why, and what would.
        """
        self._note_that_it_runs()
        at = self.source.clock()
        events: list[Event] = []
        if self.cautions_printed and self.sitting.state.acknowledged_at is None and word is not Word.ACKNOWLEDGE:
            events += self.take(Said(at, Word.ACKNOWLEDGE))
        waiting, self._waiting = self._waiting, None
        events += self.take(Said(at, word, text))
        if waiting is not None:
            if self.sitting.state.finished:
                self._waiting = waiting
            else:
                events += self.hear(waiting)
        return events

    def tick(self) -> list[Event]:
        """Let time pass up to now by the source's clock.

        Returns:
            the events that came of it
        """
        self._note_that_it_runs()
        if self.sitting.state.finished:
            return []
        return self.take(Tick(self.source.clock()))

    def take(self, entry: Said | Reading | Tick) -> list[Event]:
        """Take an entry at its own time, whether the sitting is finished or not, and tell who hears of it.

        Returns:
            the events that came of it

        Raises:
            WordError: the word means nothing just then; the text says why, and what would.
        """
        self._seen = None
        events = self.logged.take(entry)
        if events:
            self._forecast = None
            self.heard_by(events)
        return events

    @property
    def speed(self) -> float | None:
        """Rehearsal seconds in one second; None for a real sitting, or a rehearsal that goes as fast as it can."""
        return self.source.rehearsal.speed if isinstance(self.source, RehearsalSource) else None

    @property
    def hurries(self) -> bool:
        """Whether it is a rehearsal that runs through a long wait, faster than its speed."""
        return isinstance(self.source, RehearsalSource) and self.source.rehearsal.hurries

    def change_speed(self, factor: float) -> bool:
        """Make a rehearsal faster or slower.

        Args:
            factor: what its speed is multiplied by

        Returns:
            whether it could be done: only a rehearsal has a speed
        """
        speed = self.speed
        if speed is None or not isinstance(self.source, RehearsalSource):
            return False
        self.source.rehearsal.speed = min(_FASTEST, max(_SLOWEST, speed * factor))
        return True

    def news(self) -> list[str]:
        """What happened since this was asked last that no event tells, in plain words: to the files of the logbook, and
        that the program stood still while the work was hot."""
        stood_still, self._stood_still = self._stood_still, []
        return stood_still + self.logged.news()

    def _note_that_it_runs(self) -> None:
        """Where it did not for long, stopped or on a machine asleep, that is said.

        The time ran on: a soak is not stretched, and what is due is called, without an answer to be waited for.
        """
        before, self._ran_at = self._ran_at, self.source.clock()
        stood, state = self._ran_at - before, self.sitting.state
        told = isinstance(self.source, RecordingSource | RehearsalSource)
        if told or stood <= MOMENT or state.phase not in FORGING or state.paused or state.finished:
            return
        where = "in the fire" if state.phase in WARMING else "on the anvil"
        self._stood_still.append(
            f"heatbook stood still for {show_duration(stood)}; the time ran on, and the work counts as {where}: "
            "say so if it is not"
        )

    def flush(self) -> None:
        """Put waiting readings on the disk; to be called once a second."""
        self.logged.flush()

    def put_away(self) -> Summary | None:
        """End it: source and pedal are closed, the log goes into the logbook. Again, it gives the same summary.

        Returns:
            what the logbook's list says of it; None where nothing is kept, since it is `untouched`

        Raises:
            LogbookError: the log could not be put away; its journal is as it was, and the text says what to do.
        """
        if self.untouched:
            self.drop()
        elif self._put_away is None:
            self._close()
            self._put_away = self.logged.put_away()
        return self._put_away

    def drop(self) -> None:
        """End one that is `untouched`: source and pedal are closed, and nothing is kept. It does no harm twice."""
        self._close()
        self.logged.drop()

    def _close(self) -> None:
        closed, self._closed = self._closed, True
        if closed:
            return
        # What ended the reading must not keep the log from being put away.
        with suppress(Exception):
            self.source.close()
        with suppress(Exception):
            if self._lift is not None:
                self._lift()

    def _answered(self, said: Said) -> list[Event]:
        try:
            return self.take(said)
        except WordError:
            return []
