"""The reckoning of cooling: how long a bar stays above a temperature in still air."""

from __future__ import annotations

from plans.blows import Blows, StruckBy
from plans.reckoned import Reckoned
from plans.reckoner import checks
from plans.reckoner.bars import (
    EDGE_ERROR,
    PATIENCE,
    SOLVER_ERROR,
    accuracy,
    biot,
    conduction_source,
    curve_of,
    lumped,
    of_the_bar,
    of_the_skin,
    spread,
    trusted,
)
from plans.reckoner.errors import ReckonError
from plans.reckoner.figures import Figure, Given, given
from plans.reckoner.kinds import NUMBER, SECONDS, TEMPERATURE
from plans.reckoner.reckoning import CurvePoint, Reckoning
from plans.shapes import Section, coldest_place
from plans.units import Shown, Units, in_both
from plans.warmth import (
    ARREST,
    DOUBT,
    ROOM,
    BarShape,
    Course,
    Part,
    WarmModel,
    cooling_time,
    course_of,
    of_a_section,
    range_of,
    still_air,
    striking,
)


def reckon_cooling(
    section: Section,
    start: float,
    end: float,
    length: float | None = None,
    emissivity: float | None = None,
    convection: float | None = None,
    air: float = ROOM,
    blows: Blows | None = None,
) -> Reckoning:
    """How long until a bar, warm through, has fallen to a temperature: its skin, its coldest place, its struck face.

    Args:
        section: cross-section of the bar
        start: temperature of the bar to begin with [K]
        end: temperature that it must fall to [K]
        length: length of a bar with both ends bare [m]; None for a long bar whose ends don't count
        emissivity: total emissivity of its skin; None for that of scaled steel, with its range
        convection: heat transfer coefficient of the air [W/(m2 K)]; None for that of still air round such a section
        air: temperature of the shop's air [K]
        blows: what it is struck with meanwhile; None for a bar that is held in the air

    Raises:
        ReckonError: a figure is none that a bar or the air can have, or the skin never falls so low.
    """
    checks.bar(section, length)
    checks.warmth_of_fire("air", air)
    carried_off = of_a_section(section, air) if convection is None else convection
    checks.skin(emissivity, carried_off)
    checks.warmth_of_steel("from", start)
    if not air + checks.NEAREST <= end < start:
        why = f"{in_both(end)}: give one below the {in_both(start)} that it cools from"
        raise ReckonError("to", f"{why}, and at least {checks.NEAREST_IN_BOTH} above the air's {in_both(air)}")

    def course(at_emissivity: float, contact: float) -> Course:
        around = still_air(air, at_emissivity, carried_off)
        return course_of(bar, around if blows is None else striking(blows, around, contact))

    bar, shape = WarmModel(section, length, start), BarShape.of(section, length)
    usual, black, dull = spread(emissivity)
    likely, quick, slow = course(usual, 1.0), [course(black, 1.0)], [course(dull, 1.0)]
    if blows is not None:
        quick.append(course(usual, DOUBT))
        slow.append(course(usual, 1 / DOUBT))

    def cooled(name: str, label: str, part: Part, error: float) -> Figure:
        def after(one: Course) -> float | None:
            return one.time_until(part, end, falls=True, within=PATIENCE)

        seconds = after(likely)
        if seconds is None:
            raise ReckonError("to", f"{in_both(end)}: it takes more than {PATIENCE / 3600:.0f} h to cool so far")
        sooner = [time for one in quick if (time := after(one)) is not None]
        quickest, slowest = range_of(seconds, sooner, [after(one) for one in slow])
        validity = _validity(end, emissivity, blows)
        return Figure(name, label, trusted(seconds, quickest, slowest, validity, error), SECONDS)

    of_skin = cooled("seconds", "skin cooled after", Part.SKIN, SOLVER_ERROR if blows is None else EDGE_ERROR)
    assert of_skin.reckoned is not None
    curve = curve_of(likely, of_skin.reckoned.value)
    around = still_air(air, usual, carried_off)
    thin = biot(shape, around, start)
    coldest = cooled("coldest_seconds", f"its {coldest_place(section)} after", Part.COLDEST, EDGE_ERROR)
    face = () if blows is None else (cooled("face_seconds", "struck face after", Part.FACE, EDGE_ERROR),)
    return Reckoning(
        "cooling",
        (
            *of_the_bar(section, length),
            given("from_celsius", "from", start, TEMPERATURE),
            given("to_celsius", "to", end, TEMPERATURE),
            given("air_celsius", "still air", air, TEMPERATURE),
            *of_the_skin(emissivity, carried_off),
            *_of_blows(blows),
        ),
        (
            coldest,
            *face,
            of_skin,
            Figure("middle_celsius", "middle then", _middle(curve), TEMPERATURE),
            Figure(
                "lumped_seconds",
                "lumped, for comparison" if blows is None else "lumped and held in the air, for comparison",
                lumped(lambda: cooling_time(start, end, shape, around), thin.value),
                SECONDS,
            ),
            Figure("biot_number", "Biot number", thin, NUMBER),
        ),
        curve,
    )


def _of_blows(blows: Blows | None) -> tuple[Given, ...]:
    if blows is None:
        return ()
    return (
        Given("struck_by", blows.by.value, blows.by.value),
        Given("contact_seconds", blows.seconds, f"touching for {blows.seconds:g} s"),
        Given("contact_every_seconds", blows.every, f"of every {blows.every:g} s"),
    )


def _validity(end: float, emissivity: float | None, blows: Blows | None) -> Shown:
    low, high = ARREST

    def text(units: Units) -> str:
        held = (
            "held clear of everything"
            if blows is None
            else f"struck with a {blows.by}"
            if blows.by != StruckBy.PRESS
            else "under a press"
        )
        said = f"warm through to begin with, carbon steel, {held}; {accuracy(emissivity)}"
        if blows is not None:
            said += f"; the contact conductance, from memory, may be {DOUBT:g} times as large or as small"
            said += "; the mean over touching and not touching, while for as long as a tool touches its face is colder"
        if end < high:
            said += f"; the arrest is taken between {units.temperature(high)} and {units.temperature(low)}, from memory"
        return (
            f"{said}; {'tongs, the anvil and draughts make' if blows is None else 'tongs and draughts make'} it shorter"
        )

    return text


def _middle(curve: tuple[CurvePoint, ...]) -> Reckoned:
    return Reckoned(curve[-1].middle, "modelled", "the very middle when the skin is there", conduction_source)
