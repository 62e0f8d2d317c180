"""Temperature from emf: the reference function itself turned round, to well below a thousandth of a degree.

The standard's own inverse polynomials are up to 0.06 degC off; they are not used. A table of the function every few
degrees brackets the answer, and Newton's method, kept within the bracket, finishes it in two or three steps.

Type B turns round near 21 degC, where its emf is -2.6 uV: below 42 degC it gives the same emf at two temperatures, and
up to 250 degC so little that nothing is told from it. Its inverse begins at 250 degC, as the standard's does.
"""

from __future__ import annotations

from bisect import bisect_right
from functools import cache
from math import ceil

from devices.errors import DeviceError
from devices.thermocouple.functions import (
    Kind,
    Range,
    cold_millivolts,
    millivolts_and_slope,
    reference_range,
    where,
)
from plans.units import ZERO_CELSIUS, in_both

_STEP = 16.0
"""Distance between two points of the table, at most [degC]."""
_CLOSE = 1e-9
"""A step of Newton's method that is smaller than this was the last [degC]."""
_ENOUGH = 60
"""Steps after which it ends in any case; halving alone gets there in fewer."""
_PRINTED = 0.0005
"""Tables print whole microvolts: the ends of the range as they are printed still count as within it [mV]."""

_B_BEGINS = 250.0 + ZERO_CELSIUS
_B_DOUBLED = 42.0 + ZERO_CELSIUS
"""Temperature below which a type B gives an emf that it gives at another temperature too [K]."""


def inverse_range(kind: Kind) -> Range:
    """The temperatures that can be told from an emf: the reference function's own, but for type B from 250 degC."""
    known = reference_range(kind)
    return Range(_B_BEGINS, known.highest) if kind is Kind.B else known


@cache
def _table(kind: Kind) -> tuple[list[float], list[float]]:
    known = inverse_range(kind)
    low, high = known.lowest - ZERO_CELSIUS, known.highest - ZERO_CELSIUS
    count = ceil((high - low) / _STEP)
    celsius = [low + (high - low) * i / count for i in range(count + 1)]
    return celsius, [millivolts_and_slope(kind, at)[0] for at in celsius]


def temperature(kind: Kind, volts: float, cold_junction: float = ZERO_CELSIUS) -> float:
    """Temperature of a thermocouple's warm end, from what is measured [K].

    Args:
        kind: type of the thermocouple
        volts: what is measured at the wires' ends [V]
        cold_junction: temperature of those ends [K]; its emf is added, then the sum is turned into a temperature

    Raises:
        DeviceError: the sum is no emf of this type, or the cold junction is outside its function; the text says
            the range in millivolts and in degrees.
    """
    wanted = volts * 1000 + cold_millivolts(kind, cold_junction)
    celsius, millivolts = _table(kind)
    if not millivolts[0] - _PRINTED <= wanted <= millivolts[-1] + _PRINTED:
        raise DeviceError(where(kind), _outside(kind, wanted, millivolts), "Check type and wiring.")
    above = min(max(bisect_right(millivolts, wanted), 1), len(celsius) - 1)
    return _solve(kind, wanted, celsius[above - 1], celsius[above]) + ZERO_CELSIUS


def _solve(kind: Kind, wanted: float, low: float, high: float) -> float:
    """The temperature between `low` and `high` [degC]; the function rises from one to the other."""
    at = (low + high) / 2
    for _ in range(_ENOUGH):
        emf_here, slope = millivolts_and_slope(kind, at)
        if emf_here < wanted:
            low = at
        else:
            high = at
        following = at - (emf_here - wanted) / slope if slope > 0 else low
        # Where two pieces meet a step of a millionth of a degree may throw Newton out: halve instead.
        if not low <= following <= high:
            following = (low + high) / 2
        if abs(following - at) < _CLOSE:
            return following
        at = following
    return at


def _outside(kind: Kind, wanted: float, millivolts: list[float]) -> str:
    said = (
        f"{wanted:.3f} mV, cold junction added, is out of its range, {millivolts[0]:.3f} to {millivolts[-1]:.3f} mV,"
        f" which is {inverse_range(kind)}"
    )
    if kind is Kind.B and wanted < millivolts[0]:
        said += "; below that a type B gives next to nothing, "
        said += f"and below {in_both(_B_DOUBLED)} one emf means two temperatures"
    return said
