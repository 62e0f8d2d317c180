"""The skin of the work in one heat, from a chosen moment on, so that sittings can be laid over one another."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from enum import StrEnum
from math import isnan
from typing import Final

from plans.logbook.comparing.same_steps import same_steps
from plans.logbook.reviewing import Timeline
from plans.phase import WARMING, PhaseKind
from plans.record import record
from plans.sitting import Basis, PhaseSpan, Skin
from plans.trace import Trace

_APART: Final = 2.0
"""Points of the modelled trace, one a second, that are further apart have a gap between them [s]."""


_FINEST: Final = 0.25
"""The skin is not looked at more often than that [s]."""
_POINTS: Final = 600
"""So many points of a heat are drawn, about; more than any screen has columns of dots, or a printed curve shows."""
_INSTANT: Final = 0.001
"""The log tells times no finer [s]."""


class Moment(StrEnum):
    """From when on traces are laid over one another."""

    FIRE = "fire"
    """The work goes into the fire."""
    OUT = "out"
    """It comes out of the fire."""
    QUENCH = "quench"
    """It goes into the quench."""


@record
class Laid:
    """The skin of the work in one heat of a sitting; its times count from the chosen moment."""

    step: int
    """Number of the step, from 0."""
    heat: int
    """Number of the heat within the step, from 1."""
    seconds: float
    """How long that heat went on from there [s]."""
    began: float
    """When that moment was, in seconds since the sitting began."""
    skin: Skin
    """The skin as the sitting has it: measured where a probe on the work is believed, else modelled."""
    modelled: Trace
    """The skin as the warm model has it, a point a second."""

    def at(self, seconds: float) -> tuple[float, Basis] | None:
        """The skin so long after the moment.

        Returns:
            its temperature [K], and whether that was measured or modelled; None where nobody knew it, or the heat was
            over
        """
        if not 0 <= seconds <= self.seconds:
            return None
        moment = self.began + seconds
        known = next(((kelvin, basis) for _, kelvin, basis in self.skin.over(moment, moment + _INSTANT)), None)
        if known is None or known[1] is Basis.MEASURED:
            return known
        # In a quench the points of the model, a second apart, lie far from one another: what lies between two of them.
        kelvin = _between(self.modelled, moment)
        return None if kelvin is None else (kelvin, Basis.MODELLED)

    def every(self, seconds: float) -> list[tuple[float, tuple[float, Basis] | None]]:
        """The skin every so many seconds from the moment on, and at the end, each with how long after it is [s]."""
        count = int(self.seconds / seconds)
        return [(at, self.at(at)) for at in (*(seconds * number for number in range(count + 1)), self.seconds)]


def apart(laid: Iterable[Laid | None]) -> float:
    """How far apart the skin is looked at for a drawing of such heats [s]: some hundred times over the longest."""
    return max(_FINEST, max((one.seconds for one in laid if one is not None), default=0.0) / _POINTS)


def lay_over(
    sittings: Sequence[Timeline], moment: Moment, step: int | None = None, heat: int | None = None
) -> list[Laid | None]:
    """One heat of each sitting from a moment on; of several times out of the fire, or into the quench, the last counts.

    Args:
        sittings: what is laid over one another
        moment: what is time 0
        step: number of the step in the first sitting, from 0; None for its first that has such a moment. Of the others
            it is the same one, as `same_steps` has it
        heat: number of the heat within the step, from 1; None for the first of the first sitting that has such a moment

    Returns:
        the heat of each sitting; None where it has no such moment
    """
    wanted = [one for one in _heats(sittings[0], moment) if step in (None, one[0]) and heat in (None, one[1])]
    found = next((one for one in wanted if _laid(sittings[0], moment, *one) is not None), None)
    same = same_steps([one.kept for one in sittings]) if found is not None else []
    for one in same:
        if found is not None and one.steps[0] is not None and one.steps[0].step == found[0]:
            return lay_heats(sittings, moment, one.numbers, found[1])
    return [None] * len(sittings)


def lay_heats(
    sittings: Sequence[Timeline], moment: Moment, steps: Sequence[int | None], heat: int
) -> list[Laid | None]:
    """A heat of one step of each sitting from a moment on.

    Args:
        sittings: what is laid over one another
        moment: what is time 0
        steps: number of the step in each sitting, from 0; None where it has no such step
        heat: number of the heat within the step, from 1

    Returns:
        the heat of each sitting; None where it has no such moment
    """
    both = zip(sittings, steps, strict=True)
    return [None if step is None else _laid(sitting, moment, step, heat) for sitting, step in both]


def heats_from(sittings: Sequence[Timeline], moment: Moment, steps: Sequence[int | None]) -> list[int]:
    """The numbers of the heats that any of the sittings has from a moment on in one step; as `lay_heats` takes them."""
    both = zip(sittings, steps, strict=True)
    found = {heat for sitting, step in both for at, heat in _heats(sitting, moment) if at == step}
    return [heat for heat in sorted(found) if any(lay_heats(sittings, moment, steps, heat))]


def _heats(timeline: Timeline, moment: Moment) -> list[tuple[int, int]]:
    """Step and heat of each heat that has such a moment, in order."""
    return list(dict.fromkeys((span.step, span.heat) for span in timeline.spans if _is_at(span, moment)))


def _laid(timeline: Timeline, moment: Moment, step: int, heat: int) -> Laid | None:
    spans = [span for span in timeline.spans if (span.step, span.heat) == (step, heat)]
    there = [span for span in spans if _is_at(span, moment)]
    if not there:
        return None
    began = {Moment.FIRE: there[0].began, Moment.OUT: there[-1].ended, Moment.QUENCH: there[-1].began}[moment]
    ended = spans[-1].ended
    if ended <= began:
        return None
    return Laid(step, heat, ended - began, began, timeline.skin, timeline.kept.skin)


def _is_at(span: PhaseSpan, moment: Moment) -> bool:
    return span.phase is PhaseKind.QUENCH if moment is Moment.QUENCH else span.phase in WARMING


def _between(trace: Trace, at: float) -> float | None:
    """A modelled trace between two of its points; None where it has a gap [K]."""
    after = bisect_right(trace.times, at)
    if after == 0:
        return None
    before, kelvin = trace.times[after - 1], trace.kelvins[after - 1]
    if isnan(kelvin) or at - before > _APART:
        return None
    if after == len(trace) or isnan(trace.kelvins[after]) or trace.times[after] - before > _APART:
        return kelvin
    share = (at - before) / (trace.times[after] - before)
    return kelvin + share * (trace.kelvins[after] - kelvin)
