"""Checks of what is given to a reckoning: limits beyond which a figure is a slip of the pen."""

from __future__ import annotations

from math import isfinite

from plans.reckoner.errors import ReckonError
from plans.shapes import Section
from plans.units import both, in_both, kelvin

MELTED = kelvin(1540)
"""Temperature at which all steel has melted [K]."""
HOTTEST_FIRE = kelvin(2000)
"""Hottest fire that can be asked about [K]."""
THINNEST, THICKEST = 1e-4, 1.0
"""Thinnest and thickest bar that can be asked about [m]."""
LONGEST = 100.0
"""Longest bar and widest plate that can be asked about [m]."""
NEAREST = 10.0
"""How near to the temperature of what is round it a bar can be asked about: a temperature difference [K].

A bar only creeps up to it: nearer than this the time is that of the solver's own error.
"""
NEAREST_IN_BOTH = both(lambda units: units.difference(NEAREST))
"""`NEAREST` as an error says it."""
LONGEST_TIME = 1e7
"""Longest time that can be asked about, some four months [s]."""


def warmth_of_steel(given: str, at: float) -> None:
    """Make sure that steel is solid at a temperature.

    Args:
        given: name of what was given, for the error
        at: the temperature [K]

    Raises:
        ReckonError: it is not above absolute zero, or steel melts before it.
    """
    _above_absolute_zero(given, at)
    if not at <= MELTED:
        raise ReckonError(given, f"{in_both(at)}: steel melts before {in_both(MELTED)}; give less")


def warmth_of_fire(given: str, at: float) -> None:
    """Make sure that a fire or the air can have a temperature.

    Args:
        given: name of what was given, for the error
        at: the temperature [K]

    Raises:
        ReckonError: it is not above absolute zero, or above `HOTTEST_FIRE`.
    """
    _above_absolute_zero(given, at)
    if not at <= HOTTEST_FIRE:
        raise ReckonError(given, f"{in_both(at)}: give one up to {in_both(HOTTEST_FIRE)}")


def _above_absolute_zero(given: str, at: float) -> None:
    if at <= 0:
        raise ReckonError(given, f"nothing is as cold as {in_both(at)}: give a temperature above absolute zero")


def bar(section: Section, length: float | None, name: str = "section") -> None:
    """Make sure that a bar can have a section and a length.

    Args:
        section: cross-section of the bar
        length: its length [m]; None for a long bar
        name: what the section was given as, for the error

    Raises:
        ReckonError: the section or the length is too small or too large.
    """
    if not (THINNEST <= section.thickness <= THICKEST and section.width <= LONGEST):
        raise ReckonError(name, "give a bar from 0.1 mm to 1 m thick, and no wider than 100 m")
    if length is not None and not THINNEST <= length <= LONGEST:
        raise ReckonError("length", "give one from 0.1 mm to 100 m")


def time(given: str, seconds: float) -> None:
    """Make sure that a time is one that somebody would wait.

    Args:
        given: name of what was given, for the error
        seconds: the time [s]

    Raises:
        ReckonError: it is not above zero, or above `LONGEST_TIME`.
    """
    if not 0 < seconds <= LONGEST_TIME:
        raise ReckonError(given, "give a time above zero and below four months")


def skin(emissivity: float | None, convection: float) -> None:
    """Make sure that a skin can have an emissivity and a convection.

    Args:
        emissivity: total emissivity; None for that of scaled steel
        convection: heat transfer coefficient [W/(m2 K)]

    Raises:
        ReckonError: the emissivity is not from 0 to 1, the convection is no sensible number, or both are 0.
    """
    if emissivity is not None and not 0 <= emissivity <= 1:
        raise ReckonError("emissivity", f"{emissivity:g}: it lies between 0 and 1, scaled steel at 0.8")
    if not (isfinite(convection) and 0 <= convection <= 1e5):
        raise ReckonError("convection", f"{convection:g} W/m^2/K: still air has about 10, a gas fire 20")
    if emissivity == 0 and convection == 0:
        raise ReckonError("emissivity", "without radiation and without convection nothing warms or cools")
