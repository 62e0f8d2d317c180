"""The cooling factor that fits what a probe on the work felt outside the fire, by least squares."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise
from math import sqrt
from statistics import fmean
from typing import NamedTuple

from plans.logbook.stays import Stay, leaving
from plans.shop import LEAST_FACTOR, MOST_FACTOR
from plans.sitting import Sitting
from plans.units import ZERO_CELSIUS
from plans.warmth import Surroundings, WarmModel, look_ahead

_ABOVE = ZERO_CELSIUS + 780.0
"""Nothing is learned below this: the steel transforms there, at a temperature that hangs on its grade [K]."""
_SETTLING = 2.0
"""Nor in the first moments, while the work is on its way [s]."""
_DIFFUSIVITY = 6e-6
"""Of steel at forging heat: how soon the inside cools along with the skin, and where it is felt counts no longer
[m2/s]."""
_POINTS = 40
"""So many means of readings stand for a stay, however long it was."""
_SHORTEST = 5.0
"""A shorter stay tells nothing [s]."""
_LEAST_FALL = 30.0
"""So does one in which the work cooled less: a temperature difference [K]."""
_FEWEST = 4
"""So does one of fewer readings."""
_ROUNDS = 12
_LONGEST_SHIFT = 60.0
"""No word comes later than this [s]."""
_LARGEST = 0.4
"""Change of the factor in one round."""
_CLOSE = 1e-4
"""A change that is none, as a share of the factor."""


class Piece(NamedTuple):
    """What of one stay outside the fire is fitted."""

    model: WarmModel
    """The work as it left the fire."""
    around: Surroundings
    """What the work gives its heat to, as the warm model has it by itself."""
    points: list[tuple[float, float]]
    """Seconds since then, and the skin [K]."""

    def shift_within(self, seconds: float) -> float:
        """A shift that leaves at least half of the points on the curve [s]."""
        return min(max(seconds, -self.points[len(self.points) // 2][0]), _LONGEST_SHIFT)


class Normal(NamedTuple):
    """The normal equation of one stay: weight * change of the factor = right, with the shift that goes with it."""

    weight: float
    """How much this stay says of the factor: sum of the squares of what a change of it moves [K2]."""
    right: float
    """Sum of what a change of the factor moves, times what the curve misses by [K2]."""
    shift: float
    """The change of its shift, were the factor to stay [s]."""
    share: float
    """How much less for each bit by which the factor changes [s]."""


def piece_of(sitting: Sitting, stay: Stay) -> Piece | None:
    """From the hottest to the coldest, above the arrest: what came before or after was not outside the fire."""
    settled = max(_SETTLING, (stay.section.thickness / 2) ** 2 / _DIFFUSIVITY)
    felt = [(at, kelvin) for at, kelvin in stay.felt if at >= settled]
    cold = next((index for index, (_, kelvin) in enumerate(felt) if kelvin < _ABOVE), len(felt))
    felt = felt[:cold]
    if not felt:
        return None
    coldest = min(range(len(felt)), key=lambda index: felt[index][1])
    felt = felt[: coldest + 1]
    hottest = max(range(len(felt)), key=lambda index: felt[index][1])
    felt = felt[hottest:]
    began, ended = felt[0], felt[-1]
    if len(felt) < _FEWEST or ended[0] - began[0] < _SHORTEST or began[1] - ended[1] < _LEAST_FALL:
        return None
    return Piece(leaving(sitting, stay), stay.around, _means(felt))


def _means(felt: list[tuple[float, float]]) -> list[tuple[float, float]]:
    count = min(_POINTS, len(felt))
    edges = [index * len(felt) // count for index in range(count + 1)]
    blocks = [felt[first:last] for first, last in pairwise(edges)]
    return [(fmean(at for at, _ in block), fmean(kelvin for _, kelvin in block)) for block in blocks]


def fit(pieces: Sequence[Piece]) -> tuple[float | None, float | None, list[float]]:
    """The factor for all, its standard error, and each one's own."""
    if not pieces:
        return None, None, []
    factor = 1.0
    shifts = [0.0] * len(pieces)
    normal: list[Normal] = []
    for _ in range(_ROUNDS):
        normal = [_normal(piece, factor, shift) for piece, shift in zip(pieces, shifts, strict=True)]
        change = sum(one.right for one in normal) / sum(one.weight for one in normal)
        change = min(max(change, -_LARGEST), _LARGEST)
        factor = min(max(factor + change, 0.5 * LEAST_FACTOR), 2 * MOST_FACTOR)
        shifts = [
            piece.shift_within(shift + one.shift - one.share * change)
            for piece, shift, one in zip(pieces, shifts, normal, strict=True)
        ]
        if abs(change) < _CLOSE * factor:
            break
    if not LEAST_FACTOR <= factor <= MOST_FACTOR:
        return None, None, []
    return factor, _spread(normal), [factor + one.right / one.weight for one in normal]


def _spread(normal: Sequence[Normal]) -> float | None:
    """The jackknife's standard error: how the factor scatters when one stay at a time is left out."""
    count = len(normal)
    if count < 2:
        return None
    weight, right = sum(one.weight for one in normal), sum(one.right for one in normal)
    without = [(right - one.right) / (weight - one.weight) for one in normal]
    middle = fmean(without)
    return sqrt((count - 1) / count * sum((one - middle) ** 2 for one in without))


def _normal(piece: Piece, factor: float, shift: float) -> Normal:
    """What one stay says of the factor, and of when it began.

    A bar at one temperature throughout runs through its curve `factor` times as fast, so that the curve changes with
    the factor by t dT/dt / factor; with a thick one this is nearly so, which costs rounds and no accuracy. The shift of
    the whole curve in time is projected out.
    """
    curve = _curve(piece, factor, shift)
    by_factor, by_shift, missing = [], [], []
    for at, kelvin in piece.points:
        since = max(0.0, at + shift)
        skin, rate = _on(curve, since)
        by_factor.append(since * rate / factor)
        by_shift.append(rate)
        missing.append(kelvin - skin)
    length = _dot(by_shift, by_shift)
    share = _dot(by_factor, by_shift) / length
    alone = [one - share * other for one, other in zip(by_factor, by_shift, strict=True)]
    return Normal(_dot(alone, alone), _dot(alone, missing), _dot(by_shift, missing) / length, share)


def _dot(one: Sequence[float], other: Sequence[float]) -> float:
    return sum(a * b for a, b in zip(one, other, strict=True))


def _curve(piece: Piece, factor: float, shift: float) -> list[tuple[float, float]]:
    """The skin of the model over the stay: seconds, and temperature [K]."""
    model, curve = piece.model, []
    for moment in look_ahead(model.bar, model.heat, model.skin, piece.around.scaled(factor)):
        curve.append((moment.seconds, moment.skin))
        if moment.seconds > piece.points[-1][0] + shift and len(curve) > 3:
            break
    return curve


def _on(curve: Sequence[tuple[float, float]], at: float) -> tuple[float, float]:
    """The temperature at a time, on the cubic through the four points nearest, and how fast it changes there."""
    first = min(max(bisect_right(curve, (at, 0.0)) - 2, 0), len(curve) - 4)
    near = curve[first : first + 4]
    kelvin = rate = 0.0
    for index, (its, value) in enumerate(near):
        others = [other for place, (other, _) in enumerate(near) if place != index]
        a, b, c = (at - other for other in others)
        divisor = (its - others[0]) * (its - others[1]) * (its - others[2])
        kelvin += value * a * b * c / divisor
        rate += value * (a * b + b * c + a * c) / divisor
    return kelvin, rate
