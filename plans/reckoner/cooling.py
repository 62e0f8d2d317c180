"""The reckoning of cooling: how long a bar stays above a temperature in still air."""

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
from plans.reckoner.reckoning import CurvePoint, Reckoning
from plans.section import Section
from plans.units import Shown, Units, in_both
from plans.warmth import ARREST, ROOM, BarShape, WarmModel, cooling_time, hammer_time, still_air


def reckon_cooling(
    section: Section,
    start: float,
    end: float,
    length: float | None = None,
    emissivity: float | None = None,
    convection: float = 10.0,
    air: float = ROOM,
) -> Reckoning:
    """How long until the skin of a bar, warm through, has fallen to a temperature in still air.

    Args:
        section: cross-section of the bar
        start: temperature of the bar to begin with [K]
        end: temperature that its skin must fall to [K]
        length: length of a bar with both ends bare [m]; None for a long bar whose ends don't count
        emissivity: total emissivity of its skin; None for that of scaled steel, with its range
        convection: heat transfer coefficient of the air [W/(m2 K)]
        air: temperature of the shop's air [K]

    Raises:
        ReckonError: a figure is none that a bar or the air can have, or the skin never falls so low.
    """
    checks.bar(section, length)
    checks.skin(emissivity, convection)
    checks.warmth_of_steel("from", start)
    checks.warmth_of_fire("air", air)
    if not air + checks.NEAREST <= end < start:
        why = f"{in_both(end)}: give one below the {in_both(start)} that it cools from"
        raise ReckonError("to", f"{why}, and at least {checks.NEAREST_IN_BOTH} above the air's {in_both(air)}")

    def cooled(at_emissivity: float) -> float | None:
        return hammer_time(bar, still_air(air, at_emissivity, convection), end, PATIENCE)

    bar, shape = WarmModel(section, length, start), BarShape.of(section, length)
    usual, black, dull = spread(emissivity)
    seconds, quickest, slowest = cooled(usual), cooled(black), cooled(dull)
    if seconds is None:
        raise ReckonError("to", f"{in_both(end)}: it takes more than {PATIENCE / 3600:.0f} h to cool so far")
    around = still_air(air, usual, convection)
    curve = course(bar, around, seconds)
    thin = biot(shape, around, start)
    return Reckoning(
        "cooling",
        (
            *of_the_bar(section, length),
            given("from_celsius", "from", start, TEMPERATURE),
            given("to_celsius", "to", end, TEMPERATURE),
            given("air_celsius", "still air", air, TEMPERATURE),
            *of_the_skin(emissivity, convection),
        ),
        (
            Figure(
                "seconds", "skin cooled after", trusted(seconds, quickest, slowest, _validity(end, emissivity)), SECONDS
            ),
            Figure("middle_celsius", "middle then", _middle(curve), TEMPERATURE),
            Figure(
                "lumped_seconds",
                "lumped, for comparison",
                lumped(lambda: cooling_time(start, end, shape, around), thin.value),
                SECONDS,
            ),
            Figure("biot_number", "Biot number", thin, NUMBER),
        ),
        curve,
    )


def _validity(end: float, emissivity: float | None) -> Shown:
    low, high = ARREST

    def text(units: Units) -> str:
        said = f"warm through to begin with, carbon steel, held clear of everything; {accuracy(emissivity)}"
        if end < high:
            said += f"; the arrest is taken between {units.temperature(high)} and {units.temperature(low)}, from memory"
        return f"{said}; tongs, the anvil and draughts make it shorter"

    return text


def _middle(curve: tuple[CurvePoint, ...]) -> Reckoned:
    return Reckoned(curve[-1].middle, "modelled", "the very middle when the skin is there", conduction_source)
