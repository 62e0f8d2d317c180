"""What is said when a sitting is left."""

from __future__ import annotations

from plans.logbook.errors import LogbookError, shown
from plans.logbook.kept_sitting import Progress
from tui.running.attending import Attending
from tui.running.requests import Outcome


def put_away(attending: Attending) -> Outcome:
    """Put a sitting away and say where it is, and how to go on with it or look at it."""
    journal = attending.running.journal
    try:
        summary = attending.put_away()
    except LogbookError as error:
        return Outcome(errors=(str(error),), status=1)
    kept = f"{summary.title}: kept as {summary.id} in {shown(journal.path.parent.parent)}"
    if summary.state is Progress.FINISHED:
        return Outcome((f"{kept}; what was done: heatbook log show {summary.id}",))
    return Outcome((f"{kept}; go on with it: heatbook run --go-on {summary.id}",))
