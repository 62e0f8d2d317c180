"""What a page draws of a sitting's timeline: which limits held when, and the strips that it is cut into."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from plans.logbook.reviewing import Timeline
from plans.phase import IDLE
from plans.record import record
from plans.sitting import LimitName, limits_of

_STRIP = 1800.0
"""How much of a sitting stands side by side, about [s]; a long one's strips are longer."""
_MOST_STRIPS = 10


@record
class LimitStretch:
    """A temperature of the plan, and from when to when it counted."""

    name: LimitName
    """What the temperature is: cold limit, burn limit, or what is to be reached."""
    kelvin: float
    """The temperature [K]."""
    began: float
    """From when on it counted, in seconds since the sitting began."""
    ended: float
    """Until when it counted, in seconds since the sitting began."""


def limit_stretches(timeline: Timeline) -> list[LimitStretch]:
    """The limits of a sitting by when they began to count, each as one stretch for as long as it counted on."""
    found: list[LimitStretch] = []
    last: dict[LimitName, int] = {}
    for span in timeline.spans:
        if timeline.plan is None or span.phase in IDLE:
            continue
        for limit in limits_of(timeline.plan.steps[span.step], span.heat, span.phase):
            index = last.get(limit.name)
            if index is not None and (found[index].kelvin, found[index].ended) == (limit.kelvin, span.began):
                found[index] = replace(found[index], ended=span.ended)
            else:
                last[limit.name] = len(found)
                found.append(LimitStretch(limit.name, limit.kelvin, span.began, span.ended))
    return found


def strips(timeline: Timeline, left_out: Sequence[tuple[float, float]] = ()) -> tuple[list[tuple[float, float]], float]:
    """The sitting in strips to be drawn one below the other, breaks left out.

    Args:
        timeline: the sitting
        left_out: what else is not drawn, from and to [s]; nothing of it lies in a break

    Returns:
        the strips, from and to [s]; and how long the longest of them may be [s]
    """
    cuts = [0.0]
    for left, gone_on in sorted([*timeline.state.breaks, *left_out]):
        cuts += [left, gone_on]
    cuts.append(max(timeline.ended, cuts[-1] + 60.0))
    pieces = list(zip(cuts[::2], cuts[1::2], strict=True))
    total = sum(end - begin for begin, end in pieces)
    count = min(_MOST_STRIPS, max(1, round(total / _STRIP)))
    longest = _rounded_up(max(total / count, 60.0))
    found = []
    for begin, end in pieces:
        while end - begin > longest:
            found.append((begin, begin + longest))
            begin += longest
        found.append((begin, end))
    return found, longest


def _rounded_up(seconds: float) -> float:
    to = 300.0 if seconds > 600 else 60.0
    return -(-seconds // to) * to
