"""What is not known of the work's surroundings, and so how far a modelled time may lie from the likely one."""

from __future__ import annotations

from collections.abc import Iterable
from math import sqrt

from plans.record import record
from plans.shop import Shop
from plans.warmth.contact import DOUBT
from plans.warmth.surroundings import BLACKEST, DULLEST, SCALED_STEEL

SECTION = 0.05
"""The work is so much thicker or thinner than the plan has it, as a share: calipers at forging heat, and scale; common
practice, no source."""
START = 15.0
"""The eye and the model tell the skin's temperature to this, as a difference [K]; common practice, no source."""
MEASURED_START = 5.0
"""A probe on the work tells it to this, as a difference [K]; from memory."""
_LEAST_LEARNED = 0.05
"""A shop's own factor is never trusted to less than this share: draughts differ from day to day."""


@record
class Doubts:
    """How many times as much heat may flow as is likely, at least and at most; 1 is what is likely."""

    air: tuple[float, float]
    """By radiation and convection into the air."""
    fire: tuple[float, float]
    """By radiation and convection in a fire; what was learned in the air narrows nothing there."""
    anvil: tuple[float, float]
    """In the contact conductance of an anvil."""
    dies: tuple[float, float]
    """In that of dies, of which nothing is learned."""


def doubts_of(shop: Shop) -> Doubts:
    """What is not known in a shop: all that can be, less what its probe has taught.

    Two standard errors of a factor that was learned take the place of the emissivity's range, and of the range of the
    contact conductance.
    """
    emissivity, contact = (DULLEST / SCALED_STEEL, BLACKEST / SCALED_STEEL), (1 / DOUBT, DOUBT)
    return Doubts(
        air=_narrowed(emissivity, shop.cooling_factor, shop.cooling_spread),
        fire=emissivity,
        anvil=_narrowed(contact, shop.contact_factor, shop.contact_spread),
        dies=contact,
    )


def range_of(likely: float, sooner: Iterable[float], later: Iterable[float | None]) -> tuple[float, float | None]:
    """Between what a time lies of which several things are not known, each by itself [s].

    The differences that each makes are added as independent ones are: the root of the sum of their squares.

    Args:
        likely: the time itself [s]
        sooner: what each makes of it at the quick end [s]
        later: what each makes of it at the slow end [s]; None where it then never comes

    Returns:
        The least and the most; a most of None where one of them lets it never come.

    References:
        JCGM 100:2008, Guide to the expression of uncertainty in measurement, eq. 10.
    """
    least = likely - sqrt(sum(max(likely - time, 0.0) ** 2 for time in sooner))
    times = list(later)
    if None in times:
        return max(least, 0.0), None
    return max(least, 0.0), likely + sqrt(sum(max(time - likely, 0.0) ** 2 for time in times if time is not None))


def _narrowed(unlearned: tuple[float, float], factor: float, spread: float | None) -> tuple[float, float]:
    if spread is None:
        return unlearned
    share = max(2 * spread / factor, _LEAST_LEARNED)
    low, high = unlearned
    return max(low, 1 - share), min(high, 1 + share)
