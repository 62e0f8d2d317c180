"""The surroundings that the work gives its heat to or takes it from: fire, air, anvil, oil."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import isfinite

from plans.section import Section
from plans.units import ZERO_CELSIUS
from plans.warmth.material import HOTTEST

STEFAN_BOLTZMANN = 5.670374419e-8
"""Stefan-Boltzmann constant, CODATA 2018 [W/(m2 K4)]."""

ROOM = ZERO_CELSIUS + 20.0
"""Temperature of the shop's air where nothing else is said, 20 degC [K]."""

SCALED_STEEL = 0.8
"""Total emissivity of hot, scaled steel; published values for oxidised iron at forging heat run to 0.89 +- 0.05."""


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What is round the work: radiation, convection, and contact with something solid, averaged over its whole skin.

    Raises:
        ValueError: a temperature is not above 0 K, or above `HOTTEST`; the emissivity is not from 0 to 1; another
            figure is below 0.
    """

    radiating: float
    """Temperature of what the skin sees, and so radiates to [K]."""
    air: float
    """Temperature of the air, the fire's gas or the oil at the skin [K]."""
    emissivity: float = SCALED_STEEL
    """Total emissivity of the skin, from 0 to 1."""
    convection: float = 10.0
    """Heat transfer coefficient between the skin and the air, gas or oil [W/(m2 K)]."""
    contact: float = 0.0
    """Contact conductance times the share of the skin and of the time that it touches [W/(m2 K)]."""
    touching: float = ROOM
    """Temperature of the solid that the skin touches [K]."""
    factor: float = 1.0
    """Number that all heat flows are multiplied by, as learned in a shop."""

    def __post_init__(self) -> None:
        for name in ("radiating", "air", "touching"):
            if not 0 < getattr(self, name) <= HOTTEST:
                raise ValueError(f"surroundings: {name} must be above 0 K and no hotter than {HOTTEST:.0f} K")
        if not 0 <= self.emissivity <= 1:
            raise ValueError("surroundings: the emissivity lies between 0 and 1")
        for name in ("convection", "contact", "factor"):
            if not (isfinite(getattr(self, name)) and getattr(self, name) >= 0):
                raise ValueError(f"surroundings: {name} can't be below 0")

    def scaled(self, factor: float) -> Surroundings:
        """These surroundings with all heat flows multiplied; the temperature that the work comes to in the end stays.

        Args:
            factor: how many times as much heat flows, from 0 up
        """
        return self if factor == 1.0 else replace(self, factor=self.factor * factor)

    @property
    def radiation(self) -> float:
        """Coefficient of the skin's own radiation: emissivity times the Stefan-Boltzmann constant [W/(m2 K4)]."""
        return self.factor * self.emissivity * STEFAN_BOLTZMANN

    @property
    def linear(self) -> float:
        """Heat transfer coefficient of convection and contact together [W/(m2 K)]."""
        return self.factor * (self.convection + self.contact)

    @property
    def incoming(self) -> float:
        """Heat flux into a skin at 0 K [W/m2]; `flux` is this less `linear` * T less `radiation` * T^4."""
        radiation = self.emissivity * STEFAN_BOLTZMANN * self.radiating**4
        return self.factor * (radiation + self.convection * self.air + self.contact * self.touching)

    def flux(self, skin: float) -> float:
        """Heat flux into the skin, below 0 where it cools [W/m2].

        Args:
            skin: temperature of the skin [K]
        """
        return self.incoming - self.linear * skin - self.radiation * skin**4

    def steady(self) -> float:
        """Temperature that the work comes to in the end, where no heat flows any more [K]."""
        low = min(self.radiating, self.air, self.touching)
        high = max(self.radiating, self.air, self.touching)
        for _ in range(60):
            kelvin = (low + high) / 2
            if self.flux(kelvin) > 0:
                low = kelvin
            else:
                high = kelvin
        return (low + high) / 2

    def coefficient(self, skin: float) -> float:
        """Heat transfer coefficient -dq/dT: how steeply the flux falls with the skin's temperature [W/(m2 K)].

        Args:
            skin: temperature of the skin [K]
        """
        return self.linear + 4 * self.radiation * skin**3


def still_air(kelvin: float = ROOM, emissivity: float = SCALED_STEEL, convection: float = 10.0) -> Surroundings:
    """The surroundings of work held in the still air of a shop.

    Args:
        kelvin: temperature of the air and of the walls [K]
        emissivity: total emissivity of the skin, from 0 to 1
        convection: heat transfer coefficient of the air [W/(m2 K)]

    Raises:
        ValueError: a figure is none that surroundings can have.
    """
    return Surroundings(kelvin, kelvin, emissivity, convection)


def fire(kelvin: float, emissivity: float = SCALED_STEEL, convection: float = 20.0) -> Surroundings:
    """The surroundings of work in a closed fire or an oven, its walls and its gas at one temperature.

    Args:
        kelvin: temperature of walls and gas [K]
        emissivity: total emissivity of the skin, from 0 to 1
        convection: heat transfer coefficient of the gas [W/(m2 K)]

    Raises:
        ValueError: a figure is none that surroundings can have.
    """
    return Surroundings(kelvin, kelvin, emissivity, convection)


ANVIL = ZERO_CELSIUS + 80.0
"""Temperature of an anvil's face in use, 80 degC; from memory, no source [K]."""
ANVIL_CONDUCTANCE = 1000.0
"""Contact conductance between scaled steel and an anvil, averaged over blows and rest [W/(m2 K)].

From memory, no source, uncertain by a factor of three.
"""
ANVIL_SHARE = 0.15
"""Share of the time that the work really touches while it is struck; from memory, no source."""


def striking(section: Section, air: float = ROOM, share: float = ANVIL_SHARE) -> Surroundings:
    """The surroundings of work on the anvil: air all round, and its broad face on the anvil for a share of the time.

    Args:
        section: cross-section of the work, which says what part of its skin the broad face is; a round bar touches as
            a square one would
        air: temperature of the shop's air [K]
        share: share of the time for which the work touches the anvil, from 0 to 1

    Raises:
        ValueError: a figure is none that surroundings can have.
    """
    face = 0.25 if section.is_round else section.width / (2 * (section.width + section.thickness))
    return Surroundings(air, air, SCALED_STEEL, 10.0, ANVIL_CONDUCTANCE * face * share, ANVIL)


OIL_CONVECTION = 1000.0
"""Heat transfer coefficient of quenching oil, averaged over vapour, boiling and convection [W/(m2 K)].

From memory, no source, uncertain by a factor of two.
"""


def oil(kelvin: float = ZERO_CELSIUS + 55.0) -> Surroundings:
    """The surroundings of work moved about in quenching oil.

    Args:
        kelvin: temperature of the oil [K]

    Raises:
        ValueError: no oil that is calculated with has that temperature.
    """
    return Surroundings(kelvin, kelvin, 0.0, OIL_CONVECTION)
