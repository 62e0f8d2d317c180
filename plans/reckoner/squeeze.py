"""The reckoning of a squeeze between flat dies: the force it takes, or how far the press that one has will go."""

from __future__ import annotations

from dataclasses import replace

from plans.blows import USUAL, StruckBy
from plans.press import (
    DIES_SOURCE,
    MOST_CARBON,
    SPREAD_SOURCE,
    WIDEST_BITE,
    Hot,
    Squeeze,
    flow_stress,
    force_needed,
    height_reached,
    squeeze_drawn,
    widest_dies,
    work_needed,
)
from plans.reckoned import Reckoned
from plans.reckoner import checks
from plans.reckoner.bars import of_the_section
from plans.reckoner.errors import ReckonError
from plans.reckoner.figures import Fact, Figure, Given, given
from plans.reckoner.kinds import (
    FORCE,
    LENGTH,
    MASS_PERCENT,
    NUMBER,
    SECONDS,
    STRESS,
    TEMPERATURE,
    TYPED_LENGTH,
    WORK,
)
from plans.reckoner.reckoning import Reckoning
from plans.shapes import Section
from plans.units import Units

CARBON = 0.8
"""Carbon that is taken where none is given [% by mass]."""
USUAL_SQUEEZE = 0.2
"""Share of the height that is taken where none is given: a fifth; common practice, no source."""
_CAUTION = (
    "local codes and the maker's manual come first; never more than the frame is made for; guards on, hands and faces "
    "out of line: cold or slanted work flies, hoses burst; pressure off before anything is changed"
)
_LEAST_FORCE, _MOST_FORCE = 1e3, 1e8


def reckon_squeeze(
    section: Section,
    at: float,
    dies: float,
    force: float | None = None,
    to: float | None = None,
    height: float | None = None,
    carbon: float = CARBON,
    seconds: float | None = None,
) -> Reckoning:
    """What force a squeeze takes and what it makes of the bar; with a force, how far that goes in one squeeze.

    Args:
        section: of the bar; one that is not flat counts as one as wide on average
        at: its temperature, all through [K]
        dies: width of the dies along the bar, and so the length of bar between them [m]
        force: that the press has [N]; None where it is not asked how far it goes
        to: height to come to [m]; None for `USUAL_SQUEEZE` lower
        height: which side of the bar stands between the dies [m]; None for the smaller
        carbon: content of the steel [% by mass]
        seconds: how long a squeeze takes [s]; None for what is usual of a press

    Raises:
        ReckonError: a figure is none that can be, or the section has an edge.
    """
    hot = _hot(at, carbon, seconds)
    before, wide = _sides(section, height)
    if not 1e-3 <= dies <= 1.0:
        raise ReckonError("dies", "give the width of the dies along the bar, from 1 mm to 1 m")
    if force is not None and not _LEAST_FORCE <= force <= _MOST_FORCE:
        raise ReckonError("force", "give what the press brings, from 1 kN to 100 MN, e.g. 25 tonne")
    lower = before * (1 - USUAL_SQUEEZE) if to is None else to
    if not 0.5 * before < lower < before:
        raise ReckonError("to", "give a height below that of the bar, and above half of it: one squeeze takes no more")
    wanted = Squeeze(before, wide, dies, lower)
    needed = force_needed(wanted, hot)
    found: list[Figure | Fact] = [Figure("force_needed_newton", "force to wanted height", needed, FORCE)]
    done, said = wanted, ""
    if force is None:
        exact = Reckoned(lower, "arithmetic", "the height that is asked for", "")
        found += [Figure("height_mm", "wanted height", exact, TYPED_LENGTH), *_made(done)]
    else:
        reached = height_reached(before, wide, dies, force, hot)
        done, said = replace(wanted, height_then=reached.value), "with the press: "
        found += [
            Figure("height_mm", "height with the press", reached, LENGTH),
            *_made(done, " with the press"),
            *_narrower(wanted, force, hot),
        ]
    pressed = needed.times(1 / (dies * wanted.width_then), needed.validity)
    found += [
        Figure("pressure_mpa", "pressure on the dies", pressed, STRESS),
        Figure("flow_stress_mpa", "steel resists with", flow_stress(hot, wanted.strain), STRESS),
        Figure("work_joule", "work to wanted height", _work(wanted, hot, needed), WORK),
        Fact(
            "caution",
            "caution",
            _CAUTION,
            "local codes first",
            "common practice",
            _CAUTION,
            "common practice, no source",
        ),
    ]
    asked: list[Given] = [
        of_the_section(section),
        given("at_celsius", "at", at, TEMPERATURE),
        given("dies_mm", "dies", dies, TYPED_LENGTH),
        given("before_mm", "height", before, TYPED_LENGTH),
        given("to_mm", "wanted height", lower, TYPED_LENGTH),
        given("carbon_percent", "carbon", carbon, MASS_PERCENT),
        given("contact_seconds", "in", hot.seconds, SECONDS),
    ]
    if force is not None:
        asked.append(given("force_newton", "press", force, FORCE))
    return Reckoning("squeeze", tuple(asked), tuple(found), drawing=squeeze_drawn(done, said))


