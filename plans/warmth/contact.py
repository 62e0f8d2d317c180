"""How much heat tools take from the work that they touch again and again."""

from __future__ import annotations

from math import erfc, exp, pi, sqrt

from plans.blows import Blows, StruckBy
from plans.units import ZERO_CELSIUS

CONDUCTANCE = {StruckBy.HAND: 1000.0, StruckBy.POWER_HAMMER: 7500.0, StruckBy.PRESS: 7500.0}
"""Contact conductance between scaled steel and a tool of steel that touches it [W/(m2 K)].

From memory: some 1,000 where the work lies on the anvil with little pressure, about 7,500 under the pressure of forging
(Semiatin, Collings, Wood and Altan, J. Eng. Ind. 109 (1987) 49-57, who measured 1,000 to 7,500 with rising pressure).
In hot forging it is told as 2,000 to 20,000, so that either figure is uncertain by `DOUBT`.
"""
DOUBT = 3.0
"""The contact conductance may be so many times as large, or as small."""
TOOL = {
    StruckBy.HAND: ZERO_CELSIUS + 80.0,
    StruckBy.POWER_HAMMER: ZERO_CELSIUS + 150.0,
    StruckBy.PRESS: ZERO_CELSIUS + 150.0,
}
"""Temperature inside anvil and dies in use [K]; from memory, no source."""
_TOOL_EFFUSIVITY = sqrt(40.0 * 7850.0 * 500.0)
"""Of tool steel at some 150 degC: root of conductivity, density and specific heat [W s^0.5/(m2 K)]; from memory."""
_WORK_EFFUSIVITY = sqrt(27.3 * 7850.0 * 650.0)
"""Of hot work: EN 1993-1-2 above 900 degC [W s^0.5/(m2 K)]."""

_LEFT_OUT = 0.5
"""Share of the work's own resistance that counts here; found on touches that scipy solved one by one."""


def averaged(blows: Blows, times: float = 1.0) -> float:
    """Conductance of the touched faces, averaged over touching and not touching [W/(m2 K)].

    While they touch, the surfaces of work and tool come near each other, so that a long touch takes less than the
    conductance alone would let through: two half-spaces at one temperature each, with a conductance between them. How
    the work's own surface cools is solved with the work, but for its dip while they touch, of which about half is left
    out there: so the work's half-space counts for half. Over some touches of a press the work then loses what it loses
    by touches that are solved one by one, within 5 % from 1/3 to 3 times the conductance.

    Args:
        blows: how long they touch, and how often
        times: how many times the contact conductance is what it is taken for

    References:
        .. [1] Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed., eq. 5.60, integrated over the touch,
           with the effusivities of both bodies in series.
    """
    conductance = CONDUCTANCE[blows.by] * times
    effusivity = 1 / (1 / _TOOL_EFFUSIVITY + _LEFT_OUT / _WORK_EFFUSIVITY)
    x = conductance * sqrt(blows.seconds) / effusivity
    return conductance * _share(x) * blows.seconds / blows.every


def _share(x: float) -> float:
    """What a touch takes, as a share of what it would take if both surfaces kept their temperatures.

    The exact expression loses its digits where x is small, and overflows where it is large; there its series stands.
    """
    if x < 0.01:
        return 1 - 4 * x / (3 * sqrt(pi)) + x * x / 2
    scaled = exp(x * x) * erfc(x) if x < 20 else 1 / (x * sqrt(pi))
    return (scaled - 1 + 2 * x / sqrt(pi)) / (x * x)
