"""What is not known of the work's surroundings, and so how far a modelled time may lie from the likely one."""

from __future__ import annotations

from dataclasses import dataclass

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


@dataclass(frozen=True, slots=True)
class Doubts:
    """How many times as much heat may flow as is likely, at least and at most; 1 is what is likely."""

    air: tuple[float, float]
    """By radiation and convection."""
    contact: tuple[float, float]
    """In the contact conductance of the tools."""


def doubts_of(shop: Shop) -> Doubts:
    """What is not known in a shop: all that can be, less what its probe has taught.

    Two standard errors of a factor that was learned take the place of the emissivity's range, and of the range of the
    contact conductance.
    """
    air = (DULLEST / SCALED_STEEL, BLACKEST / SCALED_STEEL)
    return Doubts(
        _narrowed(air, shop.cooling_factor, shop.cooling_spread),
        _narrowed((1 / DOUBT, DOUBT), shop.contact_factor, shop.contact_spread),
    )


def _narrowed(unlearned: tuple[float, float], factor: float, spread: float | None) -> tuple[float, float]:
    if spread is None:
        return unlearned
    share = max(2 * spread / factor, _LEAST_LEARNED)
    low, high = unlearned
    return max(low, 1 - share), min(high, 1 + share)
