"""Sittings whole, of whatever files they have: read one, take one up to go on with, put away one that has run."""

from __future__ import annotations

from plans.logbook.cut_off import piece_together
from plans.logbook.errors import LogbookError, reason, shown
from plans.logbook.files import JOURNAL, SITTING
from plans.logbook.header import Header
from plans.logbook.journal import Journal, check_log
from plans.logbook.kept_plan import plan_if_known
from plans.logbook.kept_sitting import KeptSitting, WorkedOut, WorkOut
from plans.logbook.log import Log
from plans.logbook.putting_away import head_of, put_away, read_with_figures, worked_out, write
from plans.logbook.store import Store
from plans.logbook.summary import Progress, Summary


def read_whole(store: Store, name: str, state: Progress, work_out: WorkOut | None) -> KeptSitting:
    """Read one sitting, of its journal where it still has one.

    Args:
        store: the files of the logbook
        name: its id
        state: how far it has come, where it has a journal
        work_out: works out figures that are missing; None where they are not needed

    Raises:
        LogbookError: it can't be read.
    """
    path = store.path(name, JOURNAL)
    if not path.exists():
        return read_with_figures(store, name, work_out)
    try:
        cut = piece_together(store, name)
    except LogbookError:
        if path.exists():
            raise
        return read_with_figures(store, name, work_out)  # it was put away just now
    if cut.damage:
        store.say(f"{shown(path)} {cut.told}")
    return of_log(store, cut.header, cut.log, state, work_out)


def of_log(store: Store, header: Header, log: Log, state: Progress, work_out: WorkOut | None) -> KeptSitting:
    """A sitting that has a journal, of what is known of it."""
    worked = WorkedOut(None) if work_out is None else worked_out(store, header, log, work_out)
    return KeptSitting(header, log, state, worked.figures, worked.skin, worked.middle)


def take_up(store: Store, name: str) -> KeptSitting:
    """An unfinished sitting, to be gone on with; one whose journal is damaged is put away first. The lock is held.

    Raises:
        LogbookError: it can't be read, or is finished.
        OSError: it can't be put away.
    """
    if not store.path(name, JOURNAL).exists():
        kept = store.read(name)
        _refuse_finished(kept.header, kept.state)
        return kept
    cut = piece_together(store, name)
    _refuse_finished(cut.header, cut.state)
    if cut.damage or cut.name != name:
        put_away(store, name, cut, WorkedOut(None))
        return store.read(name if store.path(name, SITTING).exists() else cut.name)
    head = head_of(store, name)
    return KeptSitting(cut.header, cut.log, cut.state, measured_later=None if head is None else head.measured_later)


def fold(store: Store, journal: Journal, work_out: WorkOut) -> Summary:
    """Put away a sitting that runs, and forget it; what is raised is as in `Logbook.fold`."""
    name, log = journal.header.id, journal.log
    try:
        check_log(log, plan_if_known(journal.header))
    except ValueError as error:
        raise LogbookError(
            f"sitting {name} can't be put away, it could not be read back ({error}); its journal is kept, and what "
            "of it is right is put away at the next start"
        ) from None
    worked = worked_out(store, journal.header, log, work_out)
    try:
        with store.turn.keep():
            summary = write(store, journal.header, log, worked)
            journal.remove()
            for line in journal.news:
                store.say(line)
            store.turn.running.pop(name, None)
    except OSError as error:
        raise LogbookError(
            f"sitting {name} can't be put away in {shown(store.folder)}: {reason(error)}; "
            "what its journal holds is put away at the next start"
        ) from None
    return summary


def _refuse_finished(header: Header, state: Progress) -> None:
    if state is Progress.FINISHED:
        raise LogbookError(f"sitting {header.id} is finished; begin a new one of {header.plan}")
