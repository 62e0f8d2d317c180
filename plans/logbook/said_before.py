"""Taking back what was said of a sitting when it was over: it is as it was said before, and nothing else changes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime

from plans.logbook.afterwards import (
    LaterMeasurements,
    MeasuredLater,
    Outcome,
    Photograph,
    Photographs,
    SittingLessons,
    as_before,
    later_record,
    lessons_record,
    outcome_record,
    photographs_record,
    standing,
)
from plans.logbook.errors import LogbookError
from plans.logbook.kept_sitting import KeptSitting


def as_said_before(before: KeptSitting, after: KeptSitting, now: datetime) -> Callable[[KeptSitting], KeptSitting]:
    """The change that takes back what was said of a sitting between two states of it.

    What was measured or photographed is kept, and counts no longer.

    Args:
        before: the sitting as it was kept before that was said
        after: as it was kept then
        now: wall time with its offset

    Returns:
        the change; it raises LogbookError where something else of that kind was said since
    """
    was, then = _said(before), _said(after)
    changed = [name for name, said in then.items() if said != was[name]]

    def change(kept: KeptSitting) -> KeptSitting:
        if any(_said(kept)[name] != then[name] for name in changed):
            raise LogbookError("more was said of this sitting since: nothing is taken back")
        if "measured" in changed:
            found = as_before(_found(before), _found(kept), now)
            kept = replace(kept, measured_later=replace(kept.measured_later or LaterMeasurements(), found=found))
        if "photographs" in changed:
            there = as_before(_photographs(before), _photographs(kept), now)
            kept = replace(kept, photographs=replace(kept.photographs or Photographs(), kept=there))
        # None would leave what the file has: what was never said is said to be nothing.
        if "outcome" in changed:
            kept = replace(kept, outcome=before.outcome or Outcome())
        if "lessons" in changed:
            kept = replace(kept, lessons=_lessons_before(before, kept))
        return kept

    return change


def _lessons_before(before: KeptSitting, after: KeptSitting) -> SittingLessons:
    """The lessons as they were; no number that one had since is given again."""
    were, now = before.lessons or SittingLessons(), after.lessons or SittingLessons()
    return replace(were, given=max((now.given, *(one.number for one in now.written))))


def _said(kept: KeptSitting) -> dict[str, object]:
    """All that was said of a sitting when it was over and that counts, as its file has it: of a figure in inches no
    more than is written."""
    lessons = replace(kept.lessons or SittingLessons(), given=0)
    return {
        "outcome": outcome_record(kept.outcome or Outcome()),
        "lessons": lessons_record(lessons),
        "measured": later_record(LaterMeasurements(standing(_found(kept)))),
        "photographs": photographs_record(Photographs(standing(_photographs(kept)))),
    }


def _found(kept: KeptSitting) -> tuple[MeasuredLater, ...]:
    return () if kept.measured_later is None else kept.measured_later.found


def _photographs(kept: KeptSitting) -> tuple[Photograph, ...]:
    return () if kept.photographs is None else kept.photographs.kept
