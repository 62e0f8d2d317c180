"""The skin of the work in one heat, from a chosen moment on, so that sittings can be laid over one another."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from enum import StrEnum
from math import isnan
from typing import Final

from plans.logbook.timeline import Timeline
from plans.phase import WARMING, PhaseKind
from plans.record import record
from plans.sitting import Basis, PhaseSpan, Skin
from plans.trace import Trace

_APART: Final = 2.0
"""Points of the modelled trace, one a second, that are further apart have a gap between them [s]."""


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


def lay_over(
    sittings: Sequence[Timeline], moment: Moment, step: int | None = None, heat: int | None = None
) -> list[Laid | None]:
    """One heat of each sitting from a moment on; of several times out of the fire, or into the quench, the last counts.

    Args:
        sittings: what is laid over one another
        moment: what is time 0
        step: number of the step in the first sitting, from 0; None for its first that has such a moment. Of the others
            it is the step of the same title and kind
        heat: number of the heat within the step, from 1; None for the first of the first sitting that has such a moment

    Returns:
        the heat of each sitting; None where it has no such moment
    """
    laid: list[Laid | None] = []
    for timeline in sittings:
        first = laid[0] if laid else None
        if not laid:
            laid.append(_first_laid(timeline, moment, step, heat))
        elif first is None or (same := _same_step(sittings[0], first.step, timeline)) is None:
            laid.append(None)
        else:
            laid.append(_first_laid(timeline, moment, same, first.heat))
    return laid


def _same_step(first: Timeline, step: int, other: Timeline) -> int | None:
    """The step of another sitting that has the title and the kind of one of the first."""
    mine, theirs = (() if one.kept.figures is None else one.kept.figures.steps for one in (first, other))
    named = {(found.title, found.kind) for found in mine if found.step == step}
    # In the same plan it stands where it stood, though another may be called the same.
    same = [found.step for found in theirs if (found.title, found.kind) in named]
    return step if step in same else next(iter(same), None)


def _first_laid(timeline: Timeline, moment: Moment, step: int | None, heat: int | None) -> Laid | None:
    heats = dict.fromkeys((span.step, span.heat) for span in timeline.spans if _is_at(span, moment))
    wanted = (one for one in heats if step in (None, one[0]) and heat in (None, one[1]))
    found = (_laid(timeline, moment, *one) for one in wanted)
    return next((laid for laid in found if laid is not None), None)


def _laid(timeline: Timeline, moment: Moment, step: int, heat: int) -> Laid | None:
    spans = [span for span in timeline.spans if (span.step, span.heat) == (step, heat)]
    there = [span for span in spans if _is_at(span, moment)]
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
