"""How much free oxygen a fire has, and what that does to the scale.

References:
    .. [1] H. Abuluwefa, M.Eng. thesis, McGill University 1992, abstract: in a reheating furnace 35 % less steel went to
       scale with 20 % of excess air than with 70 %.
    .. [2] R. Morales-Franco and others, X NACE Mexican Section Corrosion Congress, abstract: rings of AISI 4140 lost
       4.5 % of their mass to scale, and 1.08 % once gas and air were set to 1 : 10, which is about what burns up whole.
"""

from __future__ import annotations

from typing import Final

from plans.record import record
from plans.shop import FireAir
from plans.steel.scale import SCALE_FACTOR


@record
class ScaleShare:
    """How much metal goes to scale beside what the formula for free air has: a factor, with its range."""

    likely: float
    """The factor itself."""
    least: float
    """The least that it may be."""
    most: float
    """The most."""


def _of_the_fire(likely: float, least: float, most: float) -> ScaleShare:
    """A fire's share of what grows in free air, which by itself is known to `SCALE_FACTOR`."""
    return ScaleShare(likely, least / SCALE_FACTOR, most * SCALE_FACTOR)


_SHARES: Final[dict[FireAir, ScaleShare]] = {
    # No figure was found for a fire short of oxygen: common practice has it that scale hardly grows in one.
    FireAir.RICH: _of_the_fire(0.25, 0.05, 0.4),
    # Between the two published settings: 1.08 of 4.5 % [2]_, and 0.65 with a fifth of the air to spare [1]_.
    FireAir.NEUTRAL: _of_the_fire(0.4, 1.08 / 4.5, 0.65),
    FireAir.LEAN: _of_the_fire(1.0, 0.65, 1.0),
}


_BY_HAND: Final = 1.5
"""How far a loss that was measured by hand may be off, either way, as a factor: common practice, no source."""


def scale_share(fire: FireAir | None, measured: float | None = None) -> ScaleShare:
    """What a fire makes of the scale that would grow in free air [1]_ [2]_.

    Args:
        fire: how it is set; None where nobody said: as neutral, with a range from the least of a rich one to the most
            of a lean one
        measured: metal that went to scale, as measured in the shop, over what the formula for free air has; it counts
            before all that was published. None where nobody measured
    """
    if measured is not None:
        return ScaleShare(measured, measured / _BY_HAND, measured * _BY_HAND)
    if fire is not None:
        return _SHARES[fire]
    likely = _SHARES[FireAir.NEUTRAL].likely
    return ScaleShare(likely, _SHARES[FireAir.RICH].least, _SHARES[FireAir.LEAN].most)
