"""Forecasts of soak, fire and hammer time, from where the work is now."""

from __future__ import annotations

from plans.warmth.course import HORIZON, Course, Part
from plans.warmth.model import WarmModel
from plans.warmth.surroundings import Surroundings


def course_of(work: WarmModel, surroundings: Surroundings) -> Course:
    """The course that the work takes from now on in surroundings that stay.

    Args:
        work: where the work is now
        surroundings: what it is in
    """
    return Course(work.piece, work.heat, surroundings)


def soak_time(work: WarmModel, surroundings: Surroundings, middle_at: float, within: float = HORIZON) -> float | None:
    """Time until the middle of the work has come up to a temperature [s]; None if it never does.

    Args:
        work: where the work is now
        surroundings: the fire that it is in
        middle_at: what the middle must come to [K]
        within: how far to look ahead [s]
    """
    return course_of(work, surroundings).time_until(Part.MIDDLE, middle_at, falls=False, within=within)


def skin_time(work: WarmModel, surroundings: Surroundings, skin_at: float, within: float = HORIZON) -> float | None:
    """Time until the skin of the work has come up to a temperature, in the mean [s]; None if it never does.

    Args:
        work: where the work is now
        surroundings: the fire that it is in
        skin_at: what the skin must come to [K]
        within: how far to look ahead [s]
    """
    return course_of(work, surroundings).time_until(Part.SKIN, skin_at, falls=False, within=within)


def hammer_time(
    work: WarmModel, surroundings: Surroundings, below: float, part: Part = Part.COLDEST, within: float = HORIZON
) -> float | None:
    """Time until the work has fallen to a temperature, its hammer time [s]; None if it never does.

    Args:
        work: where the work is now
        surroundings: the air, or the tools and the air
        below: the cold limit [K]
        part: where it must have fallen to it: at its coldest place, if nothing else is said
        within: how far to look ahead [s]
    """
    return course_of(work, surroundings).time_until(part, below, falls=True, within=within)
