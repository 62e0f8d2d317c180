"""Curves made thin for drawing. Storage keeps every reading, and peaks are taken from those, never from here."""

from __future__ import annotations

from collections.abc import Iterable
from math import floor, inf, isnan

from plans.trace import Trace

Points = list[tuple[float, float]]
"""Time [s] and temperature [K] of one unbroken piece of curve."""

_WEIGHTS = (-2, 3, 6, 7, 6, 3, -2)


def thin(pieces: Iterable[Points], within: float = 2.0) -> list[Points]:
    """Each piece of a curve as few points to be joined by straight lines.

    The lines pass within `within` (a temperature difference [K]) of every point of `smooth(pieces)`.
    """
    return [swinging_door(points, within) for points in smooth(pieces)]


def smooth(pieces: Iterable[Points]) -> list[Points]:
    """Means over each second, smoothed by a centred parabola through seven of them [1]_.

    The three at each end of a piece stay as they are, and none goes beyond the seven that it is the mean of.

    References:
        .. [1] Savitzky and Golay 1964, Anal. Chem. 36, 1627, table I: (-2 3 6 7 6 3 -2) / 21.
    """
    return [_smoothed(_by_second(piece)) for piece in pieces]


def swinging_door(points: Points, within: float) -> Points:
    """The points that must be kept so that straight lines between them pass within `within` of all the others.

    A door hinged at the last point kept narrows as points go by; the first one that is outside it makes the one
    before it the next hinge. First and last are always kept.
    """
    if len(points) < 3:
        return list(points)
    kept = [points[0]]
    hinge_at, hinge = points[0]
    low, high = -inf, inf
    before = points[0]
    for at, value in points[1:]:
        slope = (value - hinge) / (at - hinge_at)
        if not low <= slope <= high:
            kept.append(before)
            hinge_at, hinge = before
            low, high = -inf, inf
        low = max(low, (value - within - hinge) / (at - hinge_at))
        high = min(high, (value + within - hinge) / (at - hinge_at))
        before = (at, value)
    kept.append(points[-1])
    return kept


def pieces_of(trace: Trace) -> list[Points]:
    """The unbroken pieces of a modelled trace, parted where it has no temperature.

    What a probe said is parted where the probe was lost: `Believed.pieces`.
    """
    pieces: list[Points] = []
    broken = True
    for at, kelvin in zip(trace.times, trace.kelvins, strict=True):
        if isnan(kelvin):
            broken = True
            continue
        if broken:
            pieces.append([])
        pieces[-1].append((at, kelvin))
        broken = False
    return pieces


def _by_second(piece: Points) -> Points:
    means: Points = []
    start = 0
    for index in range(1, len(piece) + 1):
        if index == len(piece) or floor(piece[index][0]) != floor(piece[start][0]):
            part = piece[start:index]
            means.append((sum(at for at, _ in part) / len(part), sum(value for _, value in part) / len(part)))
            start = index
    return means


def _smoothed(points: Points) -> Points:
    smoothed = list(points)
    for index in range(3, len(points) - 3):
        values = [value for _, value in points[index - 3 : index + 4]]
        total = sum(weight * value for weight, value in zip(_WEIGHTS, values, strict=True))
        # Beside a jump the parabola swings out, to where the work never was.
        mean = min(max(total / sum(_WEIGHTS), min(values)), max(values))
        smoothed[index] = (points[index][0], mean)
    return smoothed
