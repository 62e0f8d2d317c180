"""In and out of the fire, heard from the temperature alone.

The figures were found on simulated traces (work of 6 to 25 mm, noise of 1 to 4 K, 1 to 10 Hz, 0.5 % spikes, 2 % missing
readings, loose contacts); they have not been tried on real steel.
"""

from __future__ import annotations

from collections import deque

from plans.record import record
from plans.shapes import Section
from plans.sitting.pace import slowest_fall

FALL = 24.0
"""Work that lost this came out of the fire: a temperature difference [K]."""
RISE = 25.0
"""Work that gained this went in: a temperature difference [K]."""
BRIGHTENING = 45.0
"""As much may come back by itself when steel recalesces in the air: a temperature difference [K]."""
_SLOW_RISE = 60.0
"""What gained this since it turned last is being heated, however slowly: a temperature difference [K]."""
_NEAR = 1 / 3
"""The turn is dated to the last moment that was within this share of the change from where it began."""
WITHIN = 45.0
"""The change must come within this: a fire that drifts is no heat [s]."""
_LAG = 6.0
"""How much later than in the steel a change may show, by the probe and its filter [s]."""
_HELD = 1.7
"""How long half of a change must stand: a contact that is a little loose passes sooner [s]."""
_AFTERWARDS = 2.0
"""In air work must lose `FALL` within so many times what it would take if it lost as little as can be."""


def fall_within(section: Section | None, kelvin: float) -> float:
    """How long the fall may take by which work is told to have come out of the fire [s].

    In a fire that cools, as when the burner is turned down, it takes longer than in the air.

    Args:
        section: of the work; None where it is not known
        kelvin: its temperature now [K]
    """
    slowest = 0.0 if section is None else slowest_fall(section, kelvin)
    return min(WITHIN, _LAG + _AFTERWARDS * FALL / slowest) if slowest > 0 else WITHIN


@record
class Turn:
    """A point at which a temperature turned, up or down."""

    rose: bool
    """Whether it turned upwards, as work does that went into the fire; else it fell, as work does that came out."""
    at: float
    """When it turned, in seconds since the sitting began."""
    kelvin: float
    """The temperature at which it turned, by what it was for some moments [K]."""


class _Extreme:
    """The hottest or coldest of the last so many seconds.

    Args:
        sign: 1 for the hottest, -1 for the coldest
    """

    def __init__(self, sign: float) -> None:
        self._sign = sign
        self._leading: deque[tuple[float, float]] = deque()
        """Those that nothing more extreme has come after, times the sign: the first is the one."""

    def take(self, at: float, kelvin: float, within: float) -> float:
        """Take one temperature in [K] at its time [s], and forget those that are older than `within` [s]."""
        leading, value, oldest = self._leading, self._sign * kelvin, at - within
        while leading and value >= leading[-1][1]:
            leading.pop()
        leading.append((at, value))
        while leading[0][0] < oldest:
            leading.popleft()
        return self._sign * leading[0][1]

    @property
    def value(self) -> float:
        """The one [K]."""
        return self._sign * self._leading[0][1]

    def clear(self) -> None:
        """Forget them all."""
        self._leading.clear()


class TurningPoints:
    """Finds where a believed temperature turns, reading by reading, whatever their spacing."""

    def __init__(self) -> None:
        self._recent: deque[tuple[float, float]] = deque()
        """Believed temperatures since the last turn, of the last `WITHIN` seconds."""
        self._highs = _Extreme(1.0)
        """The hottest that it was for `_HELD`, within what a fall may take."""
        self._lows = _Extreme(-1.0)
        """The coldest that it was for `_HELD`."""
        self._least = _Extreme(-1.0)
        """The coldest within `_HELD`."""
        self._most = _Extreme(1.0)
        """The hottest within `_HELD`."""
        self._lowest: tuple[float, float] | None = None
        """The coldest since the last turn, and when it last was near that."""
        self._rose: bool | None = None
        """The last turn."""
        self._high_at = 0.0
        """When it last had not lost half a fall [s]."""
        self._low_at = 0.0
        """When it last had not gained half a rise [s]."""

    def hear(self, at: float, kelvin: float, rise: float = RISE, within: float = WITHIN) -> Turn | None:
        """Take one temperature in, and tell whether it bears a turn out.

        Args:
            at: its time [s]
            kelvin: as it is believed [K]
            rise: how far it must come back up to count: a temperature difference [K]
            within: how long a fall may take [s]

        Returns:
            the turn that it bears out, if any
        """
        self._keep(at, kelvin, within)
        lowest = self._lowest
        if lowest is None or kelvin < lowest[0]:
            self._lowest = lowest = kelvin, at
        elif kelvin - lowest[0] < _NEAR * rise:
            self._lowest = lowest = lowest[0], at
        lost, gained = self._highs.value - kelvin, kelvin - self._lows.value
        if lost < FALL / 2:
            self._high_at = at
        if gained < rise / 2:
            self._low_at = at
        if lost > FALL and self._rose is not False and at - self._high_at >= _HELD:
            hottest = self._highs.value
            when = next(at for at, kelvin in reversed(self._recent) if hottest - kelvin < _NEAR * FALL)
            return self._turn(Turn(False, when, hottest))
        if gained > rise and self._rose is not True and at - self._low_at >= _HELD:
            coldest = self._lows.value
            when = next(at for at, kelvin in reversed(self._recent) if kelvin - coldest < _NEAR * rise)
            return self._turn(Turn(True, when, coldest))
        if self._rose is not True and kelvin - lowest[0] > _SLOW_RISE and at - lowest[1] >= _HELD:
            return self._turn(Turn(True, lowest[1], lowest[0]))
        return None

    def forget(self) -> None:
        """Compare nothing that comes with what was before: the probe was lost, or sits elsewhere."""
        self._recent.clear()
        for extreme in (self._highs, self._lows, self._least, self._most):
            extreme.clear()
        self._lowest = None
        self._rose = None

    def _turn(self, turn: Turn) -> Turn:
        last = self._recent[-1]
        self.forget()
        self._keep(*last, WITHIN)
        self._high_at = self._low_at = last[0]
        self._lowest = last[1], last[0]
        self._rose = turn.rose
        return turn

    def _keep(self, at: float, kelvin: float, within: float) -> None:
        """Keep a temperature, and drop what is too old."""
        recent, oldest = self._recent, at - WITHIN
        recent.append((at, kelvin))
        while recent[0][0] < oldest:
            recent.popleft()
        # What was as hot, or as cold, for a moment only is a contact that was a little loose.
        self._highs.take(at, self._least.take(at, kelvin, _HELD), within)
        self._lows.take(at, self._most.take(at, kelvin, _HELD), WITHIN)
