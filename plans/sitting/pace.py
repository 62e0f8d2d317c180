"""How fast the temperature of steel of a section can change at most, and how fast it must fall in air at least.

These are bounds with room to spare, not forecasts: they tell a loose contact from steel, and a burner that was turned
down from work that came out. The work is one temperature throughout, its heat flows through the whole of its side.
"""

from __future__ import annotations

from functools import cache

from plans.plan import Plan
from plans.shapes import Section
from plans.units import ZERO_CELSIUS
from plans.warmth import ROOM, still_air

_DENSITY = 7850.0
"""Of steel in the cold; EN 1993-1-2:2005, 3.2.2 [kg/m3]."""
_HEAT_LEAST, _HEAT_MOST = 500.0, 700.0
"""Specific heat of steel away from its transformation, round; EN 1993-1-2:2005, 3.4.1.2 has 440 at 20 degC and 650
from 900 degC up [J/(kg K)]."""
_GENEROUSLY = 2.0
"""The fastest change is taken so many times as fast as it comes out."""
_HOTTEST_FIRE = 1350.0 + ZERO_CELSIUS
"""Taken for a fire that no step names [K]."""
TRANSFORMS_BELOW = 800.0 + ZERO_CELSIUS
"""From here down a fall may pause for the heat of the transformation: no bound holds [K]."""
LATENT = 82e3
"""Heat of the change from austenite to pearlite of plain eutectoid steel: 19.6 cal/g by Hagel, Pound and Mehl, Acta
Metallurgica 4 (1956), good to 5 % [J/kg]."""


def fastest_change(plan: Plan) -> float | None:
    """The fastest that the work of a plan can warm or cool, but for a quench or a blow [K/s]; None if no step tells.

    A skin of emissivity 0.9 and 30 W/(m2 K) in the plan's hottest fire, for the thinnest section, twice over.
    """
    sections = [section for step in plan.steps for section in (step.section, step.reach, step.thin) if section]
    if not sections:
        return None
    fires = [target.fire for step in plan.steps for target in step.targets]
    hottest = max(fires, default=_HOTTEST_FIRE)
    flux = _flux(hottest, emissivity=0.9, convection=30.0)
    return _GENEROUSLY * flux * max(map(_skin_per_volume, sections)) / (_DENSITY * _HEAT_LEAST)


def slowest_fall(section: Section, kelvin: float) -> float:
    """How fast work falls in still air at the least, by emissivity 0.6 and 5 W/(m2 K) [K/s].

    0 from where it may transform, and where it is hardly warmer than the air.

    Args:
        section: of the work
        kelvin: its temperature [K]
    """
    return 0.0 if kelvin < TRANSFORMS_BELOW else untransformed_fall(section, kelvin)


def untransformed_fall(section: Section, kelvin: float) -> float:
    """How fast work falls in still air at the least while no transformation holds it up [K/s].

    By emissivity 0.6 and 5 W/(m2 K), at any temperature; 0 where it is no warmer than the air.

    Args:
        section: of the work
        kelvin: its temperature [K]
    """
    return max(0.0, _flux(kelvin, 0.6, 5.0)) * _skin_per_volume(section) / (_DENSITY * _HEAT_MOST)


def longest_pause(section: Section, kelvin: float) -> float:
    """How long an arrest lasts if the whole change comes at one temperature, in still air [s].

    Its heat over what the skin gives off at emissivity 0.8 and 10 W/(m2 K).

    Args:
        section: of the work
        kelvin: where the fall pauses [K]
    """
    return LATENT * _DENSITY / (_flux(kelvin, 0.8, 10.0) * _skin_per_volume(section))


def section_at(plan: Plan, step: int, heat: int) -> Section | None:
    """The section in a heat of a step, or what the last step before that tells one; None where none does."""
    found = plan.steps[step].section_at(heat)
    while found is None and step > 0:
        step -= 1
        found = plan.steps[step].reach or plan.steps[step].section
    return found


def _flux(kelvin: float, emissivity: float, convection: float) -> float:
    """Heat flux between a skin and surroundings, one of them at `kelvin` and the other in the cold [W/m2]."""
    incoming, linear, radiation = _cold(emissivity, convection)
    return -(incoming - linear * kelvin - radiation * kelvin**4)


@cache
def _cold(emissivity: float, convection: float) -> tuple[float, float, float]:
    """What flows into a skin in the cold: at 0 K, for each kelvin, and for each kelvin to the fourth."""
    air = still_air(ROOM, emissivity, convection)
    return air.incoming, air.linear, air.radiation


def _skin_per_volume(section: Section) -> float:
    """Outline over area [1/m]."""
    return section.around / section.area
