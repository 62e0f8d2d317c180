"""Taking back what was said of a sitting when it was over: it is as it was said before, and nothing else changes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime

from plans.logbook.afterwards import (
    LaterMeasurements,
    Outcome,
    Photographs,
    SittingLessons,
    as_before,
    later_record,
    lessons_record,
    outcome_record,
    photographs_record,
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
            later = kept.measured_later or LaterMeasurements()
            found = as_before((before.measured_later or LaterMeasurements()).found, later.found, now)
            kept = replace(kept, measured_later=replace(later, found=found))
        if "photographs" in changed:
            photographs = kept.photographs or Photographs()
            there = as_before((before.photographs or Photographs()).kept, photographs.kept, now)
            kept = replace(kept, photographs=replace(photographs, kept=there))
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
        "measured": later_record(LaterMeasurements((kept.measured_later or LaterMeasurements()).standing)),
        "photographs": photographs_record(Photographs((kept.photographs or Photographs()).standing)),
    }
