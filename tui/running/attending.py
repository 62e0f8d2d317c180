"""A running sitting with what feeds it: words, readings and time go in, what came of them goes to the screen."""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING

from plans.sitting.engine import Sitting
from plans.sitting.events import Event, Said, Tick, Word
from plans.sitting.glance import Glance, glance
from plans.sitting.words import WordError
from tui.running.sources import RehearsalSource

if TYPE_CHECKING:
    from plans.logbook.kept_sitting import Summary
    from plans.logbook.logged_sitting import LoggedSitting
    from plans.reading import Reading
    from tui.running.pedal import Lift
    from tui.running.sources import Source

_SLOWEST, _FASTEST = 0.5, 256.0
"""Rehearsal seconds in one second."""


class Attending:
    """Owned by the thread of the screen.

    Once the sitting is finished, readings wait: only the newest is kept, in case the smith takes the end back.
    """

    def __init__(self, running: LoggedSitting, source: Source, lift: Lift | None = None) -> None:
        self.running = running
        self.source = source
        self._lift = lift
        self._waiting: Reading | Tick | None = None
        self._put_away: Summary | None = None
        self._seen: Glance | None = None
        """As it was looked at last; None once something has been taken since."""

    @property
    def seen(self) -> Glance:
        """How the sitting looks now; a forecast is in it, and so it is only made once."""
        if self._seen is None:
            self._seen = glance(self.sitting, self.sitting.now)
        return self._seen

    @property
    def sitting(self) -> Sitting:
        return self.running.sitting

    def hear(self, entry: Reading | Tick) -> list[Event]:
        """What the source delivered; a rehearsal's smith may answer it.

        Returns:
            the events that came of it
        """
        if self.sitting.state.finished:
            self._waiting = entry
            return []
        events = self._take(entry)
        self.source.taken(entry.at, self.sitting, lambda said: events.extend(self._answered(said)))
        return events

    def say(self, word: Word, text: str = "") -> list[Event]:
        """A word of the smith, said now.

        Raises:
            WordError: it means nothing just now.
        """
        waiting, self._waiting = self._waiting, None
        events = self._take(Said(self.source.clock(), word, text))
        if waiting is not None:
            if self.sitting.state.finished:
                self._waiting = waiting
            else:
                events += self.hear(waiting)
        return events

    def tick(self) -> list[Event]:
        """Time has passed."""
        if self.sitting.state.finished:
            return []
        return self._take(Tick(self.source.clock()))

    @property
    def speed(self) -> float | None:
        """Rehearsal seconds in one second; None for a real sitting."""
        return self.source.rehearsal.speed if isinstance(self.source, RehearsalSource) else None

    def change_speed(self, factor: float) -> bool:
        """Make a rehearsal faster or slower; whether it is one."""
        speed = self.speed
        if speed is None or not isinstance(self.source, RehearsalSource):
            return False
        self.source.rehearsal.speed = min(_FASTEST, max(_SLOWEST, speed * factor))
        return True

    def flush(self) -> None:
        """Once a second: readings to the disk."""
        self.running.flush()

    def put_away(self) -> Summary:
        """End it: the source is closed, the log folded. Doing it again gives the same summary.

        Raises:
            LogbookError: the log could not be put away; its journal is as it was.
        """
        if self._put_away is None:
            # What ended the reading must not keep the log from being put away.
            with suppress(Exception):
                self.source.close()
            with suppress(Exception):
                if self._lift is not None:
                    self._lift()
            self._put_away = self.running.put_away()
        return self._put_away

    def _take(self, entry: Said | Reading | Tick) -> list[Event]:
        self._seen = None
        return self.running.take(entry)

    def _answered(self, said: Said) -> list[Event]:
        try:
            return self._take(said)
        except WordError:
            return []
