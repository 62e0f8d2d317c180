"""How hot the steel of a plan must still be when it goes into the quench, and how hot it may become before.

What is known of steels is imported when it is asked for: it takes a while, and most steps quench nothing.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from plans.plan import Plan

if TYPE_CHECKING:
    from plans.steel import Card, Grade

_NEAR_EUTECTOID = 0.6
"""From here on the upper critical temperature lies close to Ac1, or is Acm, which hardening stays below [mass %]."""


def quench_floor(plan: Plan) -> float | None:
    """The temperature below which steel that goes into the quench has transformed already, and does not harden.

    Args:
        plan: tells the steels of the bars; the one with most carbon is the one that is to get hard

    Returns:
        Ac3 of a steel with little carbon, Ac1 of others [K]; None where no bar is of a steel that is known
    """
    hardest = _hardest(plan)
    if hardest is None:
        return None
    quantity = hardest.upper if hardest.steel.carbon < _NEAR_EUTECTOID else hardest.ac1
    return quantity.best.value


def hardening_ceiling(plan: Plan) -> float | None:
    """The hottest that the card of the steel has for hardening [K]; None where no bar is of a steel that is known.

    Args:
        plan: tells the steels of the bars; the one with most carbon is the one that is to get hard
    """
    hardest = _hardest(plan)
    return None if hardest is None else hardest.hardening.high


def _hardest(plan: Plan) -> Card | None:
    from plans.steel import card_of

    grades = [grade for bar in plan.bars if (grade := _grade(bar.steel)) is not None]
    return card_of(max(grades, key=lambda grade: grade.middle.carbon)) if grades else None


def _grade(name: str) -> Grade | None:
    from plans.steel import SteelError, find_grade

    try:
        return find_grade(name)
    except SteelError:
        return None
