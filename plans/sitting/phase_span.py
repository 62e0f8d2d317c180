"""The phases of a sitting in order, each from its beginning to its end."""

from __future__ import annotations

from collections.abc import Iterable

from plans.phase import IN_SOMETHING, PhaseKind
from plans.record import record
from plans.sitting.calls import Call
from plans.sitting.events import Cause
from plans.sitting.state import State


@record
class PhaseSpan:
    """One phase of a sitting, from its beginning to its end."""

    step: int
    """Number of its step, from 0."""
    heat: int
    """Number of its heat within the step, from 1."""
    phase: PhaseKind
    """What went on with the work."""
    began: float
    """When it began, in seconds since the sitting began."""
    ended: float
    """When it ended, in seconds since the sitting began."""
    seconds: float
    """How long it ran, pauses and breaks left out [s]."""


def phase_spans(state: State, until: float) -> list[PhaseSpan]:
    """The phases of a sitting in order; the last one ends with the sitting, or at `until` [s] while it goes on."""
    end = state.ended_at if state.ended_at is not None else until
    found = []
    breaks = _breaks_unpaused(state, end)
    for index, begun in enumerate(state.begins):
        last = index + 1 == len(state.begins)
        ended = end if last else state.begins[index + 1].began
        if not last and begun.cause is Cause.PROBE and ended <= begun.began:
            # What was felt was the beginning of what follows.
            continue
        paused = state.seconds_paused if last else state.seconds_paused_before[index + 1]
        if last and state.paused_at is not None:
            paused += end - state.paused_at
        seconds = ended - begun.began - (paused - state.seconds_paused_before[index])
        seconds -= sum(max(0.0, min(back, ended) - max(left, begun.began)) for left, back in breaks)
        found.append(PhaseSpan(begun.step, begun.heat, begun.phase, begun.began, ended, max(0.0, seconds)))
    return found


def length(state: State, until: float) -> float:
    """How long a sitting took [s], breaks left out and pauses not; to its end, or to `until` [s] while it goes on."""
    return state.clock(until if state.ended_at is None else state.ended_at)


def standstills(state: State, until: float) -> list[tuple[float, float]]:
    """Every pause and every break, in order: from, to [s]; a pause that goes on ends at `until`."""
    return sorted([*state.pauses(until), *_breaks_unpaused(state, until)])


def _breaks_unpaused(state: State, until: float) -> list[tuple[float, float]]:
    """The breaks that are no part of a pause: one lies in a pause whole, or not at all."""
    if not state.breaks:
        return []
    pauses = state.pauses(until)
    return [(start, end) for start, end in state.breaks if not any(a <= start and end <= b for a, b in pauses)]


def spans_by_model(state: State, until: float) -> list[tuple[float, float]]:
    """The strikes that went by the warm model as the probe was too slow for them, in order: from, to [s].

    Args:
        state: where the sitting stands
        until: the end of the one that goes on [s]
    """
    slow = [called for called in state.calls if called.call is Call.PROBE_SLOW]
    if not slow:
        return []
    return [
        (part.began, part.ended)
        for part in phase_spans(state, until)
        if part.phase is PhaseKind.STRIKE
        and any((part.step, part.heat) == (one.step, one.heat) and part.began <= one.at <= part.ended for one in slow)
    ]


def shaded_spans(parts: Iterable[PhaseSpan]) -> list[tuple[float, float, int]]:
    """Each stay in the fire, the oven or the bath, in order: from, to [s], and its heat.

    A soak belongs to the fire before it; a trace shades both as one.
    """
    found: list[tuple[float, float, int]] = []
    before: PhaseSpan | None = None
    for part in parts:
        if part.phase in IN_SOMETHING:
            joins = before is not None and (before.phase, part.phase) == (PhaseKind.FIRE, PhaseKind.SOAK)
            began = found.pop()[0] if joins else part.began
            found.append((began, part.ended, part.heat))
        before = part
    return found
