"""Before which steps of a plan lessons are said: those that they belong to, or belonged to under another title."""

from __future__ import annotations

from dataclasses import replace

from plans.copied import is_copy_of
from plans.logbook.afterwards.lessons import Lesson, Recalled, Tie
from plans.plan import Plan
from plans.prose import as_prose


def at_step(recalled: tuple[Recalled, ...], plan: Plan, step: int) -> tuple[Recalled, ...]:
    """The lessons to be said before a step, those that belong to it most narrowly first, of such the newest.

    One that the plan itself says there, since it was put into it, is not said twice.

    Args:
        recalled: all lessons of the logbook
        plan: that is followed
        step: which step comes, from 0
    """
    found = []
    for one in recalled:
        if one.lesson.retired is None:
            belongs = one.lesson.tie.belongs(plan, step)
            moved = not belongs and step in _moved_to(one.lesson, plan)
            if (belongs or moved) and not stands_in(plan, step, one.lesson.text):
                found.append(replace(one, moved=True) if moved else one)
    found.sort(key=lambda one: one.lesson.written, reverse=True)
    found.sort(key=lambda one: _width(one.lesson.tie))
    read: dict[str, Recalled] = {}
    for one in found:
        read.setdefault(one.lesson.text.casefold(), one)  # the same line, learned twice, is read once
    return tuple(read.values())


def stands_in(plan: Plan, step: int, line: str) -> bool:
    """Whether a plan says a lesson's line at a step, word for word: in the step, or in what all of it is about.

    Args:
        plan: the plan
        step: the step, from 0
        line: the lesson's text
    """
    said, its = as_prose(line), plan.steps[step]
    return any(
        said in texts
        for texts in (its.checklist, its.cautions, its.instruction.split("\n\n"), plan.about.split("\n\n"))
    )


def steps_of(lesson: Lesson, plan: Plan) -> tuple[int, ...]:
    """The steps of a plan, from 0, before which a lesson is said.

    It is those that it belongs to; where none is, since a title is another one or a step is gone, and it was learned in
    this plan or in a copy of it: all that the rest of its tie fits, or of its kind the one nearest to where it was.
    """
    return tuple(step for step in range(len(plan.steps)) if lesson.tie.belongs(plan, step)) or _moved_to(lesson, plan)


def _width(tie: Tie) -> tuple[bool, ...]:
    return tie.title is None, tie.kind is None, tie.steel is None, tie.plan is None


def _moved_to(lesson: Lesson, plan: Plan) -> tuple[int, ...]:
    tie, steps = lesson.tie, range(len(plan.steps))
    if (tie.title is None and tie.plan is None) or not lesson.plan or not is_copy_of(lesson.plan, plan.name):
        return ()
    if any(tie.belongs(plan, step) for step in steps):
        return ()
    rest = Tie(tie.kind, None, tie.steel, plan.title)
    found = tuple(step for step in steps if rest.belongs(plan, step))
    return found if tie.title is None else (min(found, key=lambda step: abs(step - lesson.step)),) if found else ()
