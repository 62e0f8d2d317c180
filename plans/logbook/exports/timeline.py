"""A kept sitting told again, for drawing: where it stood when, and which limits held."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

from plans.errors import PlanError
from plans.logbook.figures import Span, spans_of
from plans.logbook.kept_sitting import KeptSitting
from plans.phase import IDLE
from plans.plan import Plan
from plans.reader import read_plan
from plans.sitting.events import WentOn
from plans.sitting.limits import LimitName, limits_of
from plans.sitting.state import State

_BREAK = 600.0
"""A pause of the program that is longer is left out of the drawing [s]."""
_STRIP = 2400.0
"""How much of a sitting stands side by side, about [s]; a long one's strips are longer."""
_MOST_STRIPS = 10


@dataclass(frozen=True, slots=True)
class LimitStretch:
    """A temperature that counted for a while."""

    name: LimitName
    """What it is."""
    kelvin: float
    """Where it lies [K]."""
    began: float
    """Since when it counted [s]."""
    ended: float
    """Until when it counted [s]."""


@dataclass(frozen=True, slots=True)
class Timeline:
    """What a drawing needs of a sitting."""

    kept: KeptSitting
    state: State
    plan: Plan | None
    """None where this version can't read it."""
    spans: tuple[Span, ...]
    ended: float
    """The newest moment that is known of [s]."""

    @classmethod
    def of(cls, kept: KeptSitting) -> Timeline:
        """Fold the log of a sitting once more."""
        head = kept.header
        try:
            plan = read_plan(head.source, head.plan, head.id)
        except PlanError:
            plan = None
        state = State.of(kept.log.events)
        ended = max(kept.log.last_at, kept.skin.times[-1] if kept.skin else 0.0)
        return cls(kept, state, plan, tuple(spans_of(state, ended)), ended)

    def title(self, step: int) -> str:
        """Of a step, from 0; empty where the plan can't be read."""
        return self.plan.steps[step].title if self.plan else ""

    def limits(self) -> list[LimitStretch]:
        """The limits in the order in which they began to count, each as one stretch for as long as it counted on."""
        found: list[LimitStretch] = []
        last: dict[LimitName, int] = {}
        for span in self.spans:
            if self.plan is None or span.phase in IDLE:
                continue
            for limit in limits_of(self.plan.steps[span.step], span.heat, span.phase):
                index = last.get(limit.name)
                if index is not None and (found[index].kelvin, found[index].ended) == (limit.kelvin, span.began):
                    found[index] = replace(found[index], ended=span.ended)
                else:
                    last[limit.name] = len(found)
                    found.append(LimitStretch(limit.name, limit.kelvin, span.began, span.ended))
        return found

    def strips(self) -> tuple[list[tuple[float, float]], float]:
        """The sitting in strips to be drawn one below the other, breaks left out.

        Returns:
            the strips, from and to [s]; and how long the longest of them may be [s]
        """
        cuts = [0.0]
        log = self.kept.log
        for before, event in pairwise(log.events):
            if isinstance(event, WentOn) and event.at - before.at > _BREAK:
                index = log.readings_before(log.events.index(event))
                heard = log.readings.times[index - 1] if index else 0.0
                cuts += [max(before.at, heard), event.at]
        cuts.append(max(self.ended, cuts[-1] + 60.0))
        pieces = list(zip(cuts[::2], cuts[1::2], strict=True))
        total = sum(end - begin for begin, end in pieces)
        count = min(_MOST_STRIPS, max(1, round(total / _STRIP)))
        longest = _rounded_up(max(total / count, 60.0))
        strips = []
        for begin, end in pieces:
            while end - begin > longest:
                strips.append((begin, begin + longest))
                begin += longest
            strips.append((begin, end))
        return strips, longest


def _rounded_up(seconds: float) -> float:
    to = 300.0 if seconds > 600 else 60.0
    return -(-seconds // to) * to
