"""A bar at one temperature throughout: how long it takes to cool or to warm, without solving for its inside.

Good while the Biot number is below 0.1, which for steel at forging heat in air is up to about 25 mm of section.

References:
    .. [1] Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed., sections 5.1 to 5.3.
"""

from __future__ import annotations

from plans.warmth.bar import BarShape
from plans.warmth.material import Material
from plans.warmth.steel import carbon_steel
from plans.warmth.surroundings import Surroundings

_INTERVALS = 200
"""Number of intervals of Simpson's rule; even."""


def cooling_time(
    start: float, end: float, shape: BarShape, surroundings: Surroundings, material: Material | None = None
) -> float:
    """Time for a bar at one temperature throughout to come from one temperature to another, cooling or warming [s].

    Args:
        start: temperature at the beginning, to which it was heated [K]
        end: temperature of interest, between `start` and what the surroundings come to [K]
        shape: shape of the bar
        surroundings: what it is in
        material: what it is made of; carbon steel, if nothing else is said

    Raises:
        ValueError: `end` is not between `start` and what the surroundings come to.

    References:
        .. [1] Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed., eq. 5.15, with the enthalpy in the
           place of c T.
    """
    steady = surroundings.steady()
    if not (steady < end <= start or start <= end < steady):
        raise ValueError("the temperature of interest must lie between the start and what the surroundings come to")
    material = material or carbon_steel()
    first, latent = material.brought_to(start, 0.0)
    width = (material.brought_to(end, latent)[0] - first) / _INTERVALS
    total = 0.0
    for i in range(_INTERVALS + 1):
        weight = 1 if i in (0, _INTERVALS) else 4 if i % 2 else 2
        total += weight / surroundings.flux(material.temperature_of(first + i * width, latent))
    return material.density * shape.volume_for_area * total * width / 3


def biot_number(shape: BarShape, coefficient: float, conductivity: float) -> float:
    """Biot number of a bar: resistance to heat inside over that at the skin.

    Below 0.1 the bar is about as warm inside as outside.

    Args:
        shape: shape of the bar
        coefficient: coefficient of heat transfer at its skin, convection and radiation together [W/(m2 K)]
        conductivity: thermal conductivity of the bar [W/(m K)]

    Returns:
        h (V/A) / k, with volume over skin as the length.

    References:
        .. [1] Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed., eq. 5.9 and 5.10.
    """
    return coefficient * shape.volume_for_area / conductivity
