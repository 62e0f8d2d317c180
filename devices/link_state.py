"""What is told of a link: how it stands with its port, and how many readings its probe says."""

from __future__ import annotations

from collections import deque
from enum import StrEnum
from itertools import islice

from devices.slots import PER_SECOND
from plans.record import record

_RATE_OF = 16
"""The rate is that of so many readings that were handed on, at least."""
_LATELY = 3.0
"""It is that of so long a time, at least; a fast probe's buffer that is emptied at once is no rate yet [s]."""
_SOONEST = 1.0
"""A rate is not told before there is so much of it [s]."""


class LinkPhase(StrEnum):
    """How it stands with a link's port."""

    OPENING = "opening"
    """The link has not been started yet."""
    OPEN = "open"
    """The port is open; whether the probe says anything is told by the link's `trouble`."""
    LOST = "lost"
    """The port has gone away, and is looked for again."""
    CLOSED = "closed"
    """The link was closed, and reads no more."""


@record
class LinkState:
    """How it stood with a link at one moment."""

    phase: LinkPhase
    """How it stood with the port."""
    port: str
    """Path, name or address of the port that the probe is on; it may be another path after plugging in again."""
    description: str
    """What the probe's adapter calls itself; empty where it says nothing."""
    lines: int
    """How many lines were heard since the start, readings and junk together."""
    junk: int
    """How many of the lines heard were no reading."""
    last_junk: tuple[str, ...]
    """The last few lines that were no reading, oldest first, safe to show."""
    rate: float | None
    """Readings that the probe says in a second, as of late [1/s]; None before there is a second of them, and while it
    is lost."""
    trouble: str
    """Why there are no readings ("unplugged", "silent for 5 s"), or why the port can't be opened again; empty while
    all is well."""
    merged: int = 0
    """How many readings so far were not handed on, since the median of those around them was."""
    thinned_to: float | None = None
    """Readings that are handed on in a second, as of late [1/s], where the probe says more than that; None where it
    does not."""

    @property
    def pace(self) -> str:
        """How many readings the probe says, in a few words: "4.0/s", "25/s, thinned to 22/s", "1600/s, the median of
        every 73 counts"; empty where that is not known."""
        if self.rate is None:
            return ""
        if not self.thinned_to:
            return f"{self.rate:.1f}/s"
        of_each = self.rate / self.thinned_to
        done = f"thinned to {self.thinned_to:.0f}/s" if of_each < 2.0 else f"the median of every {of_each:.0f} counts"
        return f"{self.rate:.0f}/s, {done}"

    @property
    def too_fast(self) -> str:
        """What is done with the readings of a probe that says too many, in a sentence; empty for any other."""
        return f"the probe says more than is needed: {self.pace}" if self.thinned_to else ""


class Count:
    """Counts the readings that a probe says, and those that are handed on of them. For one thread at a time."""

    def __init__(self) -> None:
        self.merged = 0
        """How many so far were not handed on, since the median of those around them was."""
        self._said = 0
        """How many were heard and not yet handed on."""
        self._lately: deque[tuple[float, int, int]] = deque()
        """When something was handed on lately [s], how many readings that was, and for how many they stood."""

    def heard(self, readings: int) -> None:
        """The probe has said so many."""
        self._said += readings

    def handed_on(self, at: float, readings: int) -> None:
        """At a time [s], so many were handed on; they stand for all that were heard since the last time."""
        self.merged += self._said - readings
        self._lately.append((at, readings, self._said))
        self._said = 0
        while len(self._lately) > _RATE_OF and at - self._lately[1][0] >= _LATELY:
            self._lately.popleft()

    def forget(self) -> None:
        """The probe is lost: what it says when it is back has a rate of its own."""
        self._lately.clear()
        self._said = 0

    @property
    def rates(self) -> tuple[float | None, float | None]:
        """`rate` and `thinned_to`, as `LinkState` has them [1/s]."""
        span = self._lately[-1][0] - self._lately[0][0] if self._lately else 0.0
        if span < _SOONEST:
            return None, None
        # What was heard first began before the span.
        counts = [(said, given) for _, given, said in islice(self._lately, 1, None)]
        counts.sort()
        # The most that came at once may have been held up on the way, and counts as no more than the next.
        if len(counts) > 1:
            counts[-1] = counts[-2]
        said, given = (sum(column) / span for column in zip(*counts, strict=True))
        # A clock that is not ours may say twenty-two where ours says a little more.
        return said, min(given, PER_SECOND) if round(said) > PER_SECOND else None
