"""What lies ahead of a piece of work: the likely course, and the two at the ends of what is not known."""

from __future__ import annotations

from functools import cached_property
from typing import NamedTuple

from plans.warmth import Course, Heat, Part, Surroundings, WarmModel


class Span(NamedTuple):
    """A time that is modelled, with its range."""

    likely: float
    """What is most likely [s]."""
    least: float
    """The least that it may be, by what is not known [s]."""
    most: float | None
    """The most that it may be [s]; None where it may never come."""


class Exposed(NamedTuple):
    """What a piece is exposed to: as it likely is, and at either end of what is not known."""

    likely: Surroundings
    """As it likely is."""
    quick: Surroundings
    """Where it cools or warms as quickly as it may."""
    slow: Surroundings
    """Where it does so as slowly as it may."""
    start: float
    """How far off the start may be: a temperature difference [K]."""
    cools: bool
    """Whether the piece cools in it; in a fire or an oven it warms."""


class Outlook:
    """The courses of a piece from one moment on; those at the ends are solved when they are asked for."""

    def __init__(self, model: WarmModel, exposed: Exposed) -> None:
        """Begin at the state that a model is in now; the model may go on.

        Args:
            model: the piece
            exposed: what it is exposed to from now on
        """
        self.exposed = exposed
        """What the piece is exposed to."""
        self._piece, self._heat = model.piece, model.heat
        self.likely = Course(self._piece, self._heat, exposed.likely)
        """The likely course."""

    @cached_property
    def _quick(self) -> Course:
        return Course(self._piece, self._shifted(-1 if self.exposed.cools else 1), self.exposed.quick)

    @cached_property
    def _slow(self) -> Course:
        return Course(self._piece, self._shifted(1 if self.exposed.cools else -1), self.exposed.slow)

    def _shifted(self, sign: int) -> Heat:
        material, more = self._piece.material, sign * self.exposed.start
        cells = [
            material.brought_to(material.temperature_of(joules, latent) + more, latent)
            for joules, latent in zip(*self._heat, strict=True)
        ]
        return Heat([joules for joules, _ in cells], [latent for _, latent in cells])

    def time_until(self, part: Part, kelvin: float, after: float) -> Span | None:
        """How long until a part has come to a temperature, counted from `after` [s]; None where it likely never does.

        Args:
            part: which part
            kelvin: the temperature [K]
            after: how long after the beginning it is now [s]
        """
        falls = self.exposed.cools
        likely = self.likely.time_until(part, kelvin, falls=falls, after=after)
        if likely is None:
            return None
        quick = self._quick.time_until(part, kelvin, falls=falls, after=after)
        slow = self._slow.time_until(part, kelvin, falls=falls, after=after)
        least = likely if quick is None else min(quick, likely)
        most = None if slow is None else max(slow, likely)
        return Span(likely - after, least - after, None if most is None else most - after)
