"""What lies ahead of a piece of work: the likely course, and what each thing that is not known would make of it."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from functools import cached_property
from typing import NamedTuple

from plans.warmth.course import Course, Part
from plans.warmth.doubts import range_of
from plans.warmth.material import Heat
from plans.warmth.model import WarmModel
from plans.warmth.surroundings import Surroundings

_ROUGHLY = 2400.0
"""Error that one step of a course may leave that only tells how wide a range is, 16 times that of the likely one: it
takes a third of the steps. Its times come out some 2 % short, but alike, and how far they are apart counts: the ends of
a range lie within 0.7 % of the likely time from where they would be [J/kg]."""


class Span(NamedTuple):
    """A time that is modelled, with its range."""

    likely: float
    """What is most likely [s]."""
    least: float
    """The least that it may be, by what is not known [s]."""
    most: float | None
    """The most that it may be [s]; None where it may never come."""


class Exposed(NamedTuple):
    """What a piece is exposed to: as it likely is, and at either end of each thing that is not known."""

    likely: Surroundings
    """What is round it, as it likely is."""
    quick: tuple[Surroundings, ...]
    """Where it cools or warms as quickly as it may, for each thing that is not known."""
    slow: tuple[Surroundings, ...]
    """Where it does so as slowly as it may."""
    start: float
    """How far off the start may be: a temperature difference [K]."""
    cools: bool
    """Whether the piece cools in it; in a fire or an oven it warms."""
    of: Hashable
    """What it all hangs on but for what a probe says: while this stays, nothing has changed but that."""


class Outlook:
    """The courses of a piece from one moment on; all but the likely one are solved when a range is asked for."""

    def __init__(self, model: WarmModel, exposed: Exposed) -> None:
        """Begin at the state that a model is in now; the model may go on.

        Args:
            model: the piece
            exposed: what it is exposed to from now on
        """
        self.exposed = exposed
        """What the piece is exposed to."""
        self.start = model.heat
        """Heat at each node as it begins."""
        self._piece = model.piece

    @cached_property
    def likely(self) -> Course:
        """The likely course."""
        return Course(self._piece, self.start, self.exposed.likely)

    @cached_property
    def _roughly(self) -> Course:
        """The likely course as roughly as those beside it."""
        return Course(self._piece, self.start, self.exposed.likely, _ROUGHLY)

    @cached_property
    def _quick(self) -> tuple[Course, ...]:
        return self._aside(-1 if self.exposed.cools else 1, self.exposed.quick)

    @cached_property
    def _slow(self) -> tuple[Course, ...]:
        return self._aside(1 if self.exposed.cools else -1, self.exposed.slow)

    def _aside(self, sign: int, ends: Iterable[Surroundings]) -> tuple[Course, ...]:
        """What each thing that is not known would make of the course, the start first."""
        starts = [(self._shifted(sign), self.exposed.likely), *((self.start, around) for around in ends)]
        return tuple(Course(self._piece, start, around, _ROUGHLY) for start, around in starts)

    def _shifted(self, sign: int) -> Heat:
        material, more = self._piece.material, sign * self.exposed.start
        cells = [
            material.brought_to(material.temperature_of(joules, latent) + more, latent)
            for joules, latent in zip(*self.start, strict=True)
        ]
        return Heat([joules for joules, _ in cells], [latent for _, latent in cells])

    def time_until(self, part: Part, kelvin: float, after: float) -> Span | None:
        """How long until a part has come to a temperature, counted from `after` [s]; None where it likely never does.

        Args:
            part: which part
            kelvin: the temperature [K]
            after: how long after the beginning it is now [s]

        """

        def left(course: Course) -> float | None:
            return self._left(course, part, kelvin, after)

        likely = left(self.likely)
        if likely is None:
            return None
        if likely <= 0:
            return Span(0.0, 0.0, 0.0)
        roughly = left(self._roughly)
        short = 0.0 if roughly is None else likely - roughly
        sooner = [likely if (quick := left(course)) is None else quick + short for course in self._quick]
        later = [None if (slow := left(course)) is None else slow + short for course in self._slow]
        return Span(likely, *range_of(likely, sooner, later))

    def likely_until(self, part: Part, kelvin: float, after: float) -> float | None:
        """How long until a part likely has come to a temperature, counted from `after` [s]; None where it never does.

        Args:
            part: which part
            kelvin: the temperature [K]
            after: how long after the beginning it is now [s]
        """
        return self._left(self.likely, part, kelvin, after)

    def _left(self, course: Course, part: Part, kelvin: float, after: float) -> float | None:
        at = course.time_until(part, kelvin, falls=self.exposed.cools, after=after)
        return None if at is None else at - after
