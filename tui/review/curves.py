"""What the review draws of a sitting, and what it says of one moment of it."""

from __future__ import annotations

from plans.phase import PhaseKind
from plans.sitting import limits_of
from plans.units import Units
from tui.review.review_data import Review
from tui.review.rows import Stop
from tui.review.window import Window
from tui.widgets import CLEAR, TraceData, above, flags, floor_of, lines_of, shades, temperature


class ReviewCurves:
    """The curves of a sitting: of all of it without what would only lie along the foot, of a part with all that it has.

    Args:
        review: the sitting
        units: the units that are set
    """

    def __init__(self, review: Review, units: Units) -> None:
        self._review, self._units = review, units
        floors = [floor_of(step) for step in review.plan.steps] if review.plan is not None else []
        self._low = min((floor for floor in floors if floor is not None), default=None)
        self._measured, self._modelled = above(self._low, review.measured), above(self._low, review.modelled)

    def seen(self, window: Window, stop: Stop | None, width: int) -> TraceData:
        """What a trace shows of a stretch.

        Args:
            window: the stretch
            stop: what the list stands on, whose limits are drawn
            width: of the trace [cells]
        """
        review, begin, end = self._review, window.begin, window.end
        step = review.plan.steps[stop.step] if review.plan is not None and stop is not None else None
        limits = () if step is None or stop is None else limits_of(step, stop.heat, PhaseKind.STRIKE)
        whole = window.is_whole
        return TraceData(
            begin=begin,
            end=end,
            measured=self._measured if whole else review.measured,
            modelled=self._modelled if whole else review.modelled,
            low=self._low if whole else None,
            spans=shades(review.spans, begin, end, CLEAR * window.length / max(1, width)),
            limits=lines_of(limits),
            flags=flags(review.calls, begin, end),
            up=temperature(self._units),
        )

    def values(self, at: float) -> str:
        """What the curves are at a time [s]: "measured 1187 degC, modelled 1190 degC"."""
        named = (("measured", self._review.measured), ("modelled", self._review.modelled))
        return ", ".join(f"{name} {self._units.temperature(curve.near(at))}" for name, curve in named if curve.at)

    def doing(self, at: float) -> str:
        """What was going on at a time [s]: "strike, heat 2"; empty where nothing was."""
        review = self._review
        part = review.part_at(at)
        if part is None or review.plan is None:
            return ""
        return f"{part.phase.value}, {review.plan.steps[part.step].counts} {part.heat}"
