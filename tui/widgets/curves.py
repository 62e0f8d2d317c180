"""The stretch of a sitting that its trace shows. Costs what the stretch is long, not what the sitting is."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import isnan

from plans.logbook.figures import Span
from plans.plan import PhaseKind, Step
from plans.sitting.events import Call, Called
from plans.sitting.warm import GRID
from plans.trace import Trace
from tui.widgets.plotting import Curve
from tui.widgets.trace_plot import Flag, Shade

FLAGS = {
    Call.SOAK_DONE: "♦",
    Call.TIME_UP: "♦",
    Call.COLD_ENOUGH: "♦",
    Call.AT_HEAT: "♦",
    Call.TOO_COLD: "▼",
    Call.TOO_HOT: "▲",
    Call.SOAKED_TOO_LONG: "!",
    Call.PEAK_MISSED: "!",
    Call.QUENCH_LATE: "!",
    Call.TEMPER_LATE: "!",
    Call.PROBE_LOST: "?",
    Call.PROBE_BACK: "+",
    Call.ARREST: "≈",
    Call.FIRE_FELL: "↓",
}
"""The mark of each call on a curve."""
_WARM = frozenset({PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.OVEN, PhaseKind.DIP})
_GAP = 5.0
"""A longer silence of the probe is a gap in its curve [s]."""
CLEAR = 2.5
"""Columns that keep two shaded stretches clear of each other."""


def measured_curve(trace: Trace, begin: float, end: float) -> Curve:
    """The readings between two times, with gaps where there are none."""
    part = trace.between(begin, end)
    at: list[float] = []
    kelvin: list[float | None] = []
    last = begin
    for moment, value in zip(part.times, part.kelvins, strict=True):
        if isnan(value):
            continue
        if at and moment - last > _GAP:
            at.append(last + GRID)
            kelvin.append(None)
        at.append(moment)
        kelvin.append(value)
        last = moment
    return Curve(at, kelvin)


def above(low: float | None, curve: Curve) -> Curve:
    """The curve without what would only lie along the foot of the trace."""
    if low is None:
        return curve
    return Curve(curve.at, [None if value is None or value < low else value for value in curve.kelvin])


def shades(parts: Iterable[Span], begin: float, end: float, apart: float = 0.0) -> list[Shade]:
    """Each stay in the fire, the oven or the bath, by its heat; a soak goes with the fire before it.

    Args:
        parts: the phases of a sitting, in order
        begin: those that ended before are left out [s]
        end: so are those that began later [s]
        apart: a stay is drawn this much shorter where the next one follows closer, so that they can be told apart [s]
    """
    found: list[Shade] = []
    before: Span | None = None
    for part in parts:
        if part.phase in _WARM and part.ended >= begin and part.began <= end:
            joins = before is not None and before.phase is PhaseKind.FIRE and part.phase is PhaseKind.SOAK
            if found and joins:
                found[-1] = (found[-1][0], part.ended, found[-1][2])
            else:
                found.append((part.began, part.ended, str(part.heat)))
        before = part
    for index, (shade, following) in enumerate(pairwise(found)):
        found[index] = (shade[0], max(shade[0], min(shade[1], following[0] - apart)), shade[2])
    return found


def limits(step: Step, heat: int, phase: PhaseKind) -> list[tuple[float, str]]:
    """The temperatures that count in a phase, the most important first."""
    target = step.target(heat)
    cold = [(step.keep_above, "cold")] if step.keep_above is not None else []
    burn = [(step.burn_above, "burn")] if step.burn_above is not None else []
    heat_to = [(target.heat_to, "heat to")] if target is not None else []
    until = [(part.until, "cool to") for part in step.phases if part.kind is phase and part.until is not None]
    oven = [(part.at, "oven") for part in step.phases if part.kind is phase and part.at is not None]
    match phase:
        case PhaseKind.FIRE | PhaseKind.SOAK | PhaseKind.READY:
            return [*heat_to, *burn, *cold]
        case PhaseKind.STRIKE:
            return [*cold, *burn, *heat_to]
        case _:
            return [*until, *oven] or [*heat_to]


def floor_of(step: Step) -> float | None:
    """Where the foot of a low trace stands, so that what counts has the room: a warming bar comes in from below [K]."""
    known = [kelvin for phase in step.phases for kelvin, _ in limits(step, 1, phase.kind)]
    if not known:
        return None
    return min(known) - max(100.0, 0.6 * (max(known) - min(known)))


def flags(calls: Sequence[Called], begin: float, end: float) -> list[Flag]:
    """The calls between two times."""
    first = bisect_left(calls, begin, key=lambda call: call.at)
    last = bisect_right(calls, end, key=lambda call: call.at)
    return [(call.at, call.kelvin, FLAGS[call.call]) for call in calls[first:last]]
