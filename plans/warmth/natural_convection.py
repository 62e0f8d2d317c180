"""The heat that still air carries off from a hot bar, by the size of the bar and its temperature.

A study of billets that cooled in air found that a coefficient which follows the temperature fits their curves better in
most cases, and a constant one nearly as well in others (A Study of the Convective Cooling of Large Industrial Billets,
J. Manuf. Mater. Process. 5 (2021) 137; its abstract, the curves were not to be had).
"""

from __future__ import annotations

from bisect import bisect_right
from math import pi

from plans.shapes import Section

_GRAVITY = 9.81
_AIR = (
    (250.0, 11.44e-6, 22.3e-3, 15.9e-6),
    (300.0, 15.89e-6, 26.3e-3, 22.5e-6),
    (400.0, 26.41e-6, 33.8e-3, 38.3e-6),
    (500.0, 38.79e-6, 40.7e-3, 56.7e-6),
    (600.0, 52.69e-6, 46.9e-3, 76.9e-6),
    (700.0, 68.10e-6, 52.4e-3, 98.0e-6),
    (800.0, 84.93e-6, 57.3e-3, 120e-6),
    (900.0, 102.9e-6, 62.0e-3, 143e-6),
    (1000.0, 121.9e-6, 66.7e-3, 168e-6),
    (1200.0, 162.9e-6, 76.3e-3, 224e-6),
)
"""Air at one atmosphere: temperature [K], kinematic viscosity [m2/s], conductivity [W/(m K)], diffusivity [m2/s], by
Incropera et al., 6th ed., table A.4."""


def natural_convection(diameter: float, skin: float, air: float) -> float:
    """Heat transfer coefficient of still air round a horizontal round bar [W/(m2 K)].

    Args:
        diameter: diameter of the bar [m]
        skin: temperature of its skin [K]
        air: temperature of the air [K]

    References:
        .. [1] Churchill and Chu, Correlating Equations for Laminar and Turbulent Free Convection from a Horizontal
           Cylinder, Int. J. Heat Mass Transfer 18 (1975) 1049-1053; Incropera et al., 6th ed., eq. 9.34. Good up to a
           Rayleigh number of 1e12; properties at the mean of both temperatures.
    """
    film = (skin + air) / 2
    k = min(max(bisect_right(_AIR, (film,)), 1), len(_AIR) - 1)
    (low, *below), (high, *above) = _AIR[k - 1], _AIR[k]
    share = (film - low) / (high - low)
    viscosity, conductivity, diffusivity = (a + share * (b - a) for a, b in zip(below, above, strict=True))
    rayleigh = _GRAVITY / film * abs(skin - air) * diameter**3 / (viscosity * diffusivity)
    prandtl = viscosity / diffusivity
    nusselt = (0.60 + 0.387 * rayleigh ** (1 / 6) / (1 + (0.559 / prandtl) ** (9 / 16)) ** (8 / 27)) ** 2
    return float(nusselt * conductivity / diameter)


def of_a_section(section: Section, air: float, skin: float = 1273.15) -> float:
    """Heat transfer coefficient of still air round a bar of any section [W/(m2 K)].

    The bar is taken for a round one with as long an outline.

    Between 600 and 1250 degC it changes by less than 13 % with the skin's temperature, which is less than 1 % of what
    the skin loses by radiation besides, so that one figure serves.

    Args:
        section: cross-section of the bar
        air: temperature of the air [K]
        skin: temperature of its skin [K]; 1000 degC, if nothing else is said
    """
    return natural_convection(section.around / pi, skin, air)
