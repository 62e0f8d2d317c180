"""What can be asked at all: limits beyond which a figure is a slip of the pen."""

from __future__ import annotations

from math import isfinite

from plans.reckoner.errors import ReckonError
from plans.reckoner.kinds import both
from plans.section import Section
from plans.units import kelvin

MELTED = kelvin(1540)
"""Steel is no bar any more [K]."""
HOTTEST_FIRE = kelvin(2000)
"""[K]"""
THINNEST, THICKEST = 1e-4, 1.0
"""Of a bar [m]."""
LONGEST = 100.0
"""Of a bar, and the widest plate [m]."""
NEAREST = 10.0
"""A bar only creeps up to what is round it: nearer than this the time is that of the solver's own error [K]."""
LONGEST_TIME = 1e7
"""Some four months [s]."""


def warmth_of_steel(given: str, at: float) -> None:
    """A `ReckonError` unless steel is solid at this temperature [K]."""
    if not 0 < at <= MELTED:
        raise ReckonError(given, f"{both(at)}: steel melts before {both(MELTED)}; give less")


def warmth_of_fire(given: str, at: float) -> None:
    """A `ReckonError` unless a fire or the air can have this temperature [K]."""
    if not 0 < at <= HOTTEST_FIRE:
        raise ReckonError(given, f"{both(at)}: give one up to {both(HOTTEST_FIRE)}")


def bar(section: Section, length: float | None) -> None:
    """A `ReckonError` unless a bar can have this section, and this length [m]."""
    if not (THINNEST <= section.thickness <= THICKEST and section.width <= LONGEST):
        raise ReckonError("section", "give a bar from 0.1 mm to 1 m thick, and no wider than 100 m")
    if length is not None and not THINNEST <= length <= LONGEST:
        raise ReckonError("length", "give one from 0.1 mm to 100 m")


def time(given: str, seconds: float) -> None:
    """A `ReckonError` unless it is a time above zero that somebody would wait [s]."""
    if not 0 < seconds <= LONGEST_TIME:
        raise ReckonError(given, "give a time above zero and below four months")


def skin(emissivity: float | None, convection: float) -> None:
    """A `ReckonError` unless a skin can have this emissivity, and this convection [W/(m2 K)]."""
    if emissivity is not None and not 0 <= emissivity <= 1:
        raise ReckonError("emissivity", f"{emissivity:g}: it lies between 0 and 1, scaled steel at 0.8")
    if not (isfinite(convection) and 0 <= convection <= 1e5):
        raise ReckonError("convection", f"{convection:g} W/m^2/K: still air has about 10, a gas fire 20")
    if emissivity == 0 and convection == 0:
        raise ReckonError("emissivity", "without radiation and without convection nothing warms or cools")