def _hot(at: float, carbon: float, seconds: float | None) -> Hot:
    checks.warmth_of_steel("at", at)
    if not 0 <= carbon <= MOST_CARBON:
        raise ReckonError("carbon", f"{carbon:g} %: how hard it resists is known from 0 to {MOST_CARBON:g} %")
    taken = USUAL[StruckBy.PRESS].seconds if seconds is None else seconds
    if not 1e-3 <= taken <= 60:
        raise ReckonError("contact", "give how long the squeeze takes, from 1 ms to 60 s")
    return Hot(at, carbon, taken)


def _sides(section: Section, height: float | None) -> tuple[float, float]:
    """The height between the dies, and the width on average across it [m]."""
    checks.bar(section, None)
    if section.edge is not None:
        raise ReckonError("section", "an edge between flat dies is no squeeze: give a bar without one")
    sides = (section.thickness, section.width)
    if height is None:
        height = section.thickness
    elif not any(abs(height - side) < 1e-3 * side for side in sides):
        raise ReckonError("height", "give one of the two sides of the section, the one that stands between the dies")
    return height, section.area / height


def _made(done: Squeeze, by: str = "") -> tuple[Figure, ...]:
    """How wide and how long a squeeze makes the bar."""
    said = (
        "at that height, on average over it, as sides bulge; found on bars of about equal sides; the range is a share "
        "into width that is off by a fifth"
    )
    outside = done.bite > WIDEST_BITE * done.width
    if outside:
        said += "; for dies more than twice as wide as the bar it is not trusted"
    least, most = done.widths_then
    # What does not go into width goes into length.
    held = done.width_then * done.elongation
    return tuple(
        Figure(key, label, Reckoned(value, "from memory", said, SPREAD_SOURCE, *ends, outside), kind)
        for key, label, value, ends, kind in (
            ("width_mm", f"width{by or ' then'}", done.width_then, (least, most), LENGTH),
            ("elongation", f"times as long{by}", done.elongation, (held / most, held / least), NUMBER),
        )
    )


def _narrower(wanted: Squeeze, force: float, hot: Hot) -> tuple[Figure | Fact, ...]:
    """Whether narrower dies are needed to come as low in one squeeze, and how wide they may be."""
    widest = widest_dies(wanted, force, hot)
    yes = widest is None or widest.value < wanted.bite
    said = "to come to the wanted height in one squeeze"
    return (
        Fact(
            "narrower_dies",
            "narrower dies",
            yes,
            "needed" if yes else "not needed",
            "modelled",
            said,
            DIES_SOURCE,
        ),
        Figure(
            "widest_dies_mm",
            "widest dies to come there",
            widest,
            LENGTH,
            "none would do: take less at a squeeze, or work hotter",
        ),
    )


def _work(wanted: Squeeze, hot: Hot, needed: Reckoned) -> Reckoned:
    def said(units: Units) -> str:
        example = "a 50 lb ram that falls 3 ft brings 150 ft-lbf" if units.inches else "25 kg that fall 1 m bring 245 J"
        return (
            f"what blows must bring together: {example}, of which about two thirds go into the work (common practice); "
            "a blow takes a hundredth of a second, and the steel resists it more"
        )

    share = [end / needed.value for end in (needed.least, needed.most) if end is not None]
    value = work_needed(wanted, hot)
    return Reckoned(value, "modelled", said, needed.source, value * share[0], value * share[1], needed.outside)
