"""A lesson put into a plan of one's own: what would change is worked out first, then written, and can be taken back."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Final

from plans.copied import is_copy_of
from plans.errors import PlanError
from plans.logbook import KeptSitting, Lesson, Logbook, LogbookError, SittingLessons, stands_in, steps_of
from plans.plan import Plan
from plans.reader import files_at_hand, read_plan_file
from plans.record import record
from tui.config.plan_copy import write_copy

if TYPE_CHECKING:
    from plans.editing import Difference, LinePlace

_NOTHING: Final = "it stands there already: nothing is to be changed"


@record
class LessonEdit:
    """A plan with a lesson in it, or without it again, before it is written."""

    plan: Plan
    """The plan as it is."""
    file: Path | None
    """The smith's own file that is written over; None where a copy is made."""
    text: str
    """The plan as it is to be."""
    differs: Difference
    """What that changes."""


@record
class Written:
    """A plan's file that was written."""

    file: Path
    """Where it lies."""
    before: bytes | None
    """What stood there before; None where it is new."""
    after: bytes
    """What stands there now."""


def own_file_of(plan: Path, own: Path) -> Path | None:
    """The file of a plan, if it lies in the smith's own folder and may be edited there; None where it does not."""
    return plan if plan.parent.resolve() == own.resolve() and plan.is_file() else None


def own_copies(plan: Plan, own: Path) -> list[tuple[Plan, Path]]:
    """The plans in the smith's own folder that are this one or copies of it, the newest number first.

    Args:
        plan: the plan
        own: the smith's own folder; it need not be there
    """
    found = []
    for file in files_at_hand(own):
        if file.own and is_copy_of(file.name, plan.name):
            try:
                found.append((read_plan_file(file.path), file.path))
            except PlanError:
                continue  # the shelf says what is wrong with it
    return found[::-1]


def usual_place(lesson: Lesson, step: int | None) -> LinePlace:
    """Where a lesson stands in a plan unless the smith says otherwise.

    That is first in the instruction: it is read before the step begins, as the lesson was, and on the smallest screen
    too, where a long checklist is cut. What is checked is looked at when the step is done: too late for most lessons.

    Args:
        lesson: the lesson
        step: the one step that it is to stand in, from 0; None for those that it belongs to
    """
    from plans.editing import LinePlace

    whole = lesson.tie.plan is not None and not lesson.tie.is_of_a_step and step is None
    return LinePlace.ABOUT if whole else LinePlace.INSTRUCTION


def edit_with_lesson(
    plan: Plan, file: Path | None, lesson: Lesson, place: LinePlace | None = None, step: int | None = None
) -> LessonEdit:
    """Work out what a plan is with a lesson in it; nothing is written.

    Where the plan says it in words that it had before, it stands there in its new ones, unless a place is named.

    Args:
        plan: the plan
        file: the smith's own file of it, to be written over; None for a copy
        lesson: the lesson
        place: where it is to stand; None for `usual_place`
        step: in which step alone, from 0; None for all that it belongs to

    Raises:
        LogbookError: it belongs to no step of the plan, there is no such step, or it stands there already.
        PlanError: the plan would be none then, as where the line is too long there.
    """
    from plans.editing import LinePlace, with_line, with_line_instead

    text = plan.source.removeprefix("\ufeff")
    if place is None and step is None and says_in_former_words(lesson, plan):
        for words in lesson.former:
            text = with_line_instead(text, words, lesson.text)
        return _edit(plan, file, text, _NOTHING)  # it stays where the smith has it
    place = usual_place(lesson, step) if place is None else place
    steps: Sequence[int] = steps_of(lesson, plan) if step is None else (step,)
    if step is not None and not 0 <= step < len(plan.steps):
        raise LogbookError(f"{plan.name} has steps 1 to {len(plan.steps)}, and no step {step + 1}")
    if not steps and place is not LinePlace.ABOUT:
        raise LogbookError(
            f"this lesson belongs to no step of {plan.name} ({lesson.tie.about}): "
            "say into which step it shall go, with --step"
        )
    return _edit(plan, file, with_line(text, place, steps, lesson.text), _NOTHING)


