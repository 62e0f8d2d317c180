"""Whether a log that was read is one that a sitting can have written: its times in order, all that it names there."""

from __future__ import annotations

from typing import Final

from plans.logbook.log import Log
from plans.phase import PhaseKind
from plans.plan import Plan
from plans.sitting import Begun, Called, Event, State, WentOn, folded

SAME: Final = 0.01
"""Times that are no further apart are the same one, rounded [s]."""


def check_log(log: Log, plan: Plan | None) -> State:
    """Refuse a log that can't be so; whoever reads it further need expect no nonsense.

    Each field is in its range already. Times go back nowhere, but for what came to pass while nobody was there, which
    stands behind the going on. Steps, and the phases in them, are those of the plan.

    Args:
        log: as it was read
        plan: that it followed; None where this version can't read it, and then it is not asked

    Returns:
        where the sitting stood in the end

    Raises:
        ValueError: it can't be; the text says why.
    """
    if not log.readings.in_order:
        raise ValueError("readings go back in time")
    times, latest = log.readings.times, 0.0
    for index, event in enumerate(log.events):
        before = log.readings_before(index)
        if before:
            latest = max(latest, times[before - 1])
        check_event(event, plan)
        if event.at < latest - SAME:
            raise ValueError(f"event {index + 1} goes back in time")
        if not isinstance(event, WentOn):
            latest = max(latest, event.at)
            if before < len(times) and times[before] < event.at - SAME:
                raise ValueError(f"the reading behind event {index + 1} goes back in time")
    try:
        return folded(log.events)
    except (ArithmeticError, LookupError, StopIteration) as error:
        raise ValueError(f"the events do not follow from each other ({error!r})") from None


def check_event(event: Event, plan: Plan | None) -> None:
    """Refuse an event that can't be, whatever stands before it.

    Args:
        event: as it was read
        plan: that the sitting followed; None where this version can't read it

    Raises:
        ValueError: it can't be; the text says why.
    """
    if any(moment is not None and moment > event.at + SAME for moment in _moments_before(event)):
        raise ValueError("it tells of what was still to come")
    if plan is None or not isinstance(event, Begun | Called):
        return
    if event.step >= len(plan.steps):
        raise ValueError("it names a step that the plan does not have")
    if isinstance(event, Begun) and event.phase is not PhaseKind.READY:
        kinds = [phase.kind for phase in plan.steps[event.step].phases]
        if event.phase not in kinds:
            raise ValueError("it names a phase that the step does not have")


def _moments_before(event: Event) -> tuple[float | None, ...]:
    """The moments that an event tells of, besides its own [s]."""
    if isinstance(event, WentOn):
        return event.paused_since, event.away_since
    return (getattr(event, "happened", None),)
