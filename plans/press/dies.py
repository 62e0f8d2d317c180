"""Force of a squeeze between flat dies, with friction and with the bar beyond the dies holding back.

The upper bound of an evenly squeezed block: the power of the dies is that of the strain, of the friction on both faces
and of the shear where the bitten length meets the bar. With no gain in width it is the slab formula, 2k(1 + m b/4h).

References:
    .. [1] W. F. Hosford and R. M. Caddell, Metal Forming: Mechanics and Metallurgy, 3rd ed., section 9-11.
    .. [2] R. Hill, The Mathematical Theory of Plasticity, 1950: a flat punch in deep metal, 2k(1 + pi/2).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from math import asinh, exp, hypot, pi, sqrt
from typing import Final

from plans.press.flow import SPREAD, Hot, flow_stress, stress_of
from plans.press.spread import SPREAD_SOURCE, WIDEST_BITE, Squeeze, strain_factor
from plans.reckoned import Reckoned
from plans.units import Shown, Units

LEAST_FRICTION, FRICTION, MOST_FRICTION = 0.3, 0.7, 1.0
"""Friction factor of hot steel on dies without lubricant, 1 where it sticks: least, usual, most; from memory."""
STROKE: Final = 0.6
"""Most that one squeeze is reckoned with, as true strain in height: to 55 % of it."""
_DEEP: Final = 2 / sqrt(3) * (1 + pi / 2)
"""Pressure of a flat punch in deep metal for each of flow stress, the most of narrow dies on a high bar but for
friction."""
DIES_SOURCE: Final = (
    "upper bound of an evenly squeezed block; without gain in width the slab formula 2k(1 + m b/4h) of Hosford and "
    "Caddell, Metal Forming, 3rd ed., section 9-11"
)
"""What the force stands on, as it is cited."""
_PIECES: Final = 8
"""Places along a squeeze at which its force is looked at."""
_STEPS: Final = 40
"""Halvings of a span that a figure lies in."""


def pressure_factor(
    height: float, width: float, bite: float, spread: float, friction: float, *, held: bool = True
) -> float:
    """Mean pressure on the dies for each of flow stress [1]_ [2]_.

    Args:
        height: of the bar between the dies [m]
        width: of the bar [m]
        bite: length of bar between the dies [m]
        spread: share of the squeeze that goes into width, from 0 to 1
        friction: friction factor, from 0 to 1 where the steel sticks
        held: whether bar goes on beyond the dies on both sides, and holds back what flows
    """
    rubbed = 2 / sqrt(3) * friction / height * _mean_distance((1 - spread) * bite, spread * width)
    sheared = 2 / sqrt(3) / bite * _mean_distance(height, spread * width) if held else 0.0
    return min(strain_factor(spread) + sheared, _DEEP) + rubbed


def _mean_distance(one: float, other: float) -> float:
    """Mean distance of the points of a rectangle from its middle [m], by integration in closed form.

    Args:
        one: one side, above 0 [m]
        other: the other, from 0 up [m]
    """
    p, q = one / 2, other / 2
    if q < 1e-9 * p:
        return p / 2
    if p < 1e-9 * q:
        return q / 2
    return hypot(p, q) / 3 + p**2 / (6 * q) * asinh(q / p) + q**2 / (6 * p) * asinh(p / q)


def _along(squeeze: Squeeze, hot: Hot, friction: float, pieces: int) -> Iterator[tuple[float, float]]:
    """Heights along a squeeze at an even rate of strain, the last one that of its end, and the force at each [m, N]."""
    for piece in range(1, pieces + 1):
        share = piece / pieces
        part = replace(squeeze, height_then=squeeze.height * exp(-squeeze.by_height * share))
        factor = pressure_factor(part.height_then, part.width_then, part.bite, part.spread, friction)
        stress = stress_of(replace(hot, seconds=hot.seconds * share), part.strain)
        yield part.height_then, stress * factor * part.bite * part.width_then


def _force(squeeze: Squeeze, hot: Hot, friction: float = FRICTION) -> float:
    """The largest force along a squeeze [N]: mostly that of its end, but steel may soften sooner than a bar widens."""
    return max(force for _, force in _along(squeeze, hot, friction, _PIECES))


def force_needed(squeeze: Squeeze, hot: Hot) -> Reckoned:
    """Largest force on flat dies in a squeeze, mostly that of its end [N] [1]_.

    The range takes in what is not known of the flow stress and of the friction.

    Args:
        squeeze: the bar before and after
        hot: its steel
    """
    stress = flow_stress(hot, squeeze.strain)
    return Reckoned(
        _force(squeeze, hot),
        "modelled",
        _validity(stress),
        f"{DIES_SOURCE}; flow stress: {Units.METRIC.text(stress.source)}; spread {SPREAD_SOURCE}",
        _force(squeeze, hot, LEAST_FRICTION) * (1 - SPREAD),
        _force(squeeze, hot, MOST_FRICTION) * (1 + SPREAD),
        stress.outside or squeeze.bite > WIDEST_BITE * squeeze.width,
    )


def _validity(stress: Reckoned) -> Shown:
    return lambda units: (
        "the largest of the squeeze; flat dies, the bar as hot throughout; cold dies, a chilled skin ask for more; "
        f"the range is friction of {LEAST_FRICTION:g} to {MOST_FRICTION:g} (1 where the steel sticks) and what is not "
        f"known of how hard hot steel resists: "
        f"{units.text(stress.validity)}"
    )


def work_needed(squeeze: Squeeze, hot: Hot) -> float:
    """Work that the dies do in a squeeze [J]: what a hammer must bring in its blows.

    Args:
        squeeze: the bar before and after
        hot: its steel
    """
    work, last, height = 0.0, 0.0, squeeze.height
    for lower, force in _along(squeeze, hot, FRICTION, 2 * _PIECES):
        work += (last + force) / 2 * (height - lower)
        last, height = force, lower
    return work


def height_reached(height: float, width: float, bite: float, force: float, hot: Hot) -> Reckoned:
    """Height to which a force brings a bar in one squeeze, no lower than a true strain of `STROKE` in height [m].

    Args:
        height: of the bar before, between the dies [m]
        width: of the bar before [m]
        bite: length of bar between the dies [m]
        force: that the dies bring, above 0 [N]
        hot: the steel
    """

    def by(stress: float, friction: float) -> float:
        def gives_way(strain: float) -> bool:
            squeeze = Squeeze(height, width, bite, height * exp(-strain))
            return _force(squeeze, hot, friction) * stress <= force

        return height * exp(-_largest(gives_way, 1e-6, STROKE))

    found = by(1.0, FRICTION)
    needed = force_needed(Squeeze(height, width, bite, found), hot)
    ends = by(1 - SPREAD, LEAST_FRICTION), by(1 + SPREAD, MOST_FRICTION)
    # A force that surely goes further has no range: the height is where it is held.
    low, high = ends if ends[0] < ends[1] else (None, None)
    reached = replace(needed, value=found, least=low, most=high)
    if found > height * exp(-STROKE):
        return reached

    def spare(units: Units) -> str:
        share = f"{100 * exp(-STROKE):.0f} % of the height"
        return f"the force would go further, but no squeeze is reckoned below {share}; {units.text(needed.validity)}"

    return replace(reached, validity=spare)


def widest_dies(squeeze: Squeeze, force: float, hot: Hot) -> Reckoned | None:
    """Widest dies with which a force squeezes a bar as far, up to four widths of the bar [m].

    The range takes in what is not known of the flow stress and of the friction; its low end is 0 where dies of a tenth
    of the bar's height may be too wide already.

    Args:
        squeeze: the bar before and after; its own bite is not looked at
        force: that the dies bring, above 0 [N]
        hot: its steel

    Returns:
        the width of the dies; None where even dies of a tenth of the bar's height would not do
    """

    narrowest = 0.1 * squeeze.height

    def by(stress: float, friction: float) -> float:
        def does(bite: float) -> bool:
            return _force(replace(squeeze, bite=bite), hot, friction) * stress <= force

        return _largest(does, narrowest, 4 * squeeze.width) if does(narrowest) else 0.0

    found = by(1.0, FRICTION)
    if found == 0:
        return None
    ends = by(1 + SPREAD, MOST_FRICTION), by(1 - SPREAD, LEAST_FRICTION)
    needed = force_needed(replace(squeeze, bite=found), hot)
    return replace(needed, value=found, least=ends[0], most=ends[1])


def _largest(holds: Callable[[float], bool], low: float, high: float) -> float:
    """The largest number of a span up to which something holds, where it holds up to some number and not beyond."""
    if holds(high):
        return high
    for _ in range(_STEPS):
        middle = (low + high) / 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low
