"""What the reckonings of a bar that cools or warms share: its course, its Biot number, and how far to trust a time."""

from __future__ import annotations

from collections.abc import Callable

from plans.reckoned import Reckoned
from plans.reckoner.figures import Given, given
from plans.reckoner.kinds import CONVECTION, LENGTH, NUMBER
from plans.reckoner.reckoning import CurvePoint
from plans.section import Section
from plans.units import Shown, Units, kelvin
from plans.warmth import SCALED_STEEL, BarShape, Surroundings, WarmModel, biot_number, conductivity, look_ahead

SOLVER_ERROR = 0.03
"""How far a time by conduction in one dimension may lie from a two-dimensional solution, either way, as a share."""
DULLEST, BLACKEST = 0.70, 0.94
"""Least and greatest emissivity of scaled steel: the first from memory, the second of oxidised iron, 0.89 +- 0.05."""
PATIENCE = 48 * 3600.0
"""How far ahead a reckoning looks, 48 h: what a bar has not come to by then counts as never reached [s]."""
LUMPED = 0.1
"""Biot number below which a bar is about as warm inside as outside; Incropera et al., 6th ed., section 5.2."""


def conduction_source(units: Units) -> str:
    """What the figures of a bar that cools or warms stand on."""
    oxidised = f"emissivity of oxidised iron, 0.89 +- 0.05 at {units.temperature(kelvin(1227))}"
    return (
        "EN 1993-1-2:2005 for the steel; conduction by finite volumes in one dimension, held against a two-dimensional "
        f"solution; {oxidised}, from the table in a FLIR user manual"
    )


TEXTBOOK = "Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed., sections 5.1 to 5.3"
"""Source of the lumped time and of the Biot number, as it is cited."""


def course(work: WarmModel, surroundings: Surroundings, seconds: float) -> tuple[CurvePoint, ...]:
    """The curve by which a bar warms or cools for a time: points from its beginning to its very end.

    Args:
        work: the bar as it is now
        surroundings: what it is in
        seconds: the time, above 0 [s]
    """
    points: list[CurvePoint] = []
    for moment in look_ahead(work.bar, work.heat, work.skin, surroundings):
        points.append(CurvePoint(moment.seconds, moment.skin, work.bar.middle(moment.heat)))
        if moment.seconds >= seconds and len(points) > 2:
            break
    last = CurvePoint(seconds, *(_parabola(points[-3:], seconds, part) for part in (1, 2)))
    return (*(point for point in points if point.seconds < seconds), last)


def _parabola(points: list[CurvePoint], at: float, part: int) -> float:
    (a, b, c), (x, y, z) = (point.seconds for point in points), (point[part] for point in points)
    return (
        x * (at - b) * (at - c) / ((a - b) * (a - c))
        + y * (at - a) * (at - c) / ((b - a) * (b - c))
        + z * (at - a) * (at - b) / ((c - a) * (c - b))
    )


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


def trusted(seconds: float, quickest: float | None, slowest: float | None, validity: Shown) -> Reckoned:
    """A time with its error: that of the solver, and that of the emissivity where nobody gave one [s]."""
    least = None if quickest is None else quickest * (1 - SOLVER_ERROR)
    most = None if slowest is None else slowest * (1 + SOLVER_ERROR)
    return Reckoned(seconds, "modelled", validity, conduction_source, least, most)


def accuracy(emissivity: float | None) -> str:
    """What the range of a time takes into account, in words.

    Args:
        emissivity: the one that was given; None for that of scaled steel with its range
    """
    solver = f"{SOLVER_ERROR * 100:.0f} % for conduction in one dimension"
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
    return Given("section", Units.METRIC.section(section), lambda units: units.section(section))


def of_the_bar(section: Section, length: float | None) -> tuple[Given, ...]:
    """The section and the length of a bar as they were given to a reckoning; a length of None is that of a long bar."""
    first = of_the_section(section)
    if length is None:
        return (first, Given("length_mm", None, "long, its ends not counted"))
    return (first, given("length_mm", "length", length, LENGTH))


def of_the_skin(emissivity: float | None, convection: float) -> tuple[Given, ...]:
    """The emissivity and the convection of a skin as they were given to a reckoning, or taken for want of them.

    Args:
        emissivity: the one that was given; None for that of scaled steel
        convection: heat transfer coefficient [W/(m2 K)]
    """
    return (
        given("emissivity", "emissivity", spread(emissivity)[0], NUMBER),
        given("convection_w_m2_k", "convection", convection, CONVECTION),
    )
