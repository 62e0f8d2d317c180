"""What the sittings of a logbook teach, each with when, and what of it still counts."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import datetime
from typing import Final

from plans.logbook.summary import Progress, Summary
from plans.logbook.taught.names import reduction_row
from plans.logbook.teaching import StepDrawn, Teaches
from plans.record import record

FEWEST: Final = 4
"""Below so many sittings a row says nothing but how many there are. Of four that vary by chance alone a fifth lies
between the ends in 3 of 5 cases, (n - 1) / (n + 1); of three only in every other one (S. S. Wilks, Determination of
sample sizes for setting tolerance limits, Annals of Mathematical Statistics 12 (1941) 91-96)."""

Forgotten = Mapping[str, datetime]
"""By the id of a row, until when what sittings teach of it is forgotten: those that began by then count no more."""


@record
class Evidence:
    """What one sitting teaches."""

    started: datetime
    """When it began: wall time with its offset."""
    finished: bool
    """Whether it came to its end: else its last step may not have come to its section."""
    teaches: Teaches
    """What it teaches."""


def evidence_of(summaries: Iterable[Summary], *, archived: bool = False) -> list[Evidence]:
    """What sittings that were put away teach, the oldest first; no rehearsals.

    Args:
        summaries: the sittings
        archived: whether those that are archived count as well
    """
    found = [
        Evidence(one.started, one.state is Progress.FINISHED, one.teaches)
        for one in summaries
        if one.teaches is not None
        and one.ended is not None
        and not one.rehearsal
        and (archived or not one.label.archived)
    ]
    return sorted(found, key=lambda one: one.started)


def still_counts(one: Evidence, row: str, forgotten: Forgotten) -> bool:
    """Whether what a sitting teaches of a row has not been forgotten."""
    return row not in forgotten or one.started > forgotten[row]


def drawn_that_counts(
    every: Iterable[Evidence], forgotten: Forgotten, row: Callable[[StepDrawn], str] = reduction_row
) -> list[tuple[Evidence, StepDrawn]]:
    """Each step that was drawn in a sitting that is finished, and that counts still.

    Args:
        every: what the sittings teach
        forgotten: what of it was forgotten
        row: the id of the row that a step counts for
    """
    return [
        (one, step)
        for one in every
        if one.finished
        for step in one.teaches.drawn
        if still_counts(one, row(step), forgotten)
    ]
