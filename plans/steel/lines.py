"""Tables of a few points, read on straight lines between them."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence


def on_lines(points: Sequence[tuple[float, float]], at: float) -> float:
    """What lies at a place on straight lines between points; level before the first and behind the last.

    Args:
        points: places and what lies there, the places rising; at least one
        at: the place
    """
    above = bisect_left([place for place, _ in points], at)
    if above in (0, len(points)):
        return points[max(above - 1, 0)][1]
    (low, at_low), (high, at_high) = points[above - 1 : above + 1]
    return at_low + (at_high - at_low) * (at - low) / (high - low)
