"""What the sitting makes of a noisy probe: a median against spikes, and a limit that does not chatter.

The figures (median of 5 or of 1 s, smoothing of 1 s, 15 K of hysteresis, held for 2 s) were found on simulated traces
with a noise of 1 to 4 K, 0.5 % spikes, 2 % missing readings and loose contacts of up to 1.5 s; they have not been tried
on real steel.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from enum import Enum
from math import exp, inf

MEDIAN_OF = 5
"""So many of the newest temperatures make a median, against spikes; of a quick probe all of the last second."""
SPAN = 1.0
"""How far back the median goes, if there are `MEDIAN_OF` temperatures in it [s]."""
_LONGEST_SPAN = 5.0
"""How far back it goes for as many as that; a probe that is slower still makes do with `LEAST` [s]."""
LEAST = 3
"""A median of fewer can be a spike: a probe is not believed before, at the beginning and after a silence."""
JUMP = 40.0
"""What noise, and a blow, can put between two temperatures, whatever the steel can do: a temperature difference [K]."""
SETTLED = 1.8
"""What steel can't do is believed when it has stood for this long: a loose contact lasts up to 1.5 s [s]."""
FASTEST = 100.0
"""The fastest change of something of which no section is known, a fire among them; from memory, no source [K/s]."""
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
_UNKNOWN = 20.0
"""So long may a probe be silent after its first temperature, when nobody knows yet how often it speaks: many loggers
write every ten seconds, and what spoke once is not believed before it has spoken again [s]."""
_INTERVALS = 3
"""How many of its own intervals a probe may be silent."""
_NEW = 2.2
"""For so many of its own intervals what it said is new: one reading may be missing."""
_SLOWEST = 60.0
"""A longer gap says nothing of how often a probe speaks [s]."""
LONGEST_PATIENCE = _INTERVALS * _SLOWEST
"""No probe may be silent for longer, however slow it is [s]."""


def slope_of(points: Sequence[tuple[float, float]]) -> float:
    """How fast temperatures [K] change over their times [s], by least squares [K/s]; 0 for fewer than two."""
    count = len(points)
    if count < 2:
        return 0.0
    mean_at = sum(at for at, _ in points) / count
    mean = sum(kelvin for _, kelvin in points) / count
    spread = sum((at - mean_at) ** 2 for at, _ in points)
    return sum((at - mean_at) * (kelvin - mean) for at, kelvin in points) / spread if spread else 0.0


def _median(values: list[float]) -> float:
    values.sort()
    half = len(values) // 2
    return values[half] if len(values) % 2 else (values[half - 1] + values[half]) / 2


class Patience:
    """What counts as silence: how long a probe may say nothing before it is lost, by how often it speaks."""

    def __init__(self) -> None:
        self.heard_at: float | None = None
        """When the last temperature came [s]; None before the first."""
        self.interval = 1.0
        """How often the probe speaks, of late [s]."""
        self._spoke_once = False

    @property
    def seconds(self) -> float:
        """How long the probe may be silent before it is lost [s]."""
        return max(_UNKNOWN if self._spoke_once else SILENCE, _INTERVALS * self.interval)

    def is_over(self, at: float) -> bool:
        """Whether the probe has been silent for longer than it may be at a time [s]."""
        return at - (self.heard_at or 0.0) > self.seconds

    def hear(self, at: float) -> bool:
        """Take in that a temperature came at `at` [s].

        Returns:
            whether the probe had been silent for longer than it may be
        """
        before = self.heard_at
        gap = at - (before or 0.0)
        lost = gap > SILENCE and gap > self.seconds
        if before is not None and gap < _SLOWEST:
            # A slow logger is known after its first gap, a quick one that came back after a few seconds.
            self.interval += (1.0 if self._spoke_once else 0.5 if lost else 0.1) * (gap - self.interval)
        self._spoke_once = before is None
        self.heard_at = at
        return lost


