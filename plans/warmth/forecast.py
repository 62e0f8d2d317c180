"""Forecasts of soak, fire and hammer time, from where the work is now."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from plans.warmth.ahead import Moment, look_ahead
from plans.warmth.conduction import Conduction
from plans.warmth.model import WarmModel
from plans.warmth.surroundings import Surroundings

HORIZON = 4 * 3600.0
"""How far a forecast looks ahead: what has not come by then counts as never [s]."""


def soak_time(work: WarmModel, surroundings: Surroundings, middle_at: float, within: float = HORIZON) -> float | None:
    """Time until the middle of the work has come up to a temperature [s]; None if it never does.

    Args:
        work: where the work is now
        surroundings: the fire that it is in
        middle_at: what the middle must come to [K]
        within: how far to look ahead [s]
    """
    return _until(work, surroundings, lambda bar, moment: middle_at - bar.middle(moment.heat), within)


def skin_time(work: WarmModel, surroundings: Surroundings, skin_at: float, within: float = HORIZON) -> float | None:
    """Time until the skin of the work has come up to a temperature [s]; None if it never does.

    Args:
        work: where the work is now
        surroundings: the fire that it is in
        skin_at: what the skin must come to [K]
        within: how far to look ahead [s]
    """
    return _until(work, surroundings, lambda _, moment: skin_at - moment.skin, within)


def hammer_time(
    work: WarmModel, surroundings: Surroundings, skin_below: float, within: float = HORIZON
) -> float | None:
    """Time until the skin of the work has fallen to a temperature, its hammer time [s]; None if it never does.

    Args:
        work: where the work is now
        surroundings: the air, or the anvil and the air
        skin_below: the cold limit [K]
        within: how far to look ahead [s]
    """
    return _until(work, surroundings, lambda _, moment: moment.skin - skin_below, within)


def _until(
    work: WarmModel,
    surroundings: Surroundings,
    missing: Callable[[Conduction, Moment], float],
    within: float,
) -> float | None:
    """Seconds until `missing` falls to zero, or None if it does not within so many seconds."""
    seen: list[tuple[float, float]] = []
    for moment in look_ahead(work.bar, work.heat, work.skin, surroundings):
        left = missing(work.bar, moment)
        seen = [*seen[-2:], (moment.seconds, left)]
        if left <= 0 or moment.seconds >= within:
            break
    at = _crossing(seen)
    return at if at is not None and at <= within else None


def _crossing(seen: Sequence[tuple[float, float]]) -> float | None:
    """Where the parabola through the last three points falls to zero between the last two; None if it does not."""
    end, after = seen[-1]
    if after > 0:
        return None
    if len(seen) == 1:
        return end
    begin, before = seen[-2]
    slope = (after - before) / (end - begin)
    bend = 0.0
    if len(seen) == 3:
        first, value = seen[0]
        bend = (slope - (before - value) / (begin - first)) / (end - first)
    low, high = begin, end
    for _ in range(50):
        at = (low + high) / 2
        if before + (at - begin) * (slope + bend * (at - end)) > 0:
            low = at
        else:
            high = at
    return high
