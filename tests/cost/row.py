"""One figure of what something costs, beside a yardstick that was measured turn by turn with it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from statistics import median


@dataclass(frozen=True, slots=True)
class Row:
    """What something costs, and what it may cost."""

    what: str
    """What was measured."""
    ours: float
    """Its cost, the median of its turns, in `unit`."""
    yardstick: str
    """What it is held against."""
    theirs: float
    """Cost of the yardstick, the median of its turns, in `unit`."""
    bar: float
    """The highest ratio of ours to theirs that passes."""
    unit: str = "s"
    """Unit of both costs: `s` for seconds, `MB` for millions of bytes."""

    @property
    def ratio(self) -> float:
        """Ours over theirs."""
        return self.ours / self.theirs

    @property
    def met(self) -> bool:
        """Whether the ratio is not above the bar."""
        return self.ratio <= self.bar


Timed = Callable[[int], float]
"""Runs once and tells how long that took [s]; takes the number of the turn."""


def by_turns(turns: int, *timed: Timed) -> list[float]:
    """The median of each, taken one after the other in each turn, so that a busy machine slows all of them [s]."""
    rounds = [[once(turn) for once in timed] for turn in range(turns)]
    return [median(column) for column in zip(*rounds, strict=True)]
