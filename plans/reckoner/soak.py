"""The reckoning of a soak: how long a bar must lie in the fire until its middle has come up."""

from __future__ import annotations

from plans.reckoned import Reckoned
from plans.reckoner import checks
from plans.reckoner.bars import (
    PATIENCE,
    accuracy,
    biot,
    conduction_source,
    curve_of,
    lumped,
    of_the_section,
    of_the_skin,
    spread,
    trusted,
)
from plans.reckoner.errors import ReckonError
from plans.reckoner.figures import Figure, given
from plans.reckoner.kinds import NUMBER, SECONDS, TEMPERATURE
from plans.reckoner.reckoning import Reckoning
from plans.shapes import Section
from plans.units import in_both
from plans.warmth import ROOM, BarShape, Course, Part, WarmModel, cooling_time, course_of, surroundings


def reckon_soak(
    section: Section,
    fire: float,
    middle: float,
    start: float = ROOM,
    emissivity: float | None = None,
    convection: float = 20.0,
) -> Reckoning:
    """How long until the middle of a bar, put into a fire, has come to a temperature.

    Args:
        section: cross-section of the bar
        fire: temperature of the walls and the gas of a closed fire or an oven [K]
        middle: temperature that the middle must come to [K]
        start: temperature of the bar to begin with [K]
        emissivity: total emissivity of its skin; None for that of scaled steel, with its range
        convection: heat transfer coefficient of the fire's gas [W/(m2 K)]

    Raises:
        ReckonError: a figure is none that a bar or a fire can have, or the middle never gets so warm.
    """
    checks.bar(section, None)
    checks.skin(emissivity, convection)
    checks.warmth_of_fire("fire", fire)
    checks.warmth_of_steel("from", start)
    checks.warmth_of_steel("middle", middle)
    if not start < middle <= fire - checks.NEAREST:
        why = f"{in_both(middle)}: give one above the {in_both(start)} that it begins with"
        raise ReckonError("middle", f"{why}, and at least {checks.NEAREST_IN_BOTH} below the fire's {in_both(fire)}")

    def course(at_emissivity: float) -> Course:
        return course_of(bar, surroundings.fire(fire, at_emissivity, convection))

    def soaked(in_course: Course, part: Part = Part.MIDDLE) -> float | None:
        return in_course.time_until(part, middle, falls=False, within=PATIENCE)

    bar, shape = WarmModel(section, start=start), BarShape.of(section)
    usual, black, dull = spread(emissivity)
    likely = course(usual)
    seconds, quickest, slowest = soaked(likely), soaked(course(black)), soaked(course(dull))
    if seconds is None:
        why = f"{in_both(middle)}: it takes more than {PATIENCE / 3600:.0f} h to come so close to the fire"
        raise ReckonError("middle", why)
    around = surroundings.fire(fire, usual, convection)
    curve = curve_of(likely, seconds)
    thin = biot(shape, around, middle)
    said = f"a long bar of carbon steel lying free in a closed fire of one temperature; {accuracy(emissivity)}"
    whole = f"{said}; a fire that is open, or cooled by the work, takes longer"
    at_skin = soaked(likely, Part.SKIN)
    skin_then = Reckoned(curve[-1].skin, "modelled", "when the middle is there", conduction_source)
    return Reckoning(
        "soak",
        (
            of_the_section(section),
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
