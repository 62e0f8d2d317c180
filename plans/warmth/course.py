"""The course that a piece takes while what is round it stays the same: solved once, read at any time of it."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from enum import Enum

from plans.warmth.ahead import TOLERANCE, Moment, look_ahead
from plans.warmth.conduction import Conduction, Warmth
from plans.warmth.material import Heat
from plans.warmth.surroundings import Surroundings

HORIZON = 4 * 3600.0
"""How far a forecast looks ahead: what has not come by then counts as never [s]."""


class Part(Enum):
    """A place of a piece whose temperature is asked for; its value is where `Warmth` has it."""

    SKIN = 0
    """The mean of the skin."""
    COLDEST = 1
    """The coldest place."""
    FACE = 2
    """The face that is struck: the one on the anvil or the lower die."""
    MIDDLE = 3
    """Where it lies deepest."""


class Course:
    """How a piece warms or cools from one state on, in surroundings that stay; it is solved as far as it is asked for.

    Whoever asks when, the answers are the same.
    """

    __slots__ = ("_ahead", "_found", "_moments", "_piece", "_times", "_warmths", "_whole")

    def __init__(self, piece: Conduction, heat: Heat, surroundings: Surroundings, tolerance: float = TOLERANCE) -> None:
        """Begin a course.

        Args:
            piece: the equations of the piece
            heat: heat at each of its nodes as it begins
            surroundings: what it is in all along
            tolerance: error that one step may leave in the heat of the piece [J/kg]
        """
        # Where above and below are alike, and fare alike, half of the equations do.
        self._whole = piece if piece.fares_alike(heat, surroundings) else None
        self._piece = piece if self._whole is None else piece.folded()
        start = heat if self._whole is None else piece.fold(heat)
        self._ahead = look_ahead(self._piece, start, surroundings, tolerance)
        self._moments: list[Moment] = []
        self._times: list[float] = []
        self._found: dict[tuple[Part, float, bool], tuple[float, float]] = {}
        """When a part comes to a temperature, and since when that has been so."""
        self._warmths: dict[int, Warmth] = {}
        """Of the moments that were asked about."""

    def warmth_at(self, seconds: float) -> Warmth:
        """How warm it is, place by place, so long after the beginning [s]."""
        first, weights = self._near(seconds)
        near = [self._warmth(k) for k in range(first, first + 3)]
        return Warmth(*(_weighed(values, weights) for values in zip(*near, strict=True)))

    def kelvin_at(self, part: Part, seconds: float) -> float:
        """Temperature of one part so long after the beginning [s]; quicker than that of all of them [K]."""
        first, weights = self._near(seconds)
        return _weighed([self._kelvin(k, part) for k in range(first, first + 3)], weights)

    def kelvins_at(self, parts: Sequence[Part], times: Iterable[float]) -> Iterator[list[float]]:
        """Temperatures of parts at rising times after the beginning [s], as `warmth_at` has them; quicker for many [K].

        Args:
            parts: which parts
            times: when [s]
        """
        until, near, nearby = -1.0, [0.0] * 3, [[0.0] * 3 for _ in parts]
        for seconds in times:
            if seconds >= until:
                first, _ = self._near(seconds)
                near = self._times[first : first + 3]
                nearby = [[self._warmth(k)[part.value] for k in range(first, first + 3)] for part in parts]
                after = bisect_right(self._times, seconds)
                self._solve_past(after)
                until = self._times[after]
            one, two, three = _weights(near, seconds)
            yield [a * one + b * two + c * three for a, b, c in nearby]

    def solved_until(self, seconds: float) -> list[tuple[float, Warmth]]:
        """The times at which it was solved, from the beginning to the first that is not before `seconds` [s]."""
        self._near(seconds)
        end = bisect_left(self._times, seconds) + 1
        return [(self._times[k], self._warmth(k)) for k in range(end)]

    def heat_at(self, seconds: float) -> Heat:
        """Heat at each node so long after the beginning [s]."""
        first, weights = self._near(seconds)
        near = self._moments[first : first + 3]
        joules = [_weighed(values, weights) for values in zip(*(moment.heat.joules for moment in near), strict=True)]
        before = self._moments[max(bisect_right(self._times, seconds) - 1, 0)]
        heat = Heat(joules, self._piece.material.tables.latent(joules, before.heat.latent))
        return heat if self._whole is None else self._whole.unfold(heat)

    def time_until(
        self, part: Part, kelvin: float, *, falls: bool, after: float = 0.0, within: float = HORIZON
    ) -> float | None:
        """Seconds from the beginning until a part first is at a temperature; None where it never comes to it.

        Args:
            part: which part
            kelvin: the temperature [K]
            falls: whether it must have fallen to the temperature, rather than risen to it
            after: earliest time that is asked about: where the part is at the temperature then, it is the answer [s]
            within: how far to look ahead from there [s]
        """
        asked = part, kelvin, falls
        since, found = self._found.get(asked, (0.0, -1.0))
        if not since <= after <= found:
            crossed = self._crossing(part, kelvin, 1 if falls else -1, after, within)
            if crossed is None:
                return None
            found = crossed
            self._found[asked] = after, found
        return found if found - after <= within else None

    def _crossing(self, part: Part, kelvin: float, sign: int, after: float, within: float) -> float | None:
        first, weights = self._near(after)
        if sign * (_weighed([self._kelvin(k, part) for k in range(first, first + 3)], weights) - kelvin) <= 0:
            return after
        k = bisect_right(self._times, after)
        while True:
            self._solve_past(k)
            if sign * (self._kelvin(k, part) - kelvin) <= 0:
                break
            if self._times[k] - after >= within:
                return None
            k += 1
        low, high = max(after, self._times[k - 1]), self._times[k]
        first = max(k - 2, 0)
        self._solve_past(first + 2)
        times = self._times[first : first + 3]
        missing = [sign * (self._kelvin(j, part) - kelvin) for j in range(first, first + 3)]
        for _ in range(30):
            at = (low + high) / 2
            if _weighed(missing, _weights(times, at)) > 0:
                low = at
            else:
                high = at
        return high

    def _solve_past(self, index: int) -> None:
        while len(self._moments) <= index:
            moment = next(self._ahead)
            self._moments.append(moment)
            self._times.append(moment.seconds)

    def _warmth(self, k: int) -> Warmth:
        if k not in self._warmths:
            self._warmths[k] = self._piece.warmth(self._moments[k].heat)
        return self._warmths[k]

    def _kelvin(self, k: int, part: Part) -> float:
        if part is Part.MIDDLE and k not in self._warmths:
            return self._piece.middle(self._moments[k].heat)
        return self._warmth(k)[part.value]

    def _near(self, seconds: float) -> tuple[int, tuple[float, float, float]]:
        """The first of the three moments whose parabola tells a time, and the weight of each."""
        self._solve_past(2)
        while self._times[-1] < seconds:
            self._solve_past(len(self._times))
        first = max(bisect_right(self._times, seconds) - 2, 0)
        self._solve_past(first + 2)
        return first, _weights(self._times[first : first + 3], seconds)


def _weights(times: Sequence[float], at: float) -> tuple[float, float, float]:
    """What each of three points counts for on the parabola through them."""
    one, two, three = times
    a = (at - two) * (at - three) / ((one - two) * (one - three))
    b = (at - one) * (at - three) / ((two - one) * (two - three))
    return a, b, 1 - a - b


def _weighed(values: Sequence[float], weights: tuple[float, float, float]) -> float:
    return values[0] * weights[0] + values[1] * weights[1] + values[2] * weights[2]
