"""How a smith's figures go over time: a point a sitting, and spans of several where there are many."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from itertools import pairwise
from math import ceil
from statistics import median
from typing import Final

from plans.logbook.comparing.occasion import Occasion
from plans.record import record

MOST_SPANS: Final = 12
"""More sittings than this are put together, so that a trend is seen at a glance."""


@record
class Point:
    """The figures of one sitting's steps together."""

    sitting: str
    """Id of the sitting."""
    started: datetime
    """When it began: wall time with its offset."""
    heats: float
    """How many heats were done."""
    in_fire: float
    """Time in the fire [s]."""
    struck: float
    """Time struck [s]."""
    too_cold: float
    """Time struck below the cold limit [s]."""
    fuel_mass: float | None
    """What its fire burnt [kg]; None where nobody knows."""
    fuel_volume: float | None
    """Likewise where that was metered [m3]."""
    sound: int
    """Welds that were found sound."""
    welds: int
    """Welds of which it was said what came of them."""


@record
class Span:
    """Sittings that followed one another, as one point of a trend: medians, since one odd sitting is no trend."""

    first: datetime
    """When the first of them began."""
    last: datetime
    """When the last of them began."""
    sittings: int
    """How many there are."""
    heats: float
    """Median of the heats that were done."""
    in_fire: float
    """Median of the time in the fire [s]."""
    struck: float
    """Median of the time struck [s]."""
    too_cold: float
    """Median of the time struck below the cold limit [s]."""
    fuel_mass: float | None
    """Median of what the fires burnt [kg]; None where nobody knows, and where the last of them was metered."""
    fuel_volume: float | None
    """Likewise where the last of them was metered [m3]: who changes from coal to gas goes on with gas."""
    sound: int
    """Welds that were found sound, in all of them together."""
    welds: int
    """Welds of which it was said what came of them, in all of them together."""


def points_of(looked_at: Iterable[Occasion]) -> list[Point]:
    """A point for each sitting, in the same order."""
    return [_point(one) for one in looked_at]


def spans_of(points: Sequence[Point], most: int = MOST_SPANS) -> list[Span]:
    """The points put together, as many into each span as into the next, give or take one; at most so many spans."""
    # Spans of as many sittings each, rather than as many spans as there may be: 16 sittings are 8 pairs.
    count = ceil(len(points) / ceil(len(points) / most)) if points else 0
    edges = [len(points) * number // count for number in range(count + 1)] if count else []
    return [_span(points[begin:end]) for begin, end in pairwise(edges)]


def _point(one: Occasion) -> Point:
    heats = [heat for step in one.steps for heat in step.heats]
    return Point(
        one.sitting,
        one.started,
        sum(heat.is_done for heat in heats),
        sum(heat.in_fire for heat in heats),
        sum(heat.strike for heat in heats),
        sum(heat.too_cold for heat in heats),
        one.fuel_mass,
        one.fuel_volume,
        sum(not weld.flaws for _, weld in one.welds),
        len(one.welds),
    )


def _span(points: Sequence[Point]) -> Span:
    return Span(
        points[0].started,
        points[-1].started,
        len(points),
        median(point.heats for point in points),
        median(point.in_fire for point in points),
        median(point.struck for point in points),
        median(point.too_cold for point in points),
        *_fuel(points),
        sum(point.sound for point in points),
        sum(point.welds for point in points),
    )


def _fuel(points: Sequence[Point]) -> tuple[float | None, float | None]:
    """Medians of what was burnt, by weight or by volume, as the last of them has it."""
    masses, volumes = (
        [value for value in values if value is not None]
        for values in zip(*((point.fuel_mass, point.fuel_volume) for point in points), strict=True)
    )
    last = next((point for point in reversed(points) if (point.fuel_mass, point.fuel_volume) != (None, None)), None)
    if last is None:
        return None, None
    return (median(masses), None) if last.fuel_mass is not None else (None, median(volumes))
