"""The advice of a range to heat a steel to, and what it follows from: its critical temperatures, and what is stated."""

from __future__ import annotations

from typing import Final

from plans.record import record
from plans.steel.composition import Composition
from plans.steel.finding import Origin

PRACTICE: Final = "from the critical temperatures, by common practice"
"""The source that is named for a range which nobody states."""
LEAST_TO_HARDEN: Final = 0.28
"""Least carbon of a steel that is worth hardening; with less a quench gains little [mass %]."""
NICKEL: Final = "It is nickel, no steel: no heat treatment hardens it."
"""Why there is no range for pure nickel."""


@record
class StatedRange:
    """The range that is stated for one treatment of a grade, taken over all sources that state one."""

    low: float
    """Low end of the range [K]."""
    high: float
    """High end of the range [K]."""
    source: str
    """Those who state it, with "; " between them."""
    note: str = ""
    """What they say besides, such as into what to quench; may be empty."""
    origin: Origin = Origin.PUBLISHED
    """Whether it was read there, or is from memory."""

    @property
    def told(self) -> str:
        """Its note as a sentence; empty where there is none."""
        return f"{self.note[0].upper()}{self.note[1:]}." if self.note else ""

    @property
    def teller(self) -> str:
        """The beginning of a sentence on what is stated: "The sheet has"."""
        return "The sheet has" if self.origin is Origin.PUBLISHED else "From memory the sheet has"


@record
class CriticalPoints:
    """The critical temperatures of a steel, and what else its ranges hang on."""

    steel: Composition
    """Composition of the steel."""
    ac1: float | None
    """Ac1 [K]; None where it is not known."""
    upper: float | None
    """Ac3, or Acm of a hypereutectoid steel [K]; None where it is not known."""
    hypereutectoid: bool
    """Whether the steel holds more carbon than its eutectoid, so that `upper` is an Acm."""
    air_hardening: bool = False
    """Whether the steel hardens in still air."""
    through: float | None = None
    """The highest figure that anybody has for `upper`, stated or computed [K]; None where there is none but `upper`."""
    brittle: bool = True
    """Whether a temper in the range `BRITTLE` makes it brittle."""

    @property
    def all_austenite(self) -> float | None:
        """Where the steel is all austenite by every figure that there is [K]; None where `upper` is not known."""
        return self.upper if self.upper is None or self.through is None else max(self.upper, self.through)


@record
class Advice:
    """A range of temperature for one treatment, or the advice to do without the treatment."""

    name: str
    """Which range it is: "hardening", "first heat", "edge" ...; "leave out" for one to keep out of."""
    low: float | None
    """Low end of the range [K]; None where there is none."""
    high: float | None
    """High end of the range [K]; None where there is none."""
    why: str
    """Why the range lies where it does, or why there is none, in words for the smith."""
    hint: str
    """How long, into what, and what to watch, in words for the smith; may be empty."""
    origin: Origin
    """Whether the range is printed, remembered or follows from the critical temperatures."""
    source: str
    """Who states it, or `PRACTICE`."""


def no_advice(name: str, why: str) -> Advice:
    """The advice to do without a treatment, with why."""
    return Advice(name, None, None, why, "", Origin.FORMULA, PRACTICE)
