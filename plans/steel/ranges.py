"""Ranges in which to normalize, harden and temper a steel, as they follow from its critical temperatures, with why.

The distances from the critical temperatures are common practice without a source; they were held against heats that
smiths work by and against makers' sheets. A printed range wins wherever there is one.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from plans.steel.composition import Composition
from plans.steel.finding import Origin
from plans.units import kelvin

PRACTICE: Final = "from the critical temperatures, by common practice"
"""The source that is named for a range which nobody printed."""
LEAST_TO_HARDEN: Final = 0.28
"""Least carbon of a steel that is worth hardening; with less a quench gains little [mass %]."""
EDGE: Final = (kelvin(175), kelvin(230))
"""Low and high end of the range in which edges are tempered [K]."""
SPRING_CARBON: Final = (0.45, 0.68)
"""Least and most carbon of the steels that springs are made of [mass %]."""


@dataclass(frozen=True, slots=True)
class Printed:
    """The range that is printed for one treatment of a grade, taken over all sources that print one."""

    low: float
    """Low end of the range [K]."""
    high: float
    """High end of the range [K]."""
    source: str
    """Those who print it, with "; " between them."""
    note: str = ""
    """What they say besides, such as into what to quench; may be empty."""


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
    """Whether the range is printed or follows from the critical temperatures."""
    source: str
    """Who prints it, or `PRACTICE`."""


def normalizing(of: CriticalPoints, printed: Printed | None = None) -> tuple[Advice, ...]:
    """The heats to normalize a steel by: three, none hotter than the one before.

    Args:
        of: the critical temperatures of the steel
        printed: the range that is printed for its grade, which stands for the first heat

    Returns:
        One piece of advice, which says why, where the steel is not to be normalized or not enough is known.
    """
    if of.air_hardening:
        why = "It hardens in still air, so that normalizing would harden it and may crack it: anneal it by its sheet."
        return (_none("normalizing", why),)
    if of.ac1 is None or of.upper is None:
        return (_none("normalizing", "Its critical temperatures are not known."),)
    # Above Acm grains grow fast: a steel with very much carbon is not taken far beyond it.
    above = of.upper + (30 if of.hypereutectoid else 50)
    first = printed.low if printed else max(above, kelvin(870))
    # Heated between Ac1 and Ac3 a steel comes out part old grain, part new; carbide left over does no such harm.
    floor = of.ac1 + 30 if of.hypereutectoid else of.upper + 15
    second, third = max(first - 55, floor), max(first - 110, floor)
    hint = "3 to 10 min once the middle is as hot as the skin, then still air until black."
    origin, source = (Origin.PUBLISHED, printed.source) if printed else (Origin.FORMULA, PRACTICE)
    return (
        Advice("first heat", first, printed.high if printed else first + 50, _first(of), hint, origin, source),
        Advice("second heat", second, second + 50, _later(second, of), hint, Origin.FORMULA, PRACTICE),
        Advice("third heat", third, third + 50, _later(third, of), hint, Origin.FORMULA, PRACTICE),
    )


def hardening(of: CriticalPoints, printed: Printed | None = None) -> Advice:
    """The range to quench a steel from.

    Args:
        of: the critical temperatures of the steel
        printed: the range that is printed for its grade, which wins

    Returns:
        Advice without a range, which says why, where a quench gains little or not enough is known.
    """
    if of.steel.carbon < LEAST_TO_HARDEN:
        return _none("hardening", "It holds too little carbon: a quench gains little.")
    hint = _soak(of)
    if printed:
        note = f"{hint} {printed.note[0].upper()}{printed.note[1:]}." if printed.note else hint
        why = _why_harden(printed.low, of)
        return Advice("hardening", printed.low, printed.high, why, note, Origin.PUBLISHED, printed.source)
    if of.ac1 is None or of.upper is None:
        return _none("hardening", "Its critical temperatures are not known: go by its maker's sheet.")
    low, span = (of.ac1 + 65, 25) if of.hypereutectoid else (max(of.upper + 40, of.ac1 + 65), 30)
    # Colder than this carbides dissolve too slowly for a soak of some minutes.
    low = max(low, kelvin(785))
    return Advice("hardening", low, low + span, _why_harden(low, of), hint, Origin.FORMULA, PRACTICE)


def tempering(of: CriticalPoints, printed: Printed | None = None) -> tuple[Advice, ...]:
    """The ranges to temper a steel in: for an edge, for a spring if it makes one, and what to keep out of between.

    Args:
        of: the critical temperatures of the steel
        printed: the range that is printed for its grade, which wins

    Returns:
        One piece of advice, which says why, where the steel is not hardened and so needs no temper.
    """
    if of.steel.carbon < LEAST_TO_HARDEN:
        return (_none("tempering", "What was not hardened needs no temper."),)
    hint = (
        "Within 1 to 2 h of the quench, while still hand-warm; two holds of 2 h, cooled between: the second tempers"
        " what the first has let turn to martensite."
    )
    edge = "Takes the stress out of fresh martensite and lets fine carbides form in it; keeps most of its hardness."
    spring = "Past the brittle range: gives up hardness for spring and toughness. Far below Ac1, where it would soften."
    advice = []
    if printed:
        why = f"As printed: {printed.note}." if printed.note else edge
        advice.append(Advice("tempering", printed.low, printed.high, why, hint, Origin.PUBLISHED, printed.source))
    if not printed or printed.low > EDGE[1]:
        advice.append(Advice("edge", *EDGE, edge, hint, Origin.FORMULA, PRACTICE))
    if not printed and SPRING_CARBON[0] <= of.steel.carbon <= SPRING_CARBON[1] and of.ac1 is not None:
        advice.append(
            Advice("spring", kelvin(400), min(kelvin(500), of.ac1 - 150), spring, hint, Origin.FORMULA, PRACTICE)
        )
    if not of.air_hardening:
        brittle = "Steel that was tempered here breaks more easily than on either side of it."
        advice.append(Advice("leave out", kelvin(260), kelvin(370), brittle, "", Origin.FORMULA, PRACTICE))
    return tuple(advice)


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
        return "As printed: most of its carbides are rich in alloys, and dissolve only at such a heat."
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