class Probe:
    """The filter that a probe's temperatures go through: what steel can't do is doubted, the rest a median.

    A temperature that lies further from what is believed than the work can have come meanwhile is a loose contact, or
    a spike, or the probe was moved: it is believed once it has stood for longer than a loose contact does.
    """

    def __init__(self) -> None:
        self.fastest = FASTEST
        """The fastest that what the probe sits on can change [K/s]."""
        self._recent: deque[tuple[float, float]] = deque()
        """Times [s] and temperatures [K] that make the median."""
        self._doubted: list[tuple[float, float]] = []
        """The newest that are not believed yet: times [s] and temperatures [K], none too far from the one before."""
        self._patience = Patience()
        self._before = -inf
        """What was believed last, be it before a silence [K]."""
        self.kelvin: float | None = None
        """Median of the last second, or of the last few temperatures; None until enough of them agree [K]."""
        self.smooth: float | None = None
        """The same, smoothed over a second [K]."""
        self.stands_until = self._patience.seconds
        """When what is believed stands no longer, unless it is borne out before [s]."""
        self._believed_at = -inf
        """When that came which was believed last [s]."""
        self.anew = False
        """Whether what is believed was come to by a jump, or after a silence, and not from what was believed before."""

    def hear(self, at: float, kelvin: float) -> bool:
        """Take one temperature in: its time [s] and the temperature as it came [K]; whether it is believed."""
        recent, patience = self._recent, self._patience
        gap = at - recent[-1][0] if recent else 0.0
        if patience.hear(at):
            self.lose()
        elif at > self.stands_until:
            self.fall_silent()
        self.anew = False
        believed = self.kelvin
        if believed is not None and not self._doubted and abs(kelvin - believed) <= JUMP:
            recent.append((at, kelvin))  # as nearly all do
        elif self._follows(at, kelvin):
            self._doubted.clear()
            recent.append((at, kelvin))
        elif self._has_settled(at, kelvin):
            recent.clear()
            recent.extend(self._doubted)
            self._doubted.clear()
            self.smooth = None
            self.anew = True
        else:
            if self._before == -inf and len(self._doubted) < LEAST:
                self.stands_until = at + patience.seconds  # there is nothing to believe yet, but it speaks
            return False
        count = len(recent)
        while count > LEAST and at - recent[0][0] > (SPAN if count > MEDIAN_OF else _LONGEST_SPAN):
            recent.popleft()
            count -= 1
        self.kelvin = self._before = middle = _median([value for _, value in recent])
        self._believed_at, self.stands_until = at, at + patience.seconds
        if self.smooth is None:
            self.smooth = middle
        else:
            self.smooth += (1 - exp(-gap / SMOOTHING)) * (middle - self.smooth)
        return True

    def _follows(self, at: float, kelvin: float) -> bool:
        """Whether it can be what has become of what is believed, and is not rather more of what is doubted."""
        believed, recent, doubted = self.kelvin, self._recent, self._doubted
        if believed is None:
            return False
        change = abs(kelvin - believed)
        if change > JUMP and not self._can_be(at - (recent[0][0] + recent[-1][0]) / 2, change):
            return False
        return not doubted or abs(kelvin - believed) <= abs(kelvin - doubted[-1][1])

    def _can_be(self, seconds: float, change: float) -> bool:
        """Whether the temperature can have changed by so much [K] in so long."""
        return abs(change) <= JUMP + self.fastest * seconds

    def _has_settled(self, at: float, kelvin: float) -> bool:
        """Whether the newest that are doubted agree for long enough, or with what was believed before a silence.

        Those that do are left in `_doubted`; a few among them may stray.
        """
        doubted = self._doubted
        doubted.append((at, kelvin))
        if len(doubted) > LEAST and at - doubted[0][0] > _LONGEST_SPAN:
            del doubted[0]
        agreeing: list[tuple[float, float]] = []
        is_as_before = True
        for when, value in reversed(doubted):
            if agreeing and not self._can_be(agreeing[-1][0] - when, agreeing[-1][1] - value):
                continue
            agreeing.append((when, value))
            is_as_before &= abs(value - self._before) <= JUMP
            if len(agreeing) >= LEAST and (is_as_before or at - when >= SETTLED):
                strays = sum(other >= when for other, _ in doubted) - len(agreeing)
                if strays < len(agreeing):
                    self._doubted = agreeing[::-1]
                    return True
        return False

    @property
    def patience(self) -> float:
        """How long the probe may be silent before it is lost [s]."""
        return self._patience.seconds

    @property
    def interval(self) -> float:
        """How often it speaks, of late [s]."""
        return self._patience.interval

    @property
    def behind(self) -> float:
        """How far the median is behind what the probe says: by half of the time that it spans [s]."""
        return (self._recent[-1][0] - self._recent[0][0]) / 2 if self._recent else 0.0

    def age(self, at: float) -> float | None:
        """How old what the probe says has become at a time [s].

        None while that is no more than a loose contact lasts, or two of its own intervals: it is as new as it can be.
        """
        age = at - self._believed_at
        return age if age > max(SETTLED, _NEW * self.interval) else None

    def is_silent(self, at: float) -> bool:
        """Whether nothing that can be believed has come for longer than its patience at a time [s]: it is lost."""
        return at > self.stands_until

    def expect(self, at: float) -> None:
        """Count its silence from `at` [s] on, as if it had spoken then."""
        self._patience.heard_at = at
        self.stands_until = at + self._patience.seconds

    def fall_silent(self) -> None:
        """Nothing stands any more of what it said; what is doubted yet may be borne out."""
        self.kelvin = None
        self.smooth = None
        self._recent.clear()

    def lose(self) -> None:
        """Forget what it said: the probe is gone."""
        self.fall_silent()
        self._doubted.clear()


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
        if not self.turns_at(kelvin):
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

    def turns_at(self, kelvin: float) -> bool:
        """Whether a temperature lies on the other side [K]: over the limit, or safely back where it was passed."""
        over = self._sign * (kelvin - self._limit)
        return over > HYSTERESIS if self._passed else over < 0
