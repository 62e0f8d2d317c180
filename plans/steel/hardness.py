"""Hardness of plain carbon steel after its temper: straight lines through 36 measured points, no more.

Fully hardened steel is taken; what a slack quench or much retained austenite leaves is softer. Above 0.82 %C carbon
makes no difference, as what is beyond stays in carbides.

References:
    .. [1] J. H. Hollomon and L. D. Jaffe, Trans. AIME 162 (1945) 223: 26 points at 0.56, 0.89, 0.98 and 1.15 %C, all of
       0.56 and 1.15 %C that lie between `COLDEST` and `HOTTEST`.
    .. [2] R. A. Grange and R. W. Baughman, Trans. ASM 48 (1956) 165: two points of AISI 1080. Both from the open data
       set "Tempering data for carbon and low alloy steels" (Raiipa, CC BY 4.0).
    .. [3] Ryerson, table for W2 tool steel of 1.00 %C with a little vanadium, water-quenched: four points; no time
       given, one hour taken.
    .. [4] Lucefin Group, technical card for C45U, 10 mm, water-quenched: four points; no time given, one hour taken.
"""

from __future__ import annotations

from collections.abc import Iterable

from plans.reckoned import Reckoned
from plans.steel.errors import SteelError
from plans.steel.temper import Temper, combined, constant, one_hour
from plans.units import ZERO_CELSIUS, Units, in_both

SCATTER = 2.5
"""How far the tempered hardness may be off, either way [HRC].

No point is missed by more than 2.1; a source left out of the fit by up to 2.5: 0.56 %C is foretold too soft, 1.15 %C
too hard after the stronger tempers. A shop's quench and a shop's tester add to it.
"""

LEAST_CARBON, MOST_CARBON = 0.45, 1.15
"""Least and most carbon of the steels that were measured; outside there is no hardness [% by mass]."""
COLDEST, HOTTEST = 148.0 + ZERO_CELSIUS, 316.0 + ZERO_CELSIUS
"""Coldest and hottest temper that was measured, as the temperature at which one hour does the same; outside there is
no hardness [K]."""

# Least squares through the points, hardness at a one-hour temperature of 210 degC at two contents, straight between.
_MIDDLE = 210.0 + ZERO_CELSIUS
_LEAN, _AT_LEAN = 0.46, 54.37
_RICH, _AT_RICH = 0.82, 61.27
_SLOPE = -0.0619
"""Slope of the hardness over the one-hour temperature [HRC/K]."""

_SOURCE = (
    "straight lines through 36 points: Hollomon and Jaffe 1945 and Grange and Baughman 1956 (open data, CC BY 4.0), "
    "makers' tables for W2 (Ryerson) and C45U (Lucefin)"
)


def tempered_hardness(carbon: float, tempers: Iterable[Temper]) -> Reckoned:
    """Hardness to expect after tempering fully hardened plain carbon steel [HRC], right to `SCATTER` either way.

    Args:
        carbon: content [% by mass]
        tempers: temperature [K] and time [s] of each hold, in order

    Raises:
        SteelError: there are no points for this carbon or so mild or strong a temper; it is not extrapolated, and the
            text says how far the points go.
    """
    if not LEAST_CARBON <= carbon <= MOST_CARBON:
        raise SteelError(
            f"hardness at {carbon:g} %C is not extrapolated: there are measurements from {LEAST_CARBON:g} to "
            f"{MOST_CARBON:g} %C only"
        )
    known = constant(carbon)
    equal = one_hour(combined(tempers, known.value), known.value)
    if not COLDEST <= equal <= HOTTEST:
        raise SteelError(
            f"hardness after a temper that equals one hour at {in_both(equal)} is not extrapolated: there are "
            f"measurements from {in_both(COLDEST)} to {in_both(HOTTEST)} only"
        )
    share = (min(max(carbon, _LEAN), _RICH) - _LEAN) / (_RICH - _LEAN)
    value = _AT_LEAN + (_AT_RICH - _AT_LEAN) * share + _SLOPE * (equal - _MIDDLE)

    def validity(units: Units) -> str:
        return (
            f"right to {SCATTER:g} HRC either way, from 36 points and none between 0.56 and 0.82 %C; for plain "
            f"carbon steel, fully hardened, {LEAST_CARBON:g} to {MOST_CARBON:g} %C; "
            f"as one hour at {units.temperature(equal)}"
        )

    return Reckoned(value, "modelled", validity, _SOURCE, value - SCATTER, value + SCATTER)
