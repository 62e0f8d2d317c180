"""The stretch of a running sitting that its trace shows. Costs what the stretch is long, not what the sitting is."""

from __future__ import annotations

from bisect import bisect_left
from math import isnan

from plans.sitting import Sitting, limits_of, phase_spans
from plans.units import Units
from tui.widgets import CLEAR, Curve, TraceData, above, flags, floor_of, lines_of, measured_curve, shades, temperature

_EVEN = 5.0
"""The window moves on by this much at once, so that the curve does not shimmer [s]."""


class LiveTrace:
    """The trace of a running sitting; from one look to the next it takes in no more than the readings that have come.

    Args:
        sitting: whose
        units: that its labels are in
    """

    def __init__(self, sitting: Sitting, units: Units = Units.METRIC) -> None:
        self._sitting, self._units = sitting, units
        self._at: list[float] = []
        self._kelvins: list[float | None] = []
        """What is believed of the readings of the window, with gaps where the probe was lost."""
        self._of: tuple[float, float | None] = (0.0, None)
        """Where the window began at the last look [s], and what was left out as it lay below [K]."""

    def data(self, now: float, window: float, columns: int) -> TraceData:
        """The last `window` seconds, for a plot of about so many columns."""
        end = max(window, (now // _EVEN + 1) * _EVEN)
        begin = end - window
        sitting, state = self._sitting, self._sitting.state
        low = floor_of(sitting.current_step)
        return TraceData(
            begin=begin,
            end=end,
            measured=self._measured(begin, end, low),
            modelled=above(low, _modelled(sitting, begin, end)),
            spans=shades(phase_spans(state, sitting.now), begin, end, CLEAR * window / max(1, columns)),
            limits=lines_of(limits_of(sitting.current_step, state.heat, state.phase)),
            flags=flags(state.calls, begin, end),
            now=now,
            low=low,
            up=temperature(self._units),
        )

    def _measured(self, begin: float, end: float, low: float | None) -> Curve:
        began, above_low = self._of
        if begin < began or low != above_low:
            self._at, self._kelvins = [], []
        self._of = begin, low
        gone = bisect_left(self._at, begin)
        del self._at[:gone], self._kelvins[:gone]
        # From the newest on that was taken in: several readings may have come at its time.
        since = self._at[-1] if self._at else begin
        known = bisect_left(self._at, since)
        new = above(low, measured_curve(self._sitting.believed, since, end))
        self._at[known:], self._kelvins[known:] = new.at, new.values
        return Curve(self._at, self._kelvins)


def _modelled(sitting: Sitting, begin: float, end: float) -> Curve:
    warm = sitting.warm
    first, last = max(0, warm.kept.place_after(begin) - 1), min(len(warm.skin), warm.kept.place_after(end))
    return Curve(
        list(map(warm.kept.time, range(first, last))),
        [None if isnan(value) else value for value in warm.skin[first:last]],
    )