def edit_without_lesson(plan: Plan, file: Path, lesson: Lesson) -> LessonEdit:
    """Work out what a plan of the smith's own is without a lesson; nothing is written.

    Raises:
        LogbookError: it does not stand there, word for word.
        PlanError: the plan is written in a way that this can't be done.
    """
    from plans.editing import without_line

    text = plan.source.removeprefix("\ufeff")
    for words in (lesson.text, *lesson.former):
        text = without_line(text, words)
    return _edit(plan, file, text, "the lesson does not stand in it word for word: take it out by hand")


def says_in_former_words(lesson: Lesson, plan: Plan) -> bool:
    """Whether a plan says a lesson in words that it had before it was edited."""
    return any(stands_in(plan, step, one) for step in range(len(plan.steps)) for one in lesson.former)


def plans_saying(lesson: Lesson, own: Path, *, in_former_words: bool = False) -> list[str]:
    """The plans of one's own that a lesson was put into and that say it, by their names.

    Args:
        lesson: the lesson
        own: the smith's own folder; it need not be there
        in_former_words: only those that say it in the words that it had before
    """
    words = lesson.former if in_former_words else (lesson.text, *lesson.former)
    found = []
    for file in files_at_hand(own) if words else ():
        if file.own and file.name in lesson.put_into:
            try:
                plan = read_plan_file(file.path)
            except PlanError:
                continue  # the shelf says what is wrong with it
            if any(stands_in(plan, step, one) for step in range(len(plan.steps)) for one in words):
                found.append(file.name)
    return found


def _edit(plan: Plan, file: Path | None, text: str, nothing: str) -> LessonEdit:
    from plans.editing import difference

    differs = difference(plan.source, text)
    if differs.is_empty:
        raise LogbookError(f"{plan.name}: {nothing}")
    return LessonEdit(plan, file, text, differs)


def write_edit(edit: LessonEdit, own: Path) -> Written:
    """Write a plan with a lesson in it: over the smith's own file, or as a new copy in his folder.

    Raises:
        LogbookError: the file is not what it was when the change was shown; it stays as it is.
        PlanError: the title of a copy can't be set as the plan is written.
        OSError: it can't be written.
    """
    from plans.writing import write_beside

    if edit.file is None:
        path, new = write_copy(edit.plan, edit.text, own)
        after = path.read_bytes()
        return Written(path, None if new else after, after)
    before, after = edit.file.read_bytes(), edit.text.encode()
    if before.decode("utf-8", "replace").removeprefix("\ufeff") != edit.plan.source.removeprefix("\ufeff"):
        raise LogbookError(f"{edit.file} was changed meanwhile, and is left as it is; begin again")
    write_beside(edit.file, [after])
    return Written(edit.file, before, after)


def take_back(written: Written) -> None:
    """Have a plan's file as it was before it was written; a copy that was new goes.

    Raises:
        LogbookError: it was changed since, and is left as it is.
        OSError: it can't be written.
    """
    from plans.writing import sync_folder, write_beside

    if written.file.read_bytes() != written.after:
        raise LogbookError(f"{written.file} was changed since, and is left as it is")
    if written.before is None:
        written.file.unlink()
        sync_folder(written.file.parent)
    else:
        write_beside(written.file, [written.before])


def put_back(written: Written) -> None:
    """Have a plan's file as it was written, after `take_back`; what is raised is an OSError."""
    from plans.writing import write_beside

    write_beside(written.file, [written.after])


def noted(
    logbook: Logbook,
    lesson: tuple[str, int],
    do: Callable[[], Written],
    undo: Callable[[Written], None],
    *,
    there: bool,
) -> Written:
    """Change a plan's file, and write beside the lesson that it stands there now, or no longer: both, or neither.

    Args:
        logbook: has the lesson
        lesson: the id of its sitting, and its number
        do: changes the plan's file
        undo: takes that back, where it can't be noted
        there: whether the lesson stands in the plan then

    Raises:
        PlansError: the sitting can't be read or written, has no such lesson, or the plan can't be changed.
        OSError: the plan's file can't be written.
    """
    sitting, number = lesson
    done: list[Written] = []

    def changed(kept: KeptSitting) -> KeptSitting:
        lessons = (kept.lessons or SittingLessons()).changed(number, lambda one: one)  # there is such a one
        done.append(do())
        name = done[-1].file.stem
        return replace(
            kept, lessons=lessons.changed(number, lambda one: one.put(name) if there else one.put_back(name))
        )

    try:
        logbook.amend(sitting, changed)
    except LogbookError:
        for written in done:
            undo(written)
        raise
    return done[-1]
