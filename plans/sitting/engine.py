"""The run of a plan: words, readings and time in, log entries out. No input or output of its own, and no wall clock."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property

from plans.reading import Reading
from plans.sitting import course
from plans.sitting.deciding import Deciding
from plans.sitting.events import Begun, Entry, Said, Tick, WentOn
from plans.sitting.hearing import hear
from plans.sitting.heeding import heed
from plans.sitting.standing import Standing
from plans.sitting.telling import Telling
from plans.trace import as_logged


class Sitting(Standing):
    """One run of one plan: the only thing that decides.

    Deterministic: whatever is decided is decided at a grid point or at an entry, never at a tick, so that the entries
    alone make the state, and replaying them makes it again.
    """

    @cached_property
    def _telling(self) -> Telling:
        return Telling(self)

    @cached_property
    def _deciding(self) -> Deciding:
        return Deciding(self._telling)

    def open(self) -> list[Entry]:
        """Begin at the first step; to be called once, before anything is taken.

        Returns:
            what is to be logged
        """
        point = course.entry(self.plan, 0, None)
        self._telling.event(Begun(0.0, point.step, point.heat, point.phase))
        return self._telling.hand_over()

    def take(self, entry: Said | Reading | Tick | WentOn) -> list[Entry]:
        """Take one thing in.

        Returns:
            what is to be logged, in order: the entry itself unless it is a tick, and what came of it

        Raises:
            WordError: the word means nothing just now; nothing has changed but the time, and what that brought
                comes with the next call
        """
        at = max(round(entry.at, 3), self.now)
        if isinstance(entry, WentOn):
            self.advance(entry.left_at, self._deciding)
            # What it says holds for the time in between already.
            self._telling.event(replace(entry, at=at))
        self.advance(at, self._deciding)
        match entry:
            case Reading(kelvin=kelvin, fault=fault):
                hear(self._telling, as_logged(entry if entry.at == at else Reading(at, kelvin, fault)))
            case Said(word=word, text=text):
                heed(self._telling, Said(at, word, text))
            case _:
                pass
        return self._telling.hand_over()
