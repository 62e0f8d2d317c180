"""The inverse of a rising function, by Newton's method kept within a bracket."""

from __future__ import annotations

from collections.abc import Callable

_CLOSE = 1e-10
"""A last correction by less than this share of the root ends the search."""


def find_inverse(
    rising: Callable[[float], float],
    slope: Callable[[float], float],
    value: float,
    low: float,
    high: float,
    share: float = 0.5,
) -> float:
    """The argument between `low` and `high` at which a rising function comes to a value.

    Args:
        rising: the function, however sharply it bends
        slope: the derivative of the function, above 0
        value: what it is to come to, between what it is at `low` and at `high`
        low: least argument, above 0
        high: greatest argument, above `low`
        share: how far on the way from `low` to `high` to begin, from 0 to 1
    """
    at = low + (high - low) * share
    before = high - low
    for _ in range(100):
        error = rising(at) - value
        if error > 0:
            high = at
        else:
            low = at
        step = error / slope(at)
        if abs(step) < _CLOSE * at:
            break
        at -= step
        # Where the function bends sharply the steps may go to and fro without growing much shorter.
        if low < at < high and abs(step) < before / 2:
            before = abs(step)
        else:
            at, before = (low + high) / 2, high - low
    return at
