"""What the sitting makes of a noisy probe: a median against spikes, and a limit that does not chatter.

The figures (median of 5, smoothing of 1 s, 15 K of hysteresis, held for 2 s) were found on simulated traces with a
noise of 2 K, 0.5 % spikes and 2 % missing readings; they have not been tried on real steel.
"""

from __future__ import annotations

from collections import deque
from enum import Enum
from math import exp
from statistics import median

MEDIAN_OF = 5
"""So many of the newest temperatures make a median, against spikes."""
LEAST = 3
"""A median of fewer can be a spike: a probe is not believed before, at the beginning and after a silence."""
SMOOTHING = 1.0
"""Time constant of the smoothing [s]."""
HYSTERESIS = 15.0
"""How far back over the limit counts as over it: a temperature difference [K]."""
HOLD = 2.0
"""How long a limit must be passed before it counts, if only by a hair [s]; the further it is passed, the shorter."""
COLDEST, HOTTEST = 200.0, 2300.0
"""The lowest and highest temperature that is believed of work or fire [K]."""
SILENCE = 5.0
"""A probe that has said nothing for this long is lost [s]; a slow one is given three of its own intervals."""
_INTERVALS = 3
"""How many of its own intervals a probe may be silent."""
_SLOWEST = 60.0
"""A longer gap says nothing of how often a probe speaks [s]."""
LONGEST_PATIENCE = _INTERVALS * _SLOWEST
"""No probe may be silent for longer, however slow it is [s]."""


class Patience:
    """What counts as silence: how long a probe may say nothing before it is lost, by how often it speaks."""

    def __init__(self) -> None:
        self.heard_at: float | None = None
        """When the last temperature came [s]; None before the first."""
        self._interval = 1.0

    @property
    def seconds(self) -> float:
        """How long the probe may be silent before it is lost [s]."""
        return max(SILENCE, _INTERVALS * self._interval)

    def is_over(self, at: float) -> bool:
        """Whether the probe has been silent for longer than it may be at a time [s]."""
        return at - (self.heard_at or 0.0) > self.seconds

    def hear(self, at: float) -> bool:
        """Take in that a temperature came at `at` [s].

        Returns:
            whether the probe had been silent for longer than it may be
        """
        gap = at - (self.heard_at or 0.0)
        lost = self.is_over(at)
        if self.heard_at is not None and gap < _SLOWEST:
            # A slow logger is known after its first gap, a quick one that came back after a few seconds.
            self._interval += (0.5 if lost else 0.1) * (gap - self._interval)
        self.heard_at = at
        return lost


class Probe:
    """The filter that a probe's temperatures go through: a median, and a smoothing over a second."""

    def __init__(self) -> None:
        self._recent: deque[float] = deque(maxlen=MEDIAN_OF)
        self._patience = Patience()
        self.kelvin: float | None = None
        """Median of the last few temperatures; None until there are enough of them to tell a spike [K]."""
        self.smooth: float | None = None
        """The same, smoothed over a second [K]."""

    def hear(self, at: float, kelvin: float) -> None:
        """Take one temperature in: its time [s] and the temperature as it came [K]."""
        gap = at - (self.heard_at or 0.0)
        if self._patience.hear(at):
            self.lose()
        self._recent.append(kelvin)
        if len(self._recent) < LEAST:
            return
        self.kelvin = median(self._recent)
        if self.smooth is None:
            self.smooth = self.kelvin
        else:
            self.smooth += (1 - exp(-gap / SMOOTHING)) * (self.kelvin - self.smooth)

    @property
    def heard_at(self) -> float | None:
        """When the last temperature came [s]; None before the first."""
        return self._patience.heard_at

    @property
    def patience(self) -> float:
        """How long the probe may be silent before it is lost [s]."""
        return self._patience.seconds

    def is_silent(self, at: float) -> bool:
        """Whether the probe has been silent for longer than its patience at a time [s], and so is lost."""
        return self._patience.is_over(at)

    def expect(self, at: float) -> None:
        """Count its silence from `at` [s] on, as if it had spoken then."""
        self._patience.heard_at = at

    def lose(self) -> None:
        """Forget what it said: the probe is gone."""
        self.kelvin = None
        self.smooth = None
        self._recent.clear()


class Passed(Enum):
    """What a limit watch found of a temperature."""

    CROSSED = "crossed"
    """The limit was passed for long enough to count."""
    EASED = "eased"
    """The temperature is back from the limit, by more than the hysteresis."""


class LimitWatch:
    """Tells when a temperature has passed a limit and when it is safely back.

    Args:
        limit: the limit [K]
        above: True to watch for rising above it, False for falling below it
        passed: whether it counts as passed from the beginning
    """

    def __init__(self, limit: float, above: bool = False, passed: bool = False) -> None:
        self._limit = limit
        self._sign = -1.0 if above else 1.0
        self._passed = passed
        self._since: float | None = None
        self._seen = 0
        """How often it was past the limit since then."""

    def see(self, at: float, kelvin: float, hold: float = HOLD) -> Passed | None:
        """Take one filtered temperature in; a modelled one, having no noise, needs no hold [s]."""
        over = self._sign * (kelvin - self._limit)
        turning = over > HYSTERESIS if self._passed else over < 0
        if not turning:
            self._since = None
            return None
        if self._since is None:
            self._since, self._seen = at, 0
        self._seen += 1
        if not self._passed and self._seen >= LEAST:
            # Noise passes a limit by little: a skin that falls through it need not be waited for as long.
            hold *= max(0.0, 1 + over / HYSTERESIS)
        if at - self._since < hold:
            return None
        self._since = None
        self._passed = not self._passed
        return Passed.CROSSED if self._passed else Passed.EASED
