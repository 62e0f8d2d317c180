"""Ranges in which to normalize, harden and temper a steel, as they follow from its critical temperatures, with why.

The distances from the critical temperatures are common practice without a source; they were held against heats that
smiths work by and against makers' sheets. A range that somebody states for the grade wins wherever there is one, as far
as it does not contradict what else is known of the steel; what was cut off is told.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from plans.steel.composition import Composition
from plans.steel.finding import Origin
from plans.units import kelvin

PRACTICE: Final = "from the critical temperatures, by common practice"
"""The source that is named for a range which nobody states."""
LEAST_TO_HARDEN: Final = 0.28
"""Least carbon of a steel that is worth hardening; with less a quench gains little [mass %]."""
EDGE: Final = (kelvin(175), kelvin(230))
"""Low and high end of the range in which edges are tempered [K]."""
BRITTLE: Final = (kelvin(260), kelvin(370))
"""Low and high end of the range in which a temper makes most steels brittle [K]."""
SPRING_CARBON: Final = (0.45, 0.68)
"""Least and most carbon of the steels that springs are made of [mass %]."""
_NICKEL = "It is nickel, no steel: no heat treatment hardens it."


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
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


def normalizing(of: CriticalPoints, hardening: Advice, stated: StatedRange | None = None) -> tuple[Advice, ...]:
    """The heats to normalize a steel by: three, each cooler than the one before, the last no hotter than hardening.

    Args:
        of: the critical temperatures of the steel
        hardening: where it is quenched from
        stated: the range that is stated for its grade, which stands for the first heat as far as it lies above Ac3 or
            Acm

    Returns:
        One piece of advice, which says why, where the steel is not to be normalized or not enough is known; two heats,
        where there is no room for a third between Ac3 and the hardening range.
    """
    if of.steel.is_nickel:
        return (_none("normalizing", _NICKEL),)
    if of.air_hardening:
        why = "It hardens in still air, so that normalizing would harden it and may crack it: anneal it by its sheet."
        return (_none("normalizing", why),)
    through = of.all_austenite
    if of.ac1 is None or through is None:
        return (_none("normalizing", "Its critical temperatures are not known."),)
    first = _first_heat(of, through, stated)
    start, top = first.low or 0.0, hardening.high or first.low or 0.0
    # Heated between Ac1 and Ac3 a steel comes out part old grain, part new; carbide left over does no such harm.
    floor = of.ac1 + 30 if of.hypereutectoid else through + 15
    last = max(min(start - 110, top - 50), floor)
    second = (start + last) / 2
    heats = [first, _later_heat("second heat", second, min(second + 50, first.high or second), of)]
    if last < top:
        heats.append(_later_heat("third heat", last, min(last + 50, heats[-1].high or last, top), of))
    return tuple(heats)


_HOLD = "3 to 10 min once the middle is as hot as the skin, then still air until black."


def _first_heat(of: CriticalPoints, through: float, stated: StatedRange | None) -> Advice:
    why = _first(of)
    # Above Acm grains grow fast: a steel with very much carbon is not taken far beyond it.
    low = max(through + (30 if of.hypereutectoid else 50), kelvin(870))
    if stated is None:
        return Advice("first heat", low, low + 50, why, _HOLD, Origin.FORMULA, PRACTICE)
    line = "Acm" if of.hypereutectoid else "Ac3"
    if stated.high < through:
        why += f" {_by(stated)} a cooler range, which lies below its {line} as the formula has it."
        return Advice("first heat", low, low + 50, why, _HOLD, Origin.FORMULA, f"{PRACTICE}; {stated.source}")
    if stated.low < through:
        why += f" Only the part of the stated range that lies above its {line} is given."
    hint = f"{_HOLD} {_sentence(stated.note)}".strip()
    low = min(max(stated.low, through + 10), stated.high)
    return Advice("first heat", low, stated.high, why, hint, stated.origin, stated.source)


def _later_heat(name: str, low: float, high: float, of: CriticalPoints) -> Advice:
    return Advice(name, low, high, _later(low, of), _HOLD, Origin.FORMULA, PRACTICE)


def hardening(of: CriticalPoints, stated: StatedRange | None = None) -> Advice:
    """The range to quench a steel from.

    Args:
        of: the critical temperatures of the steel
        stated: the range that is stated for its grade, which wins

    Returns:
        Advice without a range, which says why, where a quench gains little or not enough is known.
    """
    if of.steel.is_nickel:
        return _none("hardening", _NICKEL)
    if of.steel.carbon < LEAST_TO_HARDEN:
        return _none("hardening", "It holds too little carbon: a quench gains little.")
    hint = _soak(of)
    if stated:
        why = _why_harden(stated.low, of)
        note = f"{hint} {_sentence(stated.note)}".strip()
        return Advice("hardening", stated.low, stated.high, why, note, stated.origin, stated.source)
    if of.ac1 is None or of.upper is None:
        return _none("hardening", "Its critical temperatures are not known: go by its maker's sheet.")
    low, span = (of.ac1 + 65, 25) if of.hypereutectoid else (max(of.upper + 40, of.ac1 + 65), 30)
    # Colder than this carbides dissolve too slowly for a soak of some minutes.
    low = max(low, kelvin(785))
    return Advice("hardening", low, low + span, _why_harden(low, of), hint, Origin.FORMULA, PRACTICE)


def tempering(of: CriticalPoints, stated: StatedRange | None = None) -> tuple[Advice, ...]:
    """The ranges to temper a steel in: for an edge, for a spring if it makes one, and what to keep out of between.

    Args:
        of: the critical temperatures of the steel
        stated: the range that is stated for its grade, which wins, but for what of it lies where a temper makes brittle

    Returns:
        One piece of advice, which says why, where the steel is not hardened and so needs no temper.
    """
    if of.steel.is_nickel:
        return (_none("tempering", _NICKEL),)
    if of.steel.carbon < LEAST_TO_HARDEN:
        return (_none("tempering", "What was not hardened needs no temper."),)
    brittle = of.brittle and not of.air_hardening
    edge = "Takes the stress out of fresh martensite and lets fine carbides form in it; keeps most of its hardness."
    spring = "Past the brittle range: gives up hardness for spring and toughness. Far below Ac1, where it would soften."
    advice = _stated_tempers(stated, edge, brittle) if stated else []
    if not stated or stated.low > EDGE[1]:
        advice.append(Advice("edge", *EDGE, edge, _TEMPER, Origin.FORMULA, PRACTICE))
    if not stated and SPRING_CARBON[0] <= of.steel.carbon <= SPRING_CARBON[1] and of.ac1 is not None:
        advice.append(
            Advice("spring", kelvin(400), min(kelvin(500), of.ac1 - 150), spring, _TEMPER, Origin.FORMULA, PRACTICE)
        )
    if brittle:
        why = "Steel that was tempered here breaks more easily than on either side of it."
        advice.append(Advice("leave out", *BRITTLE, why, "", Origin.FORMULA, PRACTICE))
    return tuple(advice)


_TEMPER = (
    "Within 1 to 2 h of the quench, while still hand-warm; two holds of 2 h, cooled between: the second tempers what"
    " the first has let turn to martensite."
)


def _stated_tempers(stated: StatedRange, edge: str, brittle: bool) -> list[Advice]:
    """The stated range; cut in two, or short, by the range that makes brittle, where the steel has one."""
    why = f"{_by(stated)} it {stated.note}." if stated.note else edge
    parts = [(stated.low, stated.high)]
    if brittle and stated.low < BRITTLE[1] and stated.high > BRITTLE[0]:
        why += " What is stated of the brittle range is left out."
        parts = [(stated.low, min(stated.high, BRITTLE[0])), (max(stated.low, BRITTLE[1]), stated.high)]
    return [
        Advice(name, low, high, why, _TEMPER, stated.origin, stated.source)
        for name, (low, high) in zip(("tempering", "softer"), parts, strict=False)
        if low < high or len(parts) == 1
    ]


def _by(stated: StatedRange) -> str:
    return "The sheet has" if stated.origin is Origin.PUBLISHED else "From memory the sheet has"


def _sentence(note: str) -> str:
    return f"{note[0].upper()}{note[1:]}." if note else ""


def _none(name: str, why: str) -> Advice:
    return Advice(name, None, None, why, "", Origin.FORMULA, PRACTICE)


def _first(of: CriticalPoints) -> str:
    if of.hypereutectoid:
        return (
            "Above Acm: carbide that settled along the grains while the work cooled goes into solution, and air cools"
            " too fast for it to settle there again."
        )
    return "Well above Ac3: all of it turns to austenite, and what forging left uneven evens out."


def _later(low: float, of: CriticalPoints) -> str:
    if of.upper is not None and low >= of.upper:
        return (
            f"Cooler, yet above {'Acm' if of.hypereutectoid else 'Ac3'}: new grains again, with less heat to grow in."
        )
    return (
        "Above Ac1 and below Acm: new grains, held small by the carbides that are left, which gather into fine round"
        " ones."
    )


def _why_harden(low: float, of: CriticalPoints) -> str:
    if of.upper is None:
        return "Most of its carbides are rich in alloys, and dissolve only at such a heat."
    if not of.hypereutectoid:
        return "Above Ac3, where no soft ferrite is left; not much above, as grains grow with every degree."
    if low > of.upper:
        return (
            "Above Acm, where all carbon is in the austenite: no hotter and no longer than it takes, as no carbide is"
            " left to keep the grain fine."
        )
    return (
        "Above Ac1, where austenite takes up the carbon that it needs; below Acm, where carbides are left that keep the"
        " grain fine. Hotter dissolves more carbon, which lowers Ms and leaves soft austenite in the edge."
    )


def _soak(of: CriticalPoints) -> str:
    if of.air_hardening:
        return "20 to 30 min once even: carbides rich in chromium dissolve slowly."
    if of.steel.chromium + of.steel.tungsten + of.steel.molybdenum + of.steel.vanadium >= 0.5:
        return "About 10 min once even: carbides with chromium, tungsten or vanadium dissolve slowly."
    return "About 5 min once even; then into the quench within 2 to 3 s."
