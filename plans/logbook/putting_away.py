"""Putting a sitting away: its figures, its file, its line in the index; and then its journal goes."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from plans.logbook.afterwards import SittingLessons, given_to_log
from plans.logbook.cut_off import CutOff
from plans.logbook.disk import UNREADABLE, remove
from plans.logbook.errors import DamagedError, LogbookError, StoppedError, shown
from plans.logbook.files import JOURNAL, SITTING
from plans.logbook.header import Header, NewerFormat
from plans.logbook.journal import signature
from plans.logbook.kept_sitting import KeptSitting, WorkedOut, WorkOut, checked
from plans.logbook.log import Log
from plans.logbook.recalling import said_in
from plans.logbook.sitting_files import Head, read_head
from plans.logbook.store import Store
from plans.logbook.summary import Progress, Summary


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
    """Write the file of a sitting and enter it in the index, with the lessons that were said in it.

    Raises:
        OSError: one of them could not be written.
    """
    state = Progress.FINISHED if log.ended else Progress.UNFINISHED
    kept = KeptSitting(header, log, state, worked.figures, worked.skin, worked.middle)
    return store.write(_with_what_was_said(store, kept))


def head_of(store: Store, name: str) -> Head | None:
    """What was written on a sitting that was put away; None where it has no file, or none that can be read."""
    with suppress(*UNREADABLE, NewerFormat, OSError):
        return read_head(store.path(name, SITTING))
    return None


def _with_what_was_said(store: Store, kept: KeptSitting) -> KeptSitting:
    """The sitting with the outcome and the lessons that its file holds already, and those that were said in it."""
    head = head_of(store, kept.header.id)
    if head is not None:
        later = head.measured_later
        if kept.header.went_on:
            later = given_to_log(later, kept.log.events, kept.header.went_on[-1][1])
        kept = replace(kept, measured_later=later, photographs=head.photographs)
        if head.unread:
            return replace(kept, outcome=head.outcome)
    lessons = SittingLessons() if head is None or head.lessons is None else head.lessons
    said = tuple(sorted({*lessons.said, *said_in(store, kept.header, kept.log)}))
    lessons = replace(lessons, said=said)
    return replace(
        kept,
        outcome=None if head is None else head.outcome,
        lessons=None if lessons == SittingLessons() else lessons,
    )


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


def read_with_figures(store: Store, name: str, work_out: WorkOut | None) -> KeptSitting:
    """Read a sitting that was put away. Figures that are missing, or are not of its log, are worked out.

    They are written into its file where that may be done, so that the next look need not wait for them.

    Args:
        store: the files of the logbook
        name: its id
        work_out: works them out; None where they are not needed

    Raises:
        LogbookError: it can't be read.
    """
    path = store.path(name, SITTING)
    before = _signature(path)
    kept = store.read(name)
    if work_out is None or not (kept.misfit or kept.figures is None):
        return kept
    if kept.misfit:
        store.say(f"the figures of sitting {name} do not fit its log ({kept.misfit}): they are worked out again")
    worked = worked_out(store, kept.header, kept.log, work_out)
    kept = replace(kept, figures=worked.figures, skin=worked.skin, middle=worked.middle)
    if kept.figures is not None:
        with suppress(LogbookError, OSError), store.turn.borrow():  # another heatbook writes, or nobody may
            if before == _signature(path) and not store.path(name, JOURNAL).exists():
                store.write(kept)
    return kept


def _signature(path: Path) -> tuple[int, ...] | None:
    try:
        return signature(path.stat())
    except OSError:
        return None
