"""The reckoning of a soak: how long a bar must lie in the fire until its middle has come up."""

from __future__ import annotations

from plans.reckoned import Reckoned
from plans.reckoner import checks
from plans.reckoner.bars import (
    PATIENCE,
    accuracy,
    biot,
    conduction_source,
    course,
    lumped,
    of_the_bar,
    of_the_skin,
    spread,
    trusted,
)
from plans.reckoner.errors import ReckonError
from plans.reckoner.figures import Figure, given
from plans.reckoner.kinds import NUMBER, SECONDS, TEMPERATURE
from plans.reckoner.reckoning import Reckoning
from plans.section import Section
from plans.units import in_both
from plans.warmth import ROOM, BarShape, WarmModel, cooling_time, skin_time, soak_time, surroundings


def reckon_soak(
    section: Section,
    fire: float,
    middle: float,
    start: float = ROOM,
    length: float | None = None,
    emissivity: float | None = None,
    convection: float = 20.0,
) -> Reckoning:
    """How long until the middle of a bar, put into a fire, has come to a temperature.

    Args:
        section: cross-section of the bar
        fire: temperature of the walls and the gas of a closed fire or an oven [K]
        middle: temperature that the middle must come to [K]
        start: temperature of the bar to begin with [K]
        length: length of a bar with both ends bare [m]; None for a long bar whose ends don't count
        emissivity: total emissivity of its skin; None for that of scaled steel, with its range
        convection: heat transfer coefficient of the fire's gas [W/(m2 K)]

    Raises:
        ReckonError: a figure is none that a bar or a fire can have, or the middle never gets so warm.
    """
    checks.bar(section, length)
    checks.skin(emissivity, convection)
    checks.warmth_of_fire("fire", fire)
    checks.warmth_of_steel("from", start)
    checks.warmth_of_steel("middle", middle)
    if not start < middle <= fire - checks.NEAREST:
        why = f"{in_both(middle)}: give one above the {in_both(start)} that it begins with"
        raise ReckonError("middle", f"{why}, and at least {checks.NEAREST_IN_BOTH} below the fire's {in_both(fire)}")

    def soaked(at_emissivity: float) -> float | None:
        return soak_time(bar, surroundings.fire(fire, at_emissivity, convection), middle, PATIENCE)

    bar, shape = WarmModel(section, length, start), BarShape.of(section, length)
    usual, black, dull = spread(emissivity)
    seconds, quickest, slowest = soaked(usual), soaked(black), soaked(dull)
    if seconds is None:
        why = f"{in_both(middle)}: it takes more than {PATIENCE / 3600:.0f} h to come so close to the fire"
        raise ReckonError("middle", why)
    around = surroundings.fire(fire, usual, convection)
    curve = course(bar, around, seconds)
    thin = biot(shape, around, middle)
    said = f"carbon steel lying free in a closed fire of one temperature; {accuracy(emissivity)}"
    whole = f"{said}; a fire that is open, or cooled by the work, takes longer"
    at_skin = skin_time(bar, around, middle, PATIENCE)
    skin_then = Reckoned(curve[-1].skin, "modelled", "when the middle is there", conduction_source)
    return Reckoning(
        "soak",
        (
            *of_the_bar(section, length),
            given("from_celsius", "from", start, TEMPERATURE),
            given("fire_celsius", "fire", fire, TEMPERATURE),
            given("middle_celsius", "middle to", middle, TEMPERATURE),
            *of_the_skin(emissivity, convection),
        ),
        (
            Figure("seconds", "middle up after", trusted(seconds, quickest, slowest, whole), SECONDS),
            Figure(
                "skin_seconds",
                "skin up after",
                None
                if at_skin is None
                else Reckoned(at_skin, "modelled", "the soak proper begins here", conduction_source),
                SECONDS,
                "never",
            ),
            Figure("skin_celsius", "skin then", skin_then, TEMPERATURE),
            Figure(
                "lumped_seconds",
                "lumped, for comparison",
                lumped(lambda: cooling_time(start, middle, shape, around), thin.value),
                SECONDS,
            ),
            Figure("biot_number", "Biot number", thin, NUMBER),
        ),
        curve,
    )
