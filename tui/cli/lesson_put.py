"""`heatbook log lesson put`: a lesson into a plan of one's own, or out of it again."""

from __future__ import annotations

import argparse
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from plans.text import printable
from tui.cli.asking import wanted
from tui.config import UsageError, user_folders

if TYPE_CHECKING:
    from plans.logbook import KeptSitting, Lesson, Logbook
    from plans.plan import Plan
    from plans.units import Units
    from tui.config import LessonEdit


def lesson_named(name: str) -> tuple[str, int]:
    """What names a sitting, and the number of a lesson in it: of `ID.N`.

    Raises:
        UsageError: the name is none of a lesson.
    """
    sitting, dot, number = name.rpartition(".")
    if not dot or not number.isascii() or not number.isdecimal() or len(number) > 9:
        raise UsageError(f"{name}: a lesson is a sitting's id, a full stop and a number; `log lesson list` shows them")
    return sitting, int(number)


def put_lesson(logbook: Logbook, chosen: argparse.Namespace, units: Units) -> int:
    """Show what a plan is with the lesson, or without it, and write it where that is wanted.

    Returns:
        0 where it was written, 1 where it was not wanted

    Raises:
        UsageError: an option says what can't be.
        PlansError: there is no such lesson or plan, or it can't be put there.
        OSError: it can't be written.
    """
    from plans.logbook import SittingLessons
    from tui.config import noted, own_copies, take_back, write_edit

    name, number = lesson_named(chosen.lesson)
    kept = logbook.load(name)
    lessons = kept.lessons or SittingLessons()
    lessons.changed(number, lambda one: one)  # says so where it has none of that number
    lesson = next(one for one in lessons.written if one.number == number)
    lesson = replace(lesson, plan=lesson.plan or kept.header.plan)
    own = user_folders().plans
    plan, file = _plan(kept, chosen)
    edit = _edit(plan, file, lesson, chosen)
    if chosen.plan is None and (copies := [one.name for one, _ in own_copies(plan, own)]):
        print(printable(f"of your own there is {', '.join(copies)}: --plan {copies[0]} changes that one"))
    print("\n".join(map(printable, edit.differs.lines(units))))
    what = f"Write a copy of {plan.name}" if file is None else f"Change {plan.name}, your own"
    if not wanted(printable(what), chosen.yes, "nothing is written"):
        return 1
    its = kept.header.id, number
    written = noted(logbook, its, lambda: write_edit(edit, own), take_back, there=not chosen.back)
    print(printable(f"{written.file}: {'the lesson is out of it' if chosen.back else 'the lesson stands in it'}"))
    return 0


def _plan(kept: KeptSitting, chosen: argparse.Namespace) -> tuple[Plan, Path | None]:
    """The plan that is meant, and its file where that is the smith's own."""
    from plans.logbook import LogbookError, plan_if_known
    from plans.reader import plan_path, read_plan_file
    from tui.config import own_file_of

    if chosen.plan is not None:
        path = plan_path(chosen.plan, user_folders().plans)
        return read_plan_file(path), own_file_of(path, user_folders().plans)
    if chosen.back:
        raise UsageError("--back: say out of which plan, with --plan")
    plan = plan_if_known(kept.header)
    if plan is None:
        raise LogbookError(f"the plan of sitting {kept.header.id} can't be read by this version: name one with --plan")
    return plan, None


def _edit(plan: Plan, file: Path | None, lesson: Lesson, chosen: argparse.Namespace) -> LessonEdit:
    from plans.editing import LinePlace
    from tui.config import edit_with_lesson, edit_without_lesson

    if chosen.back:
        if chosen.step is not None or chosen.to is not None:
            raise UsageError("--back takes it out wherever it stands: leave out --step and --to")
        if file is None:
            raise UsageError(f"--plan {chosen.plan}: is no plan of your own, so nothing was put into it")
        return edit_without_lesson(plan, file, lesson)
    if chosen.to == "about" and chosen.step is not None:
        raise UsageError("--to about and --step: what a plan is about stands in no step; leave out one of the two")
    place = None if chosen.to is None else LinePlace(chosen.to)
    return edit_with_lesson(plan, file, lesson, place, None if chosen.step is None else chosen.step - 1)
