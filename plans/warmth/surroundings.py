"""The surroundings that the work gives its heat to or takes it from: fire, air, anvil, oil."""

from __future__ import annotations

from dataclasses import replace
from math import isfinite

from plans.blows import USUAL, Blows, StruckBy
from plans.record import record
from plans.units import ZERO_CELSIUS
from plans.warmth.contact import TOOL, averaged
from plans.warmth.material import HOTTEST

STEFAN_BOLTZMANN = 5.670374419e-8
"""Stefan-Boltzmann constant, CODATA 2018 [W/(m2 K4)]."""

ROOM = ZERO_CELSIUS + 20.0
"""Temperature of the shop's air where nothing else is said, 20 degC [K]."""

SCALED_STEEL = 0.8
"""Total emissivity of hot, scaled steel: one figure for every temperature.

What is published does not agree on how it changes: tables for oxidised steel run from 0.74 at 100 degC over 0.80 at 200
to 600 to 0.89 at 1227 (camera manuals' table of total emissivities), while laboratories that measured carbon steel
differ by as much among themselves (VTT Research Notes 2299). `DULLEST` and `BLACKEST` are the range.
"""
DULLEST, BLACKEST = 0.70, 0.94
"""Least and greatest emissivity of scaled steel: the first as EN 1993-1-2 has carbon steel, the second of oxidised
iron, 0.89 +- 0.05."""


@record
class Surroundings:
    """What is round the work: radiation and convection all round, and contact with tools on the faces that they touch.

    Raises:
        ValueError: a temperature is not above 0 K, or above `HOTTEST`; the emissivity or the share is not from 0 to 1;
            another figure is below 0.
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
    """Contact conductance of the faces that tools touch, averaged over touching and not touching [W/(m2 K)]."""
    touching: float = ROOM
    """Temperature of the tools [K]."""
    share: float = 0.0
    """Share of the time for which they touch, when those faces give nothing to the air, from 0 to 1."""
    both_faces: bool = False
    """Whether they touch above as well as below, as two dies do; an anvil touches below."""
    factor: float = 1.0
    """Number that radiation and convection are multiplied by, as learned in a shop."""

    def __post_init__(self) -> None:
        for name in ("radiating", "air", "touching"):
            if not 0 < getattr(self, name) <= HOTTEST:
                raise ValueError(f"surroundings: {name} must be above 0 K and no hotter than {HOTTEST:.0f} K")
        for name in ("emissivity", "share"):
            if not 0 <= getattr(self, name) <= 1:
                raise ValueError(f"surroundings: {name} lies between 0 and 1")
        for name in ("convection", "contact", "factor"):
            if not (isfinite(getattr(self, name)) and getattr(self, name) >= 0):
                raise ValueError(f"surroundings: {name} can't be below 0")

    def scaled(self, factor: float, contact: float = 1.0) -> Surroundings:
        """These surroundings with their heat flows multiplied.

        Args:
            factor: how many times as much heat flows by radiation and convection, from 0 up
            contact: how many times as much flows into the tools, from 0 up
        """
        if factor == contact == 1.0:
            return self
        return replace(self, factor=self.factor * factor, contact=self.contact * contact)

    @property
    def touches_below_only(self) -> bool:
        """Whether the work lies on a tool, so that below it fares otherwise than above."""
        return self.contact > 0 and not self.both_faces

    @property
    def radiation(self) -> float:
        """Coefficient of the skin's own radiation: emissivity times the Stefan-Boltzmann constant [W/(m2 K4)]."""
        return self.factor * self.emissivity * STEFAN_BOLTZMANN

    @property
    def linear(self) -> float:
        """Heat transfer coefficient of convection [W/(m2 K)]."""
        return self.factor * self.convection

    @property
    def incoming(self) -> float:
        """Heat flux into a skin at 0 K [W/m2]; `flux` is this less `linear` * T less `radiation` * T^4."""
        return self.factor * (self.emissivity * STEFAN_BOLTZMANN * self.radiating**4 + self.convection * self.air)

    def flux(self, skin: float) -> float:
        """Heat flux into skin that no tool touches, below 0 where it cools [W/m2].

        Args:
            skin: temperature of the skin [K]
        """
        return self.incoming - self.linear * skin - self.radiation * skin**4

    def steady(self) -> float:
        """Temperature that work which no tool touches comes to in the end, where no heat flows any more [K]."""
        low, high = sorted((self.radiating, self.air))
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
        convection: heat transfer coefficient of the air [W/(m2 K)]; `natural_convection` tells it for a section

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


def striking(
    blows: Blows = USUAL[StruckBy.HAND], around: Surroundings | None = None, times: float = 1.0
) -> Surroundings:
    """The surroundings of work that is struck: air all round, and tools on the faces that they touch.

    Args:
        blows: what strikes it, and how long it touches
        around: the air; still air, if nothing else is said
        times: how many times the contact conductance is what it is taken for, as learned in a shop
    """
    return replace(
        around or still_air(),
        contact=averaged(blows, times),
        touching=TOOL[blows.by],
        share=blows.seconds / blows.every,
        both_faces=blows.by is not StruckBy.HAND,
    )


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
