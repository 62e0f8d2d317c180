"""The stretch of a sitting that its trace shows. Costs what the stretch is long, not what the sitting is."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from math import isnan

from plans.logbook.figures import Span, spans
from plans.plan import PhaseKind, Step
from plans.sitting.engine import Sitting
from plans.sitting.events import Call, Called
from plans.sitting.warm import GRID
from plans.trace import Trace
from tui.widgets.plotting import Curve
from tui.widgets.sheet import Flag, TraceData
from tui.widgets.sheet import Span as Shade

FLAGS = {
    Call.SOAK_DONE: "♦",
    Call.TIME_UP: "♦",
    Call.TOO_COLD: "▼",
    Call.TOO_HOT: "▲",
    Call.SOAKED_TOO_LONG: "!",
    Call.PROBE_LOST: "?",
    Call.PROBE_BACK: "+",
}
"""The mark of each call on a curve."""
_IN_FIRE = frozenset({PhaseKind.FIRE, PhaseKind.SOAK})
_HOLDING = frozenset({PhaseKind.OVEN, PhaseKind.DIP})
_GAP = 5.0
"""A longer silence of the probe is a gap in its curve [s]."""
_EVEN = 5.0
"""The window moves on by this much at once, so that the curve does not shimmer [s]."""


def live_trace(sitting: Sitting, now: float, window: float) -> TraceData:
    """The last `window` seconds of a running sitting."""
    end = max(window, (now // _EVEN + 1) * _EVEN)
    begin = end - window
    state = sitting.state
    low = floor_of(state.current_step)
    return TraceData(
        begin=begin,
        end=end,
        measured=above(low, measured_curve(sitting.measured, begin, end)),
        modelled=above(low, _modelled(sitting, begin, end)),
        spans=shades(spans(sitting), begin, end),
        limits=limits(state.current_step, state.heat, state.phase),
        flags=flags(state.calls, begin, end),
        now=now,
        low=low,
    )


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


def _modelled(sitting: Sitting, begin: float, end: float) -> Curve:
    first, last = max(0, int(begin / GRID) - 1), min(sitting.warm.count, int(end / GRID))
    return Curve(
        [(index + 1) * GRID for index in range(first, last)],
        [None if isnan(value) else value for value in sitting.warm.skin[first:last]],
    )


def above(low: float | None, curve: Curve) -> Curve:
    """The curve without what would only lie along the foot of the trace."""
    if low is None:
        return curve
    return Curve(curve.at, [None if value is None or value < low else value for value in curve.kelvin])


def shades(parts: Iterable[Span], begin: float, end: float) -> list[Shade]:
    """Each stay in the fire or the oven, by its heat; those that follow one another are one."""
    found: list[Shade] = []
    before: Span | None = None
    for part in parts:
        warm = part.phase in _IN_FIRE or part.phase in _HOLDING
        if warm and part.ended >= begin and part.began <= end:
            joins = before is not None and before.phase in _IN_FIRE and part.phase is PhaseKind.SOAK
            if joins and found and before is not None and before.ended >= begin:
                found[-1] = (found[-1][0], part.ended, found[-1][2])
            else:
                found.append((part.began, part.ended, str(part.heat)))
        before = part
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
