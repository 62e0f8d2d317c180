"""What a squeeze between flat dies makes of a bar: how much goes into width, and how much into length.

References:
    .. [1] A. Tomlinson and J. D. Stringer, Journal of the Iron and Steel Institute 193 (1959) 157; from memory.
"""

from __future__ import annotations

from math import log, sqrt
from typing import Final

from plans.record import record

SPREAD_SOURCE = "remembered, not looked up: A. Tomlinson and J. D. Stringer, J. Iron Steel Inst. 193 (1959) 157"
"""What the spread stands on, as it is cited."""
SPREAD_ERROR: Final = 0.2
"""How far the spread coefficient may be off, either way, as a share; from memory."""
WIDEST_BITE: Final = 2.0
"""Largest bite, in widths of the bar, up to which the formula is trusted; from memory."""
_TURNS: Final = 0.36 / (2 * 0.054)
"""Bite, in widths of the bar, beyond which the formula would have the spread fall again: held there."""


def spread_coefficient(bite: float, width: float) -> float:
    """Share of a squeeze that goes into width, as logarithms: 0 all into length, 1 all into width [1]_.

    S = 0.14 + 0.36 b/w - 0.054 (b/w)^2, found on bars of about equal sides under flat dies.

    Args:
        bite: length of bar between the dies, above 0 [m]
        width: width of the bar before, above 0 [m]
    """
    ratio = min(bite / width, _TURNS)
    return 0.14 + 0.36 * ratio - 0.054 * ratio**2


@record
class Squeeze:
    """One squeeze of a bar with flat sides between flat dies, volume held: before and after.

    Raises:
        ValueError: a length is not above 0, or the height then is not below that before.
    """

    height: float
    """Height before, between the dies [m]."""
    width: float
    """Width before, across the bar [m]."""
    bite: float
    """Length of bar between the dies: their width, or less at the end of a bar [m]."""
    height_then: float
    """Height after [m]."""

    def __post_init__(self) -> None:
        if min(self.width, self.bite, self.height_then) <= 0 or self.height_then >= self.height:
            raise ValueError("a squeeze takes a width, a bite and a height above 0, and makes the bar lower")

    @property
    def spread(self) -> float:
        """Share of the squeeze that goes into width, by `spread_coefficient`."""
        return spread_coefficient(self.bite, self.width)

    @property
    def width_then(self) -> float:
        """Width after, on average over the height [m]."""
        return float(self.width * (self.height / self.height_then) ** self.spread)

    @property
    def widths_then(self) -> tuple[float, float]:
        """The least and the most of the width after, by what the spread may be off [m]."""
        squeezed = self.height / self.height_then
        least, most = (self.width * squeezed ** (self.spread * by) for by in (1 - SPREAD_ERROR, 1 + SPREAD_ERROR))
        return least, most

    @property
    def elongation(self) -> float:
        """How many times as long the bitten length is after."""
        return float((self.height / self.height_then) ** (1 - self.spread))

    @property
    def by_height(self) -> float:
        """True strain in height: the logarithm of the height before over that after."""
        return log(self.height / self.height_then)

    @property
    def strain(self) -> float:
        """True strain of the steel after von Mises, with height, width and length taken together."""
        return self.by_height * strain_factor(self.spread)


def strain_factor(spread: float) -> float:
    """True strain after von Mises for each of height: 2/sqrt(3) where no width is gained, 1 where width and length are.

    Args:
        spread: share of the squeeze that goes into width, from 0 to 1
    """
    return sqrt(2.0 / 3.0 * (1.0 + spread**2 + (1.0 - spread) ** 2))
