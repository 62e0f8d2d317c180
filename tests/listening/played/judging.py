"""The log against the truth: what was found, how late, how well dated, and what was told that never was."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from statistics import median

Told = list[tuple[float, float]]
"""When something was told, and what it was dated to [s]."""

TAIL = 20.0
"""What happened so shortly before the end of a trace could not be told any more [s]."""


@dataclass
class Score:
    """How well one kind of event was told, over one trace or several."""

    true: int = 0
    found: int = 0
    false: int = 0
    hours: float = 0.0
    delays: list[float] = field(default_factory=list)
    """From when it was to when it was told, those that fell in with a silent probe left out [s]."""
    dating: list[float] = field(default_factory=list)
    """From when it was to what it was dated to, likewise [s]."""
    missed_at: list[float] = field(default_factory=list)
    false_at: list[float] = field(default_factory=list)

    @property
    def share(self) -> float:
        """Found among those that were."""
        return self.found / self.true if self.true else 1.0

    @property
    def false_an_hour(self) -> float:
        return self.false / self.hours if self.hours else 0.0

    @property
    def delay(self) -> tuple[float, float]:
        """Median and longest [s]."""
        return (median(self.delays), max(self.delays)) if self.delays else (0.0, 0.0)

    def add(self, other: Score) -> None:
        """Put another's together with this one."""
        self.true += other.true
        self.found += other.found
        self.false += other.false
        self.hours += other.hours
        self.delays += other.delays
        self.dating += other.dating
        self.missed_at += other.missed_at
        self.false_at += other.false_at


def judge(
    true: Sequence[float],
    told: Told,
    seconds: float,
    until: Sequence[float] = (),
    silences: Sequence[tuple[float, float]] = (),
    early: float = 1.0,
    tail: float = TAIL,
) -> Score:
    """Hold what was told against what was.

    Args:
        true: when it happened
        told: when it was told and dated to
        seconds: how long the trace is
        until: what is told after the next of these comes too late to count
        silences: when the probe said nothing
        early: how much sooner than it was it may be told
        tail: what happened so shortly before the end could not be told any more
    """
    true = [at for at in true if at < seconds - tail]
    score = Score(true=len(true), hours=seconds / 3600)
    left = list(told)
    ends = sorted([*until, seconds + 60])
    for at in true:
        end = next(moment for moment in ends if moment > at)
        hit = next((one for one in left if at - early <= one[0] <= end), None)
        if hit is None:
            score.missed_at.append(at)
            continue
        left.remove(hit)
        score.found += 1
        if not any(begin < hit[0] and at - 3 < end for begin, end in silences):
            score.delays.append(hit[0] - at)
            score.dating.append(hit[1] - at)
    score.false = len(left)
    score.false_at = [at for at, _ in left]
    return score
