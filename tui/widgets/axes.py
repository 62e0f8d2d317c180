"""Round numbers for axes, and times as a smith reads them."""

from __future__ import annotations

from math import ceil

_TIMES = (5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14400, 28800, 86400)
_DEGREES = (10, 20, 50, 100, 200, 250, 500, 1000)


def time_step(seconds: float, labels: int) -> int:
    """The smallest round step [s] that puts no more than `labels` labels on a stretch of `seconds`."""
    return next((step for step in _TIMES if seconds / step <= max(1, labels)), _TIMES[-1])


def time_label(at: float, step: int) -> str:
    """`at` [s] in minutes, or in minutes and seconds where the step is shorter than one."""
    seconds = round(at)
    return str(seconds // 60) if step >= 60 else f"{seconds // 60}:{seconds % 60:02d}"


def degree_step(span: float, labels: int) -> int:
    """The smallest round step that puts no more than `labels` labels on `span` degrees."""
    return next((step for step in _DEGREES if span / step <= max(1, labels)), _DEGREES[-1])


def multiples(step: int, low: float, high: float) -> range:
    """The multiples of `step` from `low` to `high`."""
    return range(ceil(low / step) * step, int(high // 1) + 1, step)
