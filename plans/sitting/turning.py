"""In and out of the fire, heard from the temperature alone.

The figures were found on simulated traces (work of 6 to 25 mm, noise of 1 to 4 K, 1 to 10 Hz, 0.5 % spikes, 2 % missing
readings); they have not been tried on real steel.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from dataclasses import dataclass
from statistics import median

from plans.sitting.senses import LEAST, MEDIAN_OF, Patience

FALL = 25.0
"""Work that lost this came out of the fire: a temperature difference [K]."""
RISE = 25.0
"""Work that gained this went in: a temperature difference [K]."""
BRIGHTENING = 45.0
"""As much may come back by itself when steel recalesces in the air: a temperature difference [K]."""
_NEAR = 1 / 3
"""The turn is dated to the last moment that was within this share of the change from where it began."""
_WITHIN = 45.0
"""The change must come within this: a fire that drifts is no heat [s]."""


@dataclass(frozen=True, slots=True)
class Turn:
    """A point at which a temperature turned, up or down."""

    rose: bool
    """Whether it turned upwards, as work does that went into the fire; else it fell, as work does that came out."""
    at: float
    """When it turned, in seconds since the sitting began."""


class TurningPoints:
    """Finds where a noisy temperature turns, reading by reading, whatever their spacing.

    It has a median of its own, not smoothed, so that it is fast; what counts as silence is the probe's rule.
    """

    def __init__(self) -> None:
        self._patience = Patience()
        self._readings: deque[float] = deque(maxlen=MEDIAN_OF)
        self._recent: deque[tuple[float, float]] = deque()
        """Filtered temperatures since the last turn, of the last `_WITHIN` seconds."""
        self._rose: bool | None = None
        """The last turn."""

    def hear(self, at: float, kelvin: float, rise: float = RISE) -> Turn | None:
        """Take one temperature in, and tell whether it bears a turn out.

        Args:
            at: its time [s]
            kelvin: as it came, not filtered, from `COLDEST` to `HOTTEST` [K]
            rise: how far it must come back up to count: a temperature difference [K]

        Returns:
            the turn that it bears out, if any
        """
        recent = self._recent
        if self._patience.hear(at):
            self.forget()
        self._readings.append(kelvin)
        if len(self._readings) < LEAST:
            return None
        value = median(self._readings)
        recent.append((at, value))
        while recent[0][0] < at - _WITHIN:
            recent.popleft()
        if self._rose is not False and (high := max(kelvin for _, kelvin in recent)) - value > FALL:
            return self._turn(False, lambda kelvin: high - kelvin < _NEAR * FALL)
        if self._rose is not True and value - (low := min(kelvin for _, kelvin in recent)) > rise:
            return self._turn(True, lambda kelvin: kelvin - low < _NEAR * rise)
        return None

    def forget(self) -> None:
        """Compare nothing that comes with what was before: the probe was lost, or sits elsewhere."""
        self._recent.clear()
        self._readings.clear()
        self._rose = None

    def _turn(self, rose: bool, is_near: Callable[[float], bool]) -> Turn:
        when = next(at for at, kelvin in reversed(self._recent) if is_near(kelvin))
        last = self._recent[-1]
        self._recent.clear()
        self._recent.append(last)
        self._rose = rose
        return Turn(rose, when)
