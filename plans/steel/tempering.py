"""Ranges in which to temper a steel, with why: for an edge, for a spring, and what to keep out of between.

They are common practice without a source. A range that somebody states for the grade wins, but for what of it lies
where a temper makes steel brittle.
"""

from __future__ import annotations

from typing import Final

from plans.steel.advice import LEAST_TO_HARDEN, NICKEL, PRACTICE, Advice, CriticalPoints, StatedRange, no_advice
from plans.steel.finding import Origin
from plans.units import kelvin

EDGE: Final = (kelvin(175), kelvin(230))
"""Low and high end of the range in which edges are tempered [K]."""
BRITTLE: Final = (kelvin(260), kelvin(370))
"""Low and high end of the range in which a temper makes most steels brittle [K]."""
SPRING_CARBON: Final = (0.45, 0.68)
"""Least and most carbon of the steels that springs are made of [mass %]."""


def tempering(of: CriticalPoints, stated: StatedRange | None = None) -> tuple[Advice, ...]:
    """The ranges to temper a steel in: for an edge, for a spring if it makes one, and what to keep out of between.

    Args:
        of: the critical temperatures of the steel
        stated: the range that is stated for its grade, which wins, but for what of it lies where a temper makes brittle

    Returns:
        One piece of advice, which says why, where the steel is not hardened and so needs no temper.
    """
    if of.steel.is_nickel:
        return (no_advice("tempering", NICKEL),)
    if of.steel.carbon < LEAST_TO_HARDEN:
        return (no_advice("tempering", "What was not hardened needs no temper."),)
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
    why = f"{stated.teller} it {stated.note}." if stated.note else edge
    parts = [(stated.low, stated.high)]
    if brittle and stated.low < BRITTLE[1] and stated.high > BRITTLE[0]:
        why += " What is stated of the brittle range is left out."
        parts = [(stated.low, min(stated.high, BRITTLE[0])), (max(stated.low, BRITTLE[1]), stated.high)]
    return [
        Advice(name, low, high, why, _TEMPER, stated.origin, stated.source)
        for name, (low, high) in zip(("tempering", "softer"), parts, strict=False)
        if low < high or len(parts) == 1
    ]
