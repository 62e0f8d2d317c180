"""The factors that fit what a probe on the work felt outside the fire, by least squares: one of air, one of contact."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from itertools import pairwise
from math import exp, hypot, log, prod, sqrt
from statistics import fmean
from typing import NamedTuple

from plans.logbook.figures.stays import Stay, leaving
from plans.shop import LEAST_CONTACT, LEAST_FACTOR, MOST_CONTACT, MOST_FACTOR, Shop
from plans.sitting import Sitting
from plans.units import ZERO_CELSIUS
from plans.warmth import Course, Part, Surroundings, WarmModel, doubts_of

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
"""Change of the factor in one round, as a share of it."""
_CLOSE = 3e-4
"""A change that is none, likewise."""
_NUDGE = log(1.08)
"""A factor's logarithm is changed by this much to see what it moves."""
_NEAR = 0.02
"""Where the model was solved for a factor whose logarithm is no further off, it is not solved anew."""
_MOMENT = 0.05
"""How fast the skin cools is taken over so long before and after [s]."""
_TOO_UNSURE = 0.5
"""A contact factor with a standard error of a larger share tells nothing."""


class Piece(NamedTuple):
    """What of one stay outside the fire is fitted."""

    model: WarmModel
    """The work as it left the fire."""
    stay: Stay
    """The stay."""
    points: list[tuple[float, float]]
    """Seconds since then, and the skin [K]."""

    def shift_within(self, seconds: float) -> float:
        """A shift that leaves at least half of the points on the curve [s]."""
        return min(max(seconds, -self.points[len(self.points) // 2][0]), _LONGEST_SHIFT)


class Fitted(NamedTuple):
    """A factor that was fitted."""

    factor: float | None
    """The factor for all stays; None where nothing sane fits them."""
    spread: float | None
    """Its standard error; None from a single stay."""
    own: tuple[float, ...]
    """What each stay has by itself, in order, held within what a shop can have; empty without a factor."""


class _Seen(NamedTuple):
    """The skin of the model at the points of one stay."""

    kelvins: list[float]
    """The skin [K]."""
    rates: list[float]
    """How fast it changes [K/s]."""
    by_factor: list[float]
    """What a change of the factor's logarithm moves it by [K]."""


class _Curve:
    """The skin of the model along one stay: solved for a few factors, and read from parabolas through these."""

    def __init__(self, piece: Piece, around: Callable[[float], Surroundings]) -> None:
        """Solve nothing yet.

        Args:
            piece: what is fitted of the stay
            around: what the work gave its heat to, by the factor that is sought
        """
        self.piece = piece
        self._around = around
        self._solved: dict[float, Course] = {}
        """By the factor's logarithm."""

    def seen(self, factor: float, shift: float) -> _Seen:
        """The skin at the points, for a factor and a shift in time [s]."""
        at = log(factor)
        if all(abs(at - solved) > _NEAR for solved in self._solved):
            self._solve(at)
        if len(self._solved) < 2:
            self._solve(at + _NUDGE)
        near = sorted(self._solved, key=lambda solved: abs(at - solved))[:3]
        times = [max(_MOMENT, since + shift) for since, _ in self.piece.points]
        skins = [_skins(self._solved[solved], times) for solved in near]
        before, here, after = (_weighed(which, _weights(near, at)) for which in zip(*skins, strict=True))
        rates = [(later - earlier) / (2 * _MOMENT) for earlier, later in zip(before, after, strict=True)]
        return _Seen(here, rates, _weighed([skin[1] for skin in skins], _slopes(near, at)))

    def _solve(self, at: float) -> None:
        self._solved[at] = _course(self.piece, self._around(exp(at)))


class _Normal(NamedTuple):
    """The normal equation of one stay: weight * change = right, with the shift that goes with it.

    A change is that of the factor's logarithm, so that no factor falls to 0.
    """

    at: float
    """The shift that it holds at [s]."""
    kelvins: list[float]
    """The skin of the model at each point [K]."""
    alone: list[float]
    """What a change moves the skin by at each point, beside what the shift does [K]."""
    weight: float
    """How much this stay says of the factor: sum of the squares of it [K2]."""
    right: float
    """Sum of it, times what the curve misses by [K2]."""
    shift: float
    """The change of its shift, were the factor to stay [s]."""
    share: float
    """How much less for each bit by which the factor changes [s]."""


Around = Callable[[Stay, float], Surroundings]
"""What the work gave its heat to in a stay, were the factor that is sought so large."""


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
    return Piece(leaving(sitting, stay), stay, _means(felt))


def _means(felt: list[tuple[float, float]]) -> list[tuple[float, float]]:
    count = min(_POINTS, len(felt))
    edges = [index * len(felt) // count for index in range(count + 1)]
    blocks = [felt[first:last] for first, last in pairwise(edges)]
    return [(fmean(at for at, _ in block), fmean(kelvin for _, kelvin in block)) for block in blocks]


def fit_air(pieces: Sequence[Piece]) -> Fitted:
    """The cooling factor, from stays in the air."""
    return _fit(pieces, lambda stay, air: stay.around(air, 1.0), LEAST_FACTOR, MOST_FACTOR)[0]


def fit_contact(pieces: Sequence[Piece], air: float, air_spread: float | None) -> Fitted:
    """The contact factor, from stays in which the work was struck, with the cooling factor held.

    Its standard error holds that of the cooling factor too: where more went into the air, less went into the tools. No
    factor is told where they say too little of it: a single stay, or a standard error of more than half of the factor.

    Args:
        pieces: the stays
        air: the cooling factor
        air_spread: its standard error; None where it is not known, and then the emissivity's range counts
    """
    fitted, normal = _fit(pieces, lambda stay, contact: stay.around(air, contact), LEAST_CONTACT, MOST_CONTACT)
    contact, scatter, own = fitted
    if contact is None or scatter is None:
        return Fitted(None, None, own)
    moved = 0.0
    for piece, one in zip(pieces, normal, strict=True):
        times = [max(_MOMENT, since + one.at) for since, _ in piece.points]
        _, more, _ = _skins(_course(piece, piece.stay.around(air * exp(_NUDGE), contact)), times)
        moved += _dot(one.alone, [(b - a) / _NUDGE for a, b in zip(one.kelvins, more, strict=True)])
    by_air = contact * moved / sum(one.weight for one in normal)
    # Two standard errors make the range either way.
    low, high = doubts_of(Shop(air, air_spread)).air
    spread = hypot(scatter, by_air * (high - low) / 4)
    return fitted._replace(spread=spread) if spread <= _TOO_UNSURE * contact else Fitted(None, None, own)


def _fit(pieces: Sequence[Piece], around: Around, least: float, most: float) -> tuple[Fitted, list[_Normal]]:
    """Gauss and Newton's method in bounded steps; the factor is sought between half of `least` and twice `most`."""
    factor = 1.0
    curves = [_Curve(piece, partial(around, piece.stay)) for piece in pieces]
    shifts = [0.0] * len(pieces)
    normal: list[_Normal] = []
    for _ in range(_ROUNDS):
        normal = [_normal(curve, factor, shift) for curve, shift in zip(curves, shifts, strict=True)]
        weight = sum(one.weight for one in normal)
        if not weight > 0:
            return Fitted(None, None, ()), []
        change = min(max(sum(one.right for one in normal) / weight, -_LARGEST), _LARGEST)
        factor = min(max(factor * exp(change), least / 2), 2 * most)
        shifts = [
            piece.shift_within(shift + one.shift - one.share * change)
            for piece, shift, one in zip(pieces, shifts, normal, strict=True)
        ]
        if abs(change) < _CLOSE:
            break
    if not least <= factor <= most:
        return Fitted(None, None, ()), []
    own = [log(factor) + one.right / one.weight if one.weight > 0 else log(factor) for one in normal]
    held = tuple(exp(min(max(value, log(least)), log(most))) for value in own)
    return Fitted(factor, _spread(factor, normal), held), normal


def _spread(factor: float, normal: Sequence[_Normal]) -> float | None:
    """The jackknife's standard error: how the factor scatters when one stay at a time is left out."""
    count = len(normal)
    weight, right = sum(one.weight for one in normal), sum(one.right for one in normal)
    if count < 2 or any(one.weight >= weight for one in normal):
        return None
    without = [(right - one.right) / (weight - one.weight) for one in normal]
    middle = fmean(without)
    return factor * sqrt((count - 1) / count * sum((one - middle) ** 2 for one in without))


def _normal(curve: _Curve, factor: float, shift: float) -> _Normal:
    """What one stay says of the factor, and of when it began; the shift of the whole curve in time is projected out."""
    kelvins, rates, by_factor = curve.seen(factor, shift)
    missing = [kelvin - skin for (_, kelvin), skin in zip(curve.piece.points, kelvins, strict=True)]
    length = _dot(rates, rates)
    share = _dot(by_factor, rates) / length
    alone = [one - share * rate for one, rate in zip(by_factor, rates, strict=True)]
    return _Normal(
        shift, kelvins, alone, _dot(alone, alone), _dot(alone, missing), _dot(rates, missing) / length, share
    )


def _dot(one: Sequence[float], other: Sequence[float]) -> float:
    return sum(a * b for a, b in zip(one, other, strict=True))


def _course(piece: Piece, around: Surroundings) -> Course:
    return Course(piece.model.piece, piece.model.heat, around)


def _skins(course: Course, times: Sequence[float]) -> list[list[float]]:
    """The skin a moment before each of rising times, then, and a moment after [K]."""
    asides = (-_MOMENT, 0.0, _MOMENT)
    return [[skin for (skin,) in course.kelvins_at((Part.SKIN,), (at + aside for at in times))] for aside in asides]


def _weights(points: Sequence[float], at: float) -> list[float]:
    """What each of some points counts for at a place, on the polynomial through them."""
    return [prod((at - other) / (one - other) for other in points if other != one) for one in points]


def _slopes(points: Sequence[float], at: float) -> list[float]:
    """And for its slope there."""
    by_each = []
    for one in points:
        others = [other for other in points if other != one]
        sums = [prod(at - third for third in others if third != other) for other in others]
        by_each.append(sum(sums) / prod(one - other for other in others))
    return by_each


def _weighed(columns: Sequence[Sequence[float]], weights: Sequence[float]) -> list[float]:
    return [_dot(row, weights) for row in zip(*columns, strict=True)]
