"""Putting a sitting away: its figures, its file, its line in the index; and then its journal goes."""

from __future__ import annotations

from plans.logbook.cut_off import CutOff
from plans.logbook.errors import DamagedError, StoppedError, shown
from plans.logbook.header import Header
from plans.logbook.kept_sitting import KeptSitting, Progress, Summary, WorkedOut, WorkOut, checked
from plans.logbook.log import Log
from plans.logbook.store import JOURNAL, Store
from plans.logbook.whole_files import remove


def worked_out(store: Store, header: Header, log: Log, work_out: WorkOut) -> WorkedOut:
    """Figures and modelled trace of a sitting; nothing, and a message, where they can't be had.

    Raises:
        StoppedError: they are not wanted any more.
    """
    try:
        return checked(work_out(header, log))
    except StoppedError:
        raise
    except Exception as error:  # whatever is wrong with a plan or the engine, the log must be kept
        store.say(f"the figures of sitting {header.id} can't be worked out ({error}); its log is kept")
        return WorkedOut(None)


def write(store: Store, header: Header, log: Log, worked: WorkedOut) -> Summary:
    """Write the file of a sitting and enter it in the index.

    Raises:
        OSError: one of them could not be written.
    """
    state = Progress.FINISHED if log.ended else Progress.UNFINISHED
    kept = KeptSitting(header, log, state, worked.figures, worked.skin, worked.middle)
    store.write(kept)
    return kept.summary


def put_away(store: Store, name: str, cut: CutOff, worked: WorkedOut) -> Summary:
    """Put away a sitting that was cut off. Killed between any two steps, it is done again.

    Args:
        store: the files of the logbook; its lock is held
        name: by which its journal goes
        cut: the sitting
        worked: its figures; not looked at where its file holds all of it already

    Raises:
        OSError: something could not be written; the journal is kept.
    """
    path = store.path(name, JOURNAL)
    if cut.spoiled:
        try:
            store.read(cut.name)
        except DamagedError as error:
            store.say(str(error))
    if cut.kept is not None and cut.holds_all:
        summary = cut.kept.summary
        store.enter(summary)
    else:
        summary = write(store, cut.header, cut.log, worked)
    if cut.name != name:
        store.say(f"{shown(path)} was another sitting than its name says; it is put away as {cut.name}")
    if cut.damage:
        store.say(store.set_aside(path, f"{shown(path)} {cut.told}"))
    else:
        remove(path)
    return summary
