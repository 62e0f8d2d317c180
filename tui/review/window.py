"""The stretch of a sitting that its curve shows: zoomed and moved along, and never beyond the sitting's ends."""

from __future__ import annotations

from plans.record import record

_SHORTEST = 10.0
"""Nothing is to be seen in less [s]."""


@record
class Window:
    """A stretch of a sitting, by its own clock."""

    begin: float
    """Left edge [s]."""
    end: float
    """Right edge [s]."""
    whole: float
    """How long the sitting is [s]."""

    @classmethod
    def of(cls, begin: float, end: float, whole: float) -> Window:
        """The stretch nearest to these edges that lies in the sitting and is long enough to be seen."""
        length = min(whole, max(_SHORTEST, end - begin))
        begin = min(max(0.0, (begin + end - length) / 2), whole - length)
        return cls(begin, begin + length, whole)

    @property
    def length(self) -> float:
        """How long it is [s]."""
        return self.end - self.begin

    @property
    def is_whole(self) -> bool:
        """Whether all of the sitting is to be seen."""
        return self.length >= self.whole

    def zoomed(self, times: float, about: float) -> Window:
        """So many times as long, with what stands at a moment [s] staying where it is on the screen."""
        about = min(max(self.begin, about), self.end)
        length = min(self.whole, max(_SHORTEST, self.length * times))
        begin = about - (about - self.begin) / self.length * length
        return self.of(begin, begin + length, self.whole)

    def moved(self, seconds: float) -> Window:
        """Further on by so much [s], or back."""
        return self.of(self.begin + seconds, self.end + seconds, self.whole)

    def holding(self, at: float) -> Window:
        """This stretch where it shows a moment [s], else one as long with that moment in the middle."""
        return self if self.begin <= at <= self.end else self.moved(at - (self.begin + self.end) / 2)
