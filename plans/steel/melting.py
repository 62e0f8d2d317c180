"""Where steel begins to melt, and how hot it may get at the forge before it burns.

References:
    .. [1] The iron-carbon diagram: peritectic at 0.17 %C and 1493 degC, most carbon in austenite 2.11 %C at 1148 degC.
       Textbooks print 1493 to 1495 degC and 2.06 to 2.14 %C.
    .. [2] E. Takeuchi and J. K. Brimacombe, Metall. Trans. B 16 (1985) 605: what other elements take off the solidus,
       from memory.
    .. [3] Highest temperatures to forge at, and burning temperatures, by carbon, as handbooks of forging print them,
       from memory.
"""

from __future__ import annotations

from typing import Final

from plans.reckoned import Reckoned
from plans.steel.composition import Composition
from plans.steel.lines import on_lines
from plans.units import kelvin

BURNS_BELOW: Final = 50.0
"""Steel at the forge burns so far below its solidus, as bars are not even, and a fire is not either: a temperature
difference [K]. Common practice, no source."""
LEDEBURITE: Final = 4.5
"""Steel with more chromium than this holds carbides that melt before the line of iron and carbon does [mass %]."""

_SOURCE: Final = (
    "straight lines of the iron-carbon diagram; other elements: Takeuchi and Brimacombe, Metall. Trans. B 16 (1985) "
    "605; both from memory"
)
_PER_CENT: Final = {"Si": 12.3, "Mn": 6.8, "P": 124.5, "S": 183.9, "Ni": 4.3, "Cr": 1.4}
_PERITECTIC: Final = (0.17, 1493.0)
_EUTECTIC: Final = (2.11, 1148.0)
_DELTA: Final = (0.09, 1493.0)
_IRON: Final = (0.0, 1538.0)
_FORGED: Final = (
    (0.1, 1315.0),
    (0.2, 1275.0),
    (0.5, 1250.0),
    (0.7, 1180.0),
    (0.9, 1120.0),
    (1.1, 1080.0),
    (1.5, 1050.0),
)
"""Carbon [mass %] and highest temperature to forge at [degC] [3]_."""


def solidus(steel: Composition) -> Reckoned | None:
    """Where a steel begins to melt [K]; None for pure nickel and for steel with more chromium than `LEDEBURITE`.

    Straight lines of the iron-carbon diagram [1]_, less what other elements take off [2]_. Computed equilibria of iron
    and carbon lie within 4 K of them up to 1.4 %, within 10 K at 2 %.

    Args:
        steel: any composition
    """
    if steel.is_nickel or steel.chromium > LEDEBURITE:
        return None
    taken = sum(factor * steel.share(symbol) for symbol, factor in _PER_CENT.items())
    value = kelvin(on_lines((_IRON, _DELTA, _PERITECTIC, _EUTECTIC), steel.carbon) - taken)
    validity = (
        "at equilibrium and for an even steel; a bar melts sooner where it is rich in carbon, phosphorus, sulphur"
    )
    return Reckoned(value, "from memory", validity, _SOURCE, value - 20, value + 20)


def burning(steel: Composition) -> Reckoned | None:
    """Burn limit at the forge: `BURNS_BELOW` under the solidus [K]; None where `solidus` knows nothing of the steel.

    Args:
        steel: any composition
    """
    melts = solidus(steel)
    if melts is None:
        return None
    validity = (
        "a safe distance under where an even steel begins to melt; handbooks of forging, which mean ingots and long "
        "heats, print burning from cooler on"
    )
    return Reckoned(melts.value - BURNS_BELOW, melts.basis, validity, melts.source)


def hottest_to_forge(carbon: float) -> Reckoned:
    """Highest temperature to forge a plain carbon steel at, as handbooks of forging print it by carbon [K] [3]_.

    Straight lines between the printed contents, level beyond them.

    Args:
        carbon: content [mass %]
    """
    outside = not _FORGED[0][0] <= carbon <= _FORGED[-1][0]
    source = "highest temperatures to forge at by carbon, as handbooks of forging print them, from memory"
    return Reckoned(kelvin(on_lines(_FORGED, carbon)), "from memory", "plain carbon steel", source, outside=outside)
