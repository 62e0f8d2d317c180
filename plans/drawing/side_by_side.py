"""Dimensions side by side where there is room, and one beyond the other where they would overlap."""

from __future__ import annotations

from collections.abc import Iterable


def lanes(spans: Iterable[tuple[float, float]]) -> list[int]:
    """The lane of each span, from 0 up: the first in which it overlaps none of those before it; it may touch them.

    Args:
        spans: beginning and end of each, in any unit
    """
    taken: list[list[tuple[float, float]]] = []
    found = []
    for begin, end in spans:
        lane = next(
            (place for place, others in enumerate(taken) if all(end <= low or high <= begin for low, high in others)),
            len(taken),
        )
        if lane == len(taken):
            taken.append([])
        taken[lane].append((begin, end))
        found.append(lane)
    return found
