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
    """Where a rising function comes to a value, between `low` and `high`.

    Args:
        rising: the function, however sharply it bends
        slope: its derivative, above 0
        value: between what the function is at `low` and at `high`
        low: above 0
        high: above `low`
        share: of the way from `low` to `high` at which to begin
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
