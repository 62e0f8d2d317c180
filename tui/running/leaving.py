"""Leaving a sitting: it is put away, and it is said where it is and what can be done with it."""

from __future__ import annotations

from plans.logbook import LogbookError, Progress, Summary, shown
from plans.prose import in_units
from plans.units import Units
from tui.running.beginning import nothing_kept
from tui.running.fault_report import report_of
from tui.running.requests import Outcome
from tui.running.running_sitting import RunningSitting


def leave(running: RunningSitting, units: Units) -> Outcome:
    """Put a sitting away and say where it is kept, and how to go on with it or look at it; one that nothing was said to
    is not kept.

    Args:
        running: the sitting; put away after this, whatever state it was in
        units: those that are set, for figures in its title

    Returns:
        lines for standard output; or, where the log could not be put away, why, and a status that says so
    """
    journal = running.logged.journal
    title, folder = in_units(journal.header.title, units), shown(journal.path.parent.parent)
    try:
        summary = running.put_away()
    except LogbookError as error:
        return Outcome(errors=(str(error),), status=1)
    except Exception as error:  # a fault of ours must not cost the log
        return Outcome(errors=(running.logged.keep_journal(), report_of(error)), status=1)
    if summary is None:
        return nothing_kept(journal.header.title, units)
    if summary.rehearsal:
        kept = f"{title}: a rehearsal, kept apart from your log as {summary.id} in {folder}"
        return Outcome((f"{kept}; what was done: heatbook log --rehearsals show {summary.id}",))
    kept = f"{title}: kept as {summary.id} in {folder}"
    return Outcome((kept + (or_go_on(summary) or f"; what was done: heatbook log show {summary.id}"),))


def or_go_on(summary: Summary) -> str:
    """Say how to go on with a sitting, at the end of a line about it.

    Returns:
        a clause with the semicolon before it; empty for one that is finished, and for a rehearsal
    """
    return (
        ""
        if summary.state is Progress.FINISHED or summary.rehearsal
        else f"; go on with it: heatbook run --go-on {summary.id}"
    )
