"""What the reckonings of a bar that cools or warms share: its course, its Biot number, and how far to trust a time."""

from __future__ import annotations

from collections.abc import Callable

from plans.reckoned import Reckoned
from plans.reckoner.figures import Given, given
from plans.reckoner.kinds import CONVECTION, LENGTH, NUMBER
from plans.reckoner.reckoning import CurvePoint
from plans.shapes import Section
from plans.units import Shown, Units, kelvin
from plans.warmth import BLACKEST, DULLEST, SCALED_STEEL, BarShape, Course, Surroundings, biot_number, conductivity

SOLVER_ERROR = 0.02
"""How far the soak, or the time of the mean skin, may lie from a converged two-dimensional solution, as a share."""
EDGE_ERROR = 0.10
"""How far the time of an edge, a corner or a struck face may, as a share."""
PATIENCE = 48 * 3600.0
"""How far ahead a reckoning looks, 48 h: what a bar has not come to by then counts as never reached [s]."""
LUMPED = 0.1
"""Biot number below which a bar is about as warm inside as outside; Incropera et al., 6th ed., section 5.2."""


def conduction_source(units: Units) -> str:
    """What the figures of a bar that cools or warms stand on."""
    oxidised = f"emissivity of oxidised iron, 0.89 +- 0.05 at {units.temperature(kelvin(1227))}"
    return (
        "EN 1993-1-2:2005 for the steel; conduction over the cross-section by finite elements, held against finer "
        f"solutions by scipy; {oxidised}, from the table of emissivities in a camera's manual"
    )


TEXTBOOK = "Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed., sections 5.1 to 5.3"
"""Source of the lumped time and of the Biot number, as it is cited."""


def curve_of(course: Course, seconds: float) -> tuple[CurvePoint, ...]:
    """The curve by which a bar warms or cools for a time: points from its beginning to its very end.

    Args:
        course: its course from the beginning on
        seconds: the time, above 0 [s]
    """
    points = [*(at for at, _ in course.solved_until(seconds) if at < seconds), seconds]
    return tuple(CurvePoint(at, warmth.skin, warmth.middle) for at in points for warmth in (course.warmth_at(at),))


def biot(shape: BarShape, surroundings: Surroundings, at: float) -> Reckoned:
    """The Biot number of a bar, with convection and radiation as one coefficient.

    Args:
        shape: shape of the bar
        surroundings: what it is in
        at: temperature of its skin [K]
    """
    apart = at - surroundings.air
    coefficient = -surroundings.flux(at) / apart if abs(apart) > 1 else surroundings.coefficient(at)
    validity = (
        "heat resistance inside over that at the skin, with volume over skin as the length, where the bar is hottest: "
        f"below {LUMPED:g} it is about as warm inside as outside"
    )
    return Reckoned(biot_number(shape, coefficient, conductivity(at)), "modelled", validity, TEXTBOOK)


def spread(emissivity: float | None) -> tuple[float, float, float]:
    """The emissivities that a time is reckoned with.

    Args:
        emissivity: the one that was given; None for that of scaled steel with its range

    Returns:
        The emissivity for the time itself, that for its least, and that for its most.
    """
    if emissivity is None:
        return SCALED_STEEL, BLACKEST, DULLEST
    return emissivity, emissivity, emissivity


def trusted(
    seconds: float, quickest: float | None, slowest: float | None, validity: Shown, error: float = SOLVER_ERROR
) -> Reckoned:
    """A time with its range: the solver's error, and what is not known of the emissivity and the contact.

    Args:
        seconds: the time itself [s]
        quickest: the least that what is not known makes of it [s]; None where that is not known either
        slowest: the most [s]; None where it may never come
        validity: what the range takes in, and where the time holds
        error: the solver's own, as a share
    """
    least = None if quickest is None else quickest * (1 - error)
    most = None if slowest is None else slowest * (1 + error)
    return Reckoned(seconds, "modelled", validity, conduction_source, least, most)


def accuracy(emissivity: float | None) -> str:
    """What the range of a time takes into account, in words.

    Args:
        emissivity: the one that was given; None for that of scaled steel with its range
    """
    solver = f"{SOLVER_ERROR * 100:.0f} % for the solver ({EDGE_ERROR * 100:.0f} % at edges and struck faces)"
    if emissivity is None:
        return f"the range is for emissivities from {DULLEST:g} (from memory) to {BLACKEST:g}, and {solver}"
    return f"the range is {solver}; the emissivity is taken as given"


def lumped(work: Callable[[], float], biot_at: float) -> Reckoned:
    """The time of a bar that is as warm inside as outside, for comparison [s].

    Args:
        work: finds the time [s]
        biot_at: Biot number of the bar, which says whether that time means anything
    """
    outside = biot_at > LUMPED
    validity = f"as warm inside as outside, good below a Biot number of {LUMPED:g}"
    if outside:
        validity += "; this bar is above it, and its middle lags"
    return Reckoned(work(), "modelled", validity, TEXTBOOK, outside=outside)


def of_the_section(section: Section) -> Given:
    """The cross-section of the bar, as it was given to a reckoning."""
    return Given("section", Units.METRIC.section(section, exact=True), lambda units: units.section(section, exact=True))


def of_the_bar(section: Section, length: float | None) -> tuple[Given, ...]:
    """The section and the length of a bar as they were given to a reckoning; a length of None is that of a long bar."""
    first = of_the_section(section)
    if length is None:
        return (first, Given("length_mm", None, "long, its ends not counted"))
    return (first, given("length_mm", "length", length, LENGTH))


def of_the_skin(emissivity: float | None, convection: float) -> tuple[Given, ...]:
    """The emissivity and the convection of a skin as a reckoning goes by them.

    Args:
        emissivity: the one that was given; None for that of scaled steel
        convection: heat transfer coefficient [W/(m2 K)]
    """
    return (
        given("emissivity", "emissivity", spread(emissivity)[0], NUMBER),
        given("convection_w_m2_k", "convection", convection, CONVECTION),
    )
