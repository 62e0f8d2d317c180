"""What the logbook recalls: every lesson of its sittings, with how often it was said since."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import datetime

from plans.logbook.afterwards import Lesson, Recalled, SittingLessons, at_step, lesson_id
from plans.logbook.disk import UNREADABLE
from plans.logbook.errors import LogbookError, reason, shown
from plans.logbook.header import Header, NewerFormat
from plans.logbook.kept_plan import plan_if_known
from plans.logbook.lesson_file import LookedAt, read_lessons, write_lessons
from plans.logbook.log import Log
from plans.logbook.names import plan_in
from plans.logbook.store import Store
from plans.regular import NoOrdinaryFileError
from plans.sitting import Begun


def recall(store: Store) -> tuple[Recalled, ...]:
    """Every lesson of the logbook, those no longer said among them; the oldest sitting's first.

    Nothing that is wrong with them keeps a sitting from its work: it is kept as a message of the logbook.
    """
    try:
        found = _looked_at(store)
    except OSError as error:
        store.say(f"the lessons of {shown(store.folder)} can't be read: {reason(error)}")
        return ()
    lessons = {name: one.lessons for name, one in sorted(found.items()) if one.lessons is not None}
    said = Counter(name for one in lessons.values() for name in set(one.said))
    return tuple(
        Recalled(sitting, _with_plan(lesson, sitting), said[lesson_id(sitting, lesson.number)])
        for sitting, one in lessons.items()
        for lesson in one.written
    )


def _with_plan(lesson: Lesson, sitting: str) -> Lesson:
    """A lesson with the plan that it was learned in: an earlier version did not write that down, and the sitting's id
    has most of its name."""
    return lesson if lesson.plan else replace(lesson, plan=plan_in(sitting))


def said_in(store: Store, header: Header, log: Log) -> tuple[str, ...]:
    """The ids of the lessons that stood before the steps which a sitting came to: those of others that were written by
    then."""
    plan = plan_if_known(header)
    if plan is None:
        return ()
    recalled = tuple(one for one in recall(store) if one.sitting != header.id)
    come: dict[int, datetime] = {}
    for event in log.events if recalled else ():
        if isinstance(event, Begun) and event.step < len(plan.steps):
            come[event.step] = header.wall_time(event.at)
    return tuple(
        sorted(
            {
                one.id
                for step, moment in come.items()
                for one in at_step(recalled, plan, step)
                if one.lesson.written <= moment
            }
        )
    )


def _looked_at(store: Store) -> dict[str, LookedAt]:
    """What each sitting's file holds, of the file of all lessons where that is as new; that is mended, where it may be.

    Raises:
        OSError: the folder can't be read.
    """
    files = {name: (about.st_size, about.st_mtime_ns) for name, about in store.on_disk().items()}
    known = _known(store)
    found = {name: one for name, one in (known or {}).items() if files.get(name) == one.signature}
    for name, signature in files.items():
        if name not in found:
            before = (known or {}).get(name)
            found[name] = LookedAt(signature, _lessons_in(store, name, None if before is None else before.lessons))
    if found != known and (found or known is None):
        _mend(store, known, found)
    return found


def _known(store: Store) -> dict[str, LookedAt] | None:
    """The file of all lessons; None where it can't be understood, and is made again."""
    try:
        return read_lessons(store.lessons)
    except (*UNREADABLE, NoOrdinaryFileError, NewerFormat):
        return None


def _lessons_in(store: Store, name: str, before: SittingLessons | None) -> SittingLessons | None:
    """The lessons in a sitting's file; of one that is damaged those that it had before, as they are said on.

    That it is damaged is said here too, once: whoever asks for lessons need not come by a list of sittings.
    """
    try:
        head = store.read_head(name)
    except LogbookError as error:
        store.say(str(error))
        return before
    try:
        store.check_end(name)
    except LogbookError as error:
        store.say(str(error))
    if head.unread and head.lessons is None:
        store.say(f"the lessons of sitting {name} can't be read: {head.unread}")
    return head.lessons


def _mend(store: Store, known: dict[str, LookedAt] | None, found: dict[str, LookedAt]) -> None:
    """Write the file of all lessons anew, where that may be done; one that is damaged is set aside."""
    try:
        with store.turn.borrow():
            if known is None:
                text = f"{shown(store.lessons)} can't be read; it is made again from the sittings"
                store.say(store.set_aside(store.lessons, text))
            write_lessons(store.lessons, found)
    except (LogbookError, OSError):
        return  # another heatbook writes, or nobody may: the next one who may does it
