"""The arrest: the pause in the fall of the temperature when the steel transforms.

The pause must be one that heat set free makes: steel of the section could not cool so slowly without it, and it lasts
a good part of what the whole change would. The figures were found on simulated traces; laid on something warm, work
can look like it, so it is called a possible arrest.
"""

from __future__ import annotations

from collections import deque
from statistics import median

from plans.shapes import Section
from plans.sitting.pace import longest_pause, untransformed_fall
from plans.sitting.senses import slope_of
from plans.units import ZERO_CELSIUS

_BAND = (580.0 + ZERO_CELSIUS, 780.0 + ZERO_CELSIUS)
"""Where an arrest of carbon steel in air can be [K]."""
_SPANS = (6.0, 20.0)
"""The slope is taken over the time in which the work fell by `_FALL`, but within these [s]."""
_FALL = 12.0
"""A temperature difference [K]."""
_BEFORE = (5 / 6, 20 / 6)
"""It is held against the slopes of this many spans ago."""
_SHARE = 0.3
"""Slower than this share of the fall before counts as a pause."""
_HOLD = 0.5
"""How many spans it must last."""
_TOO_SLOW = 0.5
"""Slower than this share of the least that the section loses in still air without a change counts as a pause."""
_OF_PAUSE = 0.15
"""It must last for this share of the longest pause that the section can make."""
_EVERY = 0.5
"""Slopes are taken no oftener [s]."""
_LEAST_FALL = 0.3
"""Nothing that fell more slowly than this before can pause [K/s]."""


class ArrestWatch:
    """Listens for the arrest in one cooling, reading by reading; finds it once."""

    def __init__(self) -> None:
        self._recent: deque[tuple[float, float]] = deque()
        self._slopes: deque[tuple[float, float]] = deque()
        self._span = _SPANS[0]
        self._slow_since: float | None = None
        self._found = False

    def hear(self, at: float, kelvin: float, section: Section | None = None) -> float | None:
        """Take one believed temperature in.

        Args:
            at: its time [s]
            kelvin: the temperature [K]
            section: of the work; None where it is not known, and then any pause in the fall will do

        Returns:
            when the arrest began [s], once it is borne out
        """
        self._recent.append((at, kelvin))
        while self._recent[0][0] < at - _SPANS[1]:
            self._recent.popleft()
        if self._found or (self._slopes and at - self._slopes[-1][0] < _EVERY):
            return None
        points = [(when, value) for when, value in self._recent if when >= at - self._span]
        if len(points) < 4 or at - points[0][0] < self._span / 2:
            return None
        slope = slope_of(points)
        self._slopes.append((at, slope))
        while self._slopes[0][0] < at - _BEFORE[1] * _SPANS[1]:
            self._slopes.popleft()
        first, last = (at - spans * self._span for spans in reversed(_BEFORE))
        before = [value for when, value in self._slopes if first <= when <= last]
        usual = median(before) if len(before) > 2 else 0.0
        slow = usual < -_LEAST_FALL and slope > _SHARE * usual and _BAND[0] <= kelvin <= _BAND[1]
        hold = _HOLD * self._span
        if slow and section is not None:
            slow = slope > -_TOO_SLOW * untransformed_fall(section, kelvin)
            hold = max(hold, _OF_PAUSE * longest_pause(section, kelvin))
        if not slow:
            self._slow_since = None
            if usual < 0:
                self._span = min(max(_FALL / -usual, _SPANS[0]), _SPANS[1])
            return None
        if self._slow_since is None:
            self._slow_since = at
        if at - self._slow_since < hold:
            return None
        self._found = True
        # The slope looks back over its span: the pause began before it showed.
        return self._slow_since - self._span / 2
