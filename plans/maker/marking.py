"""Figures that a hand can follow: what is marked on a bar, and what calipers are set to."""

from __future__ import annotations

from math import ceil, floor
from typing import Final

from plans.shapes import Section
from plans.units import INCH, Units

_FINE: Final = 10e-3
"""From this side on calipers are set to half millimetres, below it to tenths [m]."""

_SHORT: Final = 5e-3
"""A shorter length is measured, and not marked: to a whole millimetre it would be off by some per cent [m]."""


def marked(length: float, units: Units) -> float:
    """A length to whole millimetres or sixteenths of an inch, and a short one as calipers are set to it [m].

    Args:
        length: as it was worked out [m]
        units: those in which it is marked
    """
    if length < _SHORT:
        return set_to(length, units)
    step = INCH / 16 if units.inches else 1e-3
    return floor(length / step + 0.5) * step


def set_to(side: float, units: Units, *, up: bool = False) -> float:
    """A side of the work as calipers are set to it [m]: half millimetres, or tenths below 10 mm; in inches sixteenths,
    below an inch half of them, and below a quarter of an inch a quarter of them.

    Args:
        side: as it was worked out [m]
        units: those in which it is measured
        up: whether it is to be no smaller; else it is the nearest
    """
    step = _step(side, units)
    count = ceil(side / step - 1e-6) if up else floor(side / step + 0.5)
    return max(1, count) * step


def worked_to(one: float, other: float, units: Units, *, up: bool = False) -> Section:
    """A flat section whose sides calipers are set to, whichever is the larger [m]; for the arguments see `set_to`."""
    sides = set_to(one, units, up=up), set_to(other, units, up=up)
    return Section(max(sides), min(sides))


def _step(side: float, units: Units) -> float:
    if units.inches:
        return INCH / (16 if side >= INCH else 32 if side >= INCH / 4 else 64)
    return (1e-3 if side >= 0.1 else 0.5e-3) if side >= _FINE else 0.1e-3
