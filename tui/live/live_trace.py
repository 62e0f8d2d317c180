"""The stretch of a running sitting that its trace shows. Costs what the stretch is long, not what the sitting is."""

from __future__ import annotations

from math import isnan

from plans.sitting import Sitting, limits_of, phase_spans
from plans.units import Units
from tui.widgets import CLEAR, Curve, TraceData, above, flags, floor_of, lines_of, measured_curve, shades, temperature

_EVEN = 5.0
"""The window moves on by this much at once, so that the curve does not shimmer [s]."""


def live_trace(sitting: Sitting, now: float, window: float, columns: int, units: Units = Units.METRIC) -> TraceData:
    """The last `window` seconds of a running sitting, for a plot of about so many columns."""
    end = max(window, (now // _EVEN + 1) * _EVEN)
    begin = end - window
    state = sitting.state
    low = floor_of(sitting.current_step)
    return TraceData(
        begin=begin,
        end=end,
        measured=above(low, measured_curve(sitting.believed, begin, end)),
        modelled=above(low, _modelled(sitting, begin, end)),
        spans=shades(phase_spans(state, sitting.now), begin, end, CLEAR * window / max(1, columns)),
        limits=lines_of(limits_of(sitting.current_step, state.heat, state.phase)),
        flags=flags(state.calls, begin, end),
        now=now,
        low=low,
        up=temperature(units),
    )


def _modelled(sitting: Sitting, begin: float, end: float) -> Curve:
    warm = sitting.warm
    first, last = max(0, warm.kept.place_after(begin) - 1), min(len(warm.skin), warm.kept.place_after(end))
    return Curve(
        list(map(warm.kept.time, range(first, last))),
        [None if isnan(value) else value for value in warm.skin[first:last]],
    )
