"""Flow stress of hot carbon steel: how hard it resists while it is being squeezed.

References:
    .. [1] S. Shida, Journal of the Japan Society for Technology of Plasticity 10 (1969) 610; confirmed against two
       public rolling models that print it, but not against the paper itself.
"""

from __future__ import annotations

from math import exp
from typing import Final

from plans.reckoned import Reckoned
from plans.record import record
from plans.units import Units, celsius, kelvin

MOST_CARBON: Final = 1.2
"""Most carbon for which the flow stress was found [% by mass]."""
SPREAD: Final = 0.25
"""How far the flow stress may be off, either way, as a share: formulas of other laboratories lie as far apart."""
LEAST_RATE, MOST_RATE = 0.1, 100.0
"""Slowest and quickest strain for which it was found [1/s]; slower is reckoned as the slowest, which is no weaker."""
MOST_STRAIN: Final = 0.7
"""Largest true strain for which it was found."""
_COLDEST, _HOTTEST = kelvin(700.0), kelvin(1200.0)
_ROUNDED: Final = 10.0
"""A heat that is hotter by less counts as within it, so that 2200 degF does: a temperature difference [K]."""
_KGF_MM2: Final = 9.80665e6
"""One kilogram-force on a square millimetre [Pa]."""
_SOURCE = "S. Shida, J. Japan Soc. Technol. Plasticity 10 (1969) 610, as later rolling models print it"


@record
class Hot:
    """The steel that is squeezed, and how quickly.

    Raises:
        ValueError: the temperature or the time is not above 0, or the carbon not from 0 to `MOST_CARBON`.
    """

    at: float
    """Temperature, all through [K]."""
    carbon: float
    """Content [% by mass]."""
    seconds: float
    """How long a squeeze takes [s]."""

    def __post_init__(self) -> None:
        if not (self.at > 0 and self.seconds > 0 and 0 <= self.carbon <= MOST_CARBON):
            raise ValueError(f"a temperature and a time above 0, and from 0 to {MOST_CARBON:g} % of carbon")


def shida(at: float, carbon: float, strain: float, rate: float) -> float:
    """Flow stress of carbon steel by Shida's formula [Pa] [1]_.

    Above a temperature that goes by the carbon it is that of austenite, below it that of steel which has begun to turn
    to ferrite.

    Args:
        at: temperature of the steel [K]
        carbon: content [% by mass]
        strain: true strain so far, from 0 up
        rate: true strain in a second, above 0 [1/s]
    """
    # The formula's own zero of degC is 273; kilokelvin.
    warm = (celsius(at) + 273.0) / 1000.0
    turns = 0.95 * (carbon + 0.41) / (carbon + 0.32)
    if warm >= turns:
        softened, power = 1.0, (-0.019 * carbon + 0.126) * warm + 0.075 * carbon - 0.05
    else:
        softened = 30.0 * (carbon + 0.9) * (warm - 0.95 * (carbon + 0.49) / (carbon + 0.42)) ** 2
        softened += (carbon + 0.06) / (carbon + 0.09)
        power = (0.081 * carbon - 0.154) * warm - 0.019 * carbon + 0.207 + 0.027 / (carbon + 0.32)
    stress = 0.28 * softened * exp(5.0 / max(warm, turns) - 0.01 / (carbon + 0.05))
    hardened = 1.3 * (strain / 0.2) ** (0.41 - 0.07 * carbon) - 0.3 * strain / 0.2
    return float(_KGF_MM2 * stress * hardened * (rate / 10.0) ** power)


def stress_of(hot: Hot, strain: float) -> float:
    """Flow stress at a strain to which the steel is brought evenly in the time of the squeeze [Pa].

    Args:
        hot: the steel
        strain: true strain, above 0
    """
    return shida(hot.at, hot.carbon, strain, max(strain / hot.seconds, LEAST_RATE))


def flow_stress(hot: Hot, strain: float) -> Reckoned:
    """Flow stress of hot carbon steel, with how far it can be trusted [Pa] [1]_.

    `least` and `most` lie `SPREAD` away. A strain slower than `LEAST_RATE` is reckoned at that.

    Args:
        hot: the steel
        strain: true strain to which it is brought in the time of the squeeze, above 0
    """
    value, rate = stress_of(hot, strain), strain / hot.seconds
    outside = not _COLDEST <= hot.at <= _HOTTEST + _ROUNDED or strain > MOST_STRAIN or rate > MOST_RATE

    def validity(units: Units) -> str:
        said = (
            f"plain carbon steel up to {MOST_CARBON:g} %C, {units.degrees(_COLDEST)} to {units.temperature(_HOTTEST)}, "
            f"squeezed to half of its height at most in one go (a strain of {MOST_STRAIN:g} as logarithms count it, "
            f"{LEAST_RATE:g} to {MOST_RATE:g} of it a second); other laboratories' formulas lie within "
            f"{SPREAD * 100:.0f} %; steels with much chromium, tungsten or molybdenum resist far more"
        )
        return f"{said}; this squeeze lies outside of that" if outside else said

    return Reckoned(value, "published", validity, _SOURCE, value * (1 - SPREAD), value * (1 + SPREAD), outside)
