"""What a caliper tells of a double edge, and what it can't: plane geometry, no source needed.

Widths tell well where a ridge lies across the blade, and badly how high it stands: on a face 28 mm wide with its ridge
3 mm high, 0.1 mm more on both bevels may as well be 0.5 mm of height. So heights count as alike as far as the readings
allow, unless they were measured by themselves.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import product
from math import inf, sqrt

from plans.bench.bevels import BenchError, DoubleEdge, Face, Measured
from plans.record import record

_STEPS = 60
"""Halvings of a span that a figure lies in."""
_LEAST_RISE = 1e-6
"""How much higher than both edges a ridge stands at least [m]."""
_STEEPEST = 0.99
"""Most that a bevel may rise for each of its width."""


@record
class Told:
    """What readings that are off by no more than so much tell of a section."""

    section: DoubleEdge
    """The section with its ridges as equally high as the readings allow, or as high as they were measured."""
    might_be: tuple[DoubleEdge, ...]
    """Sections at the ends of what the same readings allow; the truth lies among them."""
    higher: tuple[float, float]
    """How much higher the front's ridge stands than the back's, at least and at most [m]."""
    heights_known: bool
    """Whether the heights were measured by themselves."""

    def ends(self, of: Callable[[DoubleEdge], float]) -> tuple[float, float]:
        """The least and the most of a figure among all that the section may be; that of `section` lies between.

        Args:
            of: the figure of a section
        """
        figures = [of(one) for one in (self.section, *self.might_be)]
        return min(figures), max(figures)


def told_by(measured: Measured, error: float) -> Told:
    """The section that was measured, its edges square to its middle, and what else it might be.

    Args:
        measured: the readings
        error: how far each may be off, either way, from 0 up [m]

    Raises:
        BenchError: no section measures so.
    """
    _check(measured)
    higher = _higher(measured, error)
    wanted = 0.0 if measured.higher is None else measured.higher
    section = _section(measured, min(max(wanted, higher[0]), higher[1]))
    return Told(section, tuple(_might_be(measured, higher, error)), higher, measured.higher is not None)


def section_of(measured: Measured) -> DoubleEdge:
    """The section that was measured, its edges square to its middle, where every reading is exact.

    Raises:
        BenchError: no section measures so.
    """
    return told_by(replace(measured, higher=None), 0.0).section


def _higher(measured: Measured, error: float) -> tuple[float, float]:
    """How much higher the front's ridge may stand than the back's, at least and at most [m].

    The wider a face measures, the higher its ridge: one end is the front read too narrow and the back too wide.
    """
    most = _most(measured)

    def end(wider: float) -> float:
        one, two, three, four = measured.widths
        read = replace(measured, widths=(one + wider, two + wider, three - wider, four - wider))

        def is_too_low(higher: float) -> bool:
            front, back = _across(read, higher)
            return sum(front) > sum(back)

        if is_too_low(most):
            return inf
        if not is_too_low(-most):
            return -inf
        low, high = -most, most
        for _ in range(_STEPS):
            middle = (low + high) / 2
            low, high = (middle, high) if is_too_low(middle) else (low, middle)
        return (low + high) / 2

    low, high = end(-error), end(error)
    if low > most or high < -most:
        raise BenchError(
            "ridge", "the bevels' widths, the edges and the thickness at the ridge make no section: measure them again"
        )
    low, high = max(low, -most), min(high, most)
    if measured.higher is None:
        return low, high
    # Two readings make a difference.
    low, high = max(low, measured.higher - 2 * error), min(high, measured.higher + 2 * error)
    if low > high + _LEAST_RISE:
        raise BenchError(
            "heights", "the ridges' heights and the bevels' widths make no section together: measure both again"
        )
    return low, high


def _most(measured: Measured) -> float:
    """The most that one ridge may stand higher than the other: both above the edges, and no bevel near upright [m]."""
    steep = 2 * _STEEPEST * min(measured.widths) + min(measured.edges) - measured.ridge
    return max(min(measured.ridge - max(measured.edges) - _LEAST_RISE, steep), 0.0)


def _section(measured: Measured, higher: float) -> DoubleEdge:
    """The section with its front ridge so much higher, as far as may be; as wide as both faces say on average."""
    most = _most(measured)
    higher = min(max(higher, -most), most)
    first, second = (edge / 2 for edge in measured.edges)
    front, back = _across(measured, higher)
    width = (sum(front) + sum(back)) / 2

    def face(across: tuple[float, float], height: float) -> Face:
        return Face(first, second, (width + across[0] - across[1]) / 2, height)

    return DoubleEdge(width, face(front, (measured.ridge + higher) / 2), face(back, (measured.ridge - higher) / 2))


def _across(measured: Measured, higher: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """How wide each bevel is across the blade, those of the front and those of the back [m]."""
    one, two, three, four = measured.widths
    first, second = (edge / 2 for edge in measured.edges)
    front, back = (measured.ridge + higher) / 2, (measured.ridge - higher) / 2
    return (
        (_level(one, front - first), _level(two, front - second)),
        (_level(three, back - first), _level(four, back - second)),
    )


def _level(width: float, rise: float) -> float:
    return sqrt(max(width**2 - rise**2, 0.0))


def _might_be(measured: Measured, higher: tuple[float, float], error: float) -> list[DoubleEdge]:
    """The ends of what the readings allow: each ridge off one way or the other, on each height that it may have."""
    if error == 0:
        return []
    offs = product((-error, error), repeat=4)
    return [_section(_off(measured, off), apart) for off in offs for apart in higher]


def _off(measured: Measured, off: tuple[float, ...]) -> Measured:
    """The readings, were the front's ridge, the back's, the edges and the thickness off by so much [m]."""
    one, two, three, four = measured.widths
    front, back, edge, ridge = off
    first, second = measured.edges
    return Measured(
        (one + front, two - front, three + back, four - back),
        (max(first + edge, _LEAST_RISE), max(second - edge, _LEAST_RISE)),
        measured.ridge + ridge,
    )


def _check(measured: Measured) -> None:
    if not all(1e-4 <= width <= 1.0 for width in measured.widths):
        raise BenchError("widths", "give four, from 0.1 mm to 1 m each")
    if not all(0 < edge <= 0.1 for edge in measured.edges):
        raise BenchError("edges", "give two, above zero and up to 100 mm each")
    if not max(measured.edges) + 4 * _LEAST_RISE < measured.ridge:
        raise BenchError("ridge", "it must be thicker than both edges")
    if (measured.ridge - min(measured.edges)) / 2 >= min(measured.widths):
        raise BenchError(
            "ridge", "so thick a ridge on so narrow bevels would stand steeper than upright: measure again"
        )
