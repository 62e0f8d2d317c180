"""The stretch of a sitting that its trace shows. Costs what the stretch is long, not what the sitting is."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import isnan

from plans.plan import Step
from plans.sitting import GRID, Believed, Called, Limit, PhaseSpan, limits_of, shaded_spans
from plans.trace import Trace
from tui.widgets.plotting import Curve
from tui.widgets.trace_layout import Flag, Shade

CLEAR = 2.5
"""Columns that keep two shaded stretches clear of each other."""


def measured_curve(believed: Believed, begin: float, end: float) -> Curve:
    """Temperatures [K] that are believed of readings between two times [s], with gaps where the probe was lost."""
    at: list[float] = []
    kelvins: list[float | None] = []
    for piece in believed.pieces(begin, end):
        if at:
            at.append(at[-1] + GRID)
            kelvins.append(None)
        at.extend(moment for moment, _ in piece)
        kelvins.extend(kelvin for _, kelvin in piece)
    return Curve(at, kelvins)


def modelled_curve(trace: Trace) -> Curve:
    """A modelled trace as temperatures [K], with gaps where the model knew none."""
    return Curve(trace.times, [None if isnan(kelvin) else kelvin for kelvin in trace.kelvins])


def above(low: float | None, curve: Curve) -> Curve:
    """The curve without what would only lie along the foot of the trace."""
    if low is None:
        return curve
    return Curve(curve.at, [None if value is None or value < low else value for value in curve.values])


def shades(parts: Iterable[PhaseSpan], begin: float, end: float, apart: float = 0.0) -> list[Shade]:
    """What a trace shades between two times, each with the number of its heat.

    Args:
        parts: the phases of a sitting, in order
        begin: those that ended before are left out [s]
        end: so are those that began later [s]
        apart: a stay is drawn this much shorter where the next one follows closer, so that they can be told apart [s]
    """
    found = [(began, ended, str(heat)) for began, ended, heat in shaded_spans(parts) if ended >= begin and began <= end]
    for index, (shade, following) in enumerate(pairwise(found)):
        found[index] = (shade[0], max(shade[0], min(shade[1], following[0] - apart)), shade[2])
    return found


def lines_of(limits: Iterable[Limit]) -> list[tuple[float, str]]:
    """Limits as traces and scales take them: temperature [K] and label, in the same order."""
    return [(limit.kelvin, limit.name.value) for limit in limits]


def floor_of(step: Step) -> float | None:
    """Where the foot of a low trace stands, so that what counts has the room: a warming bar comes in from below [K]."""
    known = [limit.kelvin for phase in step.phases for limit in limits_of(step, 1, phase.kind)]
    if not known:
        return None
    return min(known) - max(100.0, 0.6 * (max(known) - min(known)))


def flags(calls: Sequence[Called], begin: float, end: float) -> list[Flag]:
    """The calls between two times."""
    first = bisect_left(calls, begin, key=lambda call: call.at)
    last = bisect_right(calls, end, key=lambda call: call.at)
    return [(call.at, call.kelvin, call.call.row.sign) for call in calls[first:last]]
