"""Ranges in which to normalize and to harden a steel, as they follow from its critical temperatures, with why.

The distances from the critical temperatures are common practice without a source; they were held against heats that
smiths work by and against makers' sheets. A range that somebody states for the grade wins wherever there is one, as far
as it does not contradict what else is known of the steel; what was cut off is told.
"""

from __future__ import annotations

from plans.steel.advice import LEAST_TO_HARDEN, NICKEL, PRACTICE, Advice, CriticalPoints, StatedRange, no_advice
from plans.steel.composition import Composition
from plans.steel.finding import Origin
from plans.units import kelvin


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
        return (no_advice("normalizing", NICKEL),)
    if of.air_hardening:
        why = "It hardens in still air, so that normalizing would harden it and may crack it: anneal it by its sheet."
        return (no_advice("normalizing", why),)
    through = of.all_austenite
    if of.ac1 is None or through is None:
        return (no_advice("normalizing", "Its critical temperatures are not known."),)
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
        why += f" {stated.teller} a cooler range, which lies below its {line} as the formula has it."
        return Advice("first heat", low, low + 50, why, _HOLD, Origin.FORMULA, f"{PRACTICE}; {stated.source}")
    if stated.low < through:
        why += f" Only the part of the stated range that lies above its {line} is given."
    hint = f"{_HOLD} {stated.told}".strip()
    low = min(max(stated.low, through + 10), stated.high)
    return Advice("first heat", low, stated.high, why, hint, stated.origin, stated.source)


def _later_heat(name: str, low: float, high: float, of: CriticalPoints) -> Advice:
    return Advice(name, low, high, _later(low, high, of), _HOLD, Origin.FORMULA, PRACTICE)


def hardening(of: CriticalPoints, stated: StatedRange | None = None) -> Advice:
    """The range to quench a steel from.

    Args:
        of: the critical temperatures of the steel
        stated: the range that is stated for its grade, which wins

    Returns:
        Advice without a range, which says why, where a quench gains little or not enough is known.
    """
    if of.steel.is_nickel:
        return no_advice("hardening", NICKEL)
    if of.steel.carbon < LEAST_TO_HARDEN:
        return no_advice("hardening", "It holds too little carbon: a quench gains little.")
    hint = _soak(of)
    if stated:
        why = _why_harden(stated.low, of)
        note = f"{hint} {stated.told}".strip()
        return Advice("hardening", stated.low, stated.high, why, note, stated.origin, stated.source)
    if of.ac1 is None or of.upper is None:
        return no_advice("hardening", "Its critical temperatures are not known: go by its maker's sheet.")
    low, span = (of.ac1 + 65, 25) if of.hypereutectoid else (max(of.upper + 40, of.ac1 + 65), 30)
    # Colder than this carbides dissolve too slowly for a soak of some minutes.
    low = max(low, kelvin(785))
    return Advice("hardening", low, low + span, _why_harden(low, of), hint, Origin.FORMULA, PRACTICE)


def _first(of: CriticalPoints) -> str:
    if of.hypereutectoid:
        return (
            "Above Acm: carbide that settled along the grains while the work cooled goes into solution, and air cools"
            " too fast for it to settle there again."
        )
    return "Well above Ac3: all of it turns to austenite, and what forging left uneven evens out."


def _later(low: float, high: float, of: CriticalPoints) -> str:
    if of.upper is not None and low >= of.upper:
        return (
            f"Cooler, yet above {'Acm' if of.hypereutectoid else 'Ac3'}: new grains again, with less heat to grow in."
        )
    if of.upper is not None and high > of.upper:
        return "About Acm: new grains, held small by what carbides are left; the cooler end leaves more of them."
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


def hardening_soak(steel: Composition, *, air_hardening: bool) -> float:
    """How long a steel is held at its hardening heat once it is even, so that enough carbon dissolves [s].

    Common practice, no source.

    Args:
        steel: its composition
        air_hardening: whether it hardens in still air
    """
    if air_hardening:
        return 1500.0
    slow = steel.chromium + steel.tungsten + steel.molybdenum + steel.vanadium >= 0.5
    return 600.0 if slow else 300.0


def _soak(of: CriticalPoints) -> str:
    minutes = hardening_soak(of.steel, air_hardening=of.air_hardening) / 60
    if of.air_hardening:
        return f"{minutes - 5:g} to {minutes + 5:g} min once even: carbides rich in chromium dissolve slowly."
    if minutes > 5:
        return f"About {minutes:g} min once even: carbides with chromium, tungsten or vanadium dissolve slowly."
    return f"About {minutes:g} min once even; then into the quench within 2 to 3 s."
