"""What the work gives its heat to, or takes it from: fire, air, anvil, oil."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import isfinite

from plans.section import Section
from plans.units import ZERO_CELSIUS
from plans.warmth.material import HOTTEST

STEFAN_BOLTZMANN = 5.670374419e-8
"""CODATA 2018 [W/(m2 K4)]."""

ROOM = ZERO_CELSIUS + 20.0
"""The air of the shop, when nobody says otherwise [K]."""

SCALED_STEEL = 0.8
"""Total emissivity of hot, scaled steel; published values for oxidised iron at forging heat run to 0.89 +- 0.05."""


@dataclass(frozen=True, slots=True)
class Surroundings:
    """Radiation from all round, convection, and contact with something solid, each averaged over the whole skin."""

    radiating: float
    """Temperature of what the skin sees [K]."""
    air: float
    """Temperature of the air, the fire's gas or the oil at the skin [K]."""
    emissivity: float = SCALED_STEEL
    convection: float = 10.0
    """Heat transfer coefficient [W/(m2 K)]."""
    contact: float = 0.0
    """Contact conductance times the share of the skin and of the time that it touches [W/(m2 K)]."""
    touching: float = ROOM
    """Temperature of what it touches [K]."""
    factor: float = 1.0
    """What all of these flows are multiplied by, as learned in a shop."""

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
        """The same, giving and taking so many times as much: steady temperature and all else stay."""
        return self if factor == 1.0 else replace(self, factor=self.factor * factor)

    @property
    def radiation(self) -> float:
        """Emissivity times the Stefan-Boltzmann constant [W/(m2 K4)]."""
        return self.factor * self.emissivity * STEFAN_BOLTZMANN

    @property
    def linear(self) -> float:
        """Convection and contact together [W/(m2 K)]."""
        return self.factor * (self.convection + self.contact)

    @property
    def incoming(self) -> float:
        """Flux into a skin at 0 K [W/m2]; `flux` is this less `linear` * T less `radiation` * T^4."""
        radiation = self.emissivity * STEFAN_BOLTZMANN * self.radiating**4
        return self.factor * (radiation + self.convection * self.air + self.contact * self.touching)

    def flux(self, skin: float) -> float:
        """Heat into the skin at a temperature, below zero where it cools [W/m2]."""
        return self.incoming - self.linear * skin - self.radiation * skin**4

    def steady(self) -> float:
        """The temperature that the work comes to in the end, where nothing flows any more [K]."""
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
        """How steeply the flux falls with the skin's temperature; the heat transfer coefficient of a Biot number.

        Returns:
            -dq/dT [W/(m2 K)]
        """
        return self.linear + 4 * self.radiation * skin**3


def still_air(kelvin: float = ROOM, emissivity: float = SCALED_STEEL, convection: float = 10.0) -> Surroundings:
    """A bar held in the still air of the shop [K]."""
    return Surroundings(kelvin, kelvin, emissivity, convection)


def fire(kelvin: float, emissivity: float = SCALED_STEEL, convection: float = 20.0) -> Surroundings:
    """A closed fire or an oven, walls and gas at one temperature [K]."""
    return Surroundings(kelvin, kelvin, emissivity, convection)


ANVIL = ZERO_CELSIUS + 80.0
"""An anvil's face in use; from memory [K]."""
ANVIL_CONDUCTANCE = 1000.0
"""Scaled steel on an anvil, averaged over blows and rest; from memory, no source, uncertain by a
factor of three [W/(m2 K)]."""
ANVIL_SHARE = 0.15
"""Share of the time that the work really touches while it is struck; from memory, no source."""


def striking(section: Section, air: float = ROOM, share: float = ANVIL_SHARE) -> Surroundings:
    """Work on the anvil: air all round, and its broad face on the anvil for a share of the time.

    Args:
        section: gives what part of the skin the broad face is; a round bar touches as its square would
        air: of the shop [K]
        share: of the time in contact
    """
    face = 0.25 if section.is_round else section.width / (2 * (section.width + section.thickness))
    return Surroundings(air, air, SCALED_STEEL, 10.0, ANVIL_CONDUCTANCE * face * share, ANVIL)


OIL_CONVECTION = 1000.0
"""Quenching oil, averaged from vapour to boiling to convection; from memory, no source, a factor of two [W/(m2 K)]."""


def oil(kelvin: float = ZERO_CELSIUS + 55.0) -> Surroundings:
    """A bar moved about in quenching oil [K]."""
    return Surroundings(kelvin, kelvin, 0.0, OIL_CONVECTION)
