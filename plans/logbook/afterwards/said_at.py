"""Before which steps of a plan lessons are said: those that they belong to, or belonged to under another title."""

from __future__ import annotations

from dataclasses import replace

from plans.logbook.afterwards.lessons import Recalled, Tie
from plans.logbook.names import is_of_plan
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
        belongs = one.lesson.retired is None and one.lesson.tie.belongs(plan, step)
        moved = one.lesson.retired is None and not belongs and step in _moved_to(one, plan)
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


def steps_of(tie: Tie, plan: Plan) -> tuple[int, ...]:
    """The steps of a plan that a lesson belongs to, from 0."""
    return tuple(step for step in range(len(plan.steps)) if tie.belongs(plan, step))


def _width(tie: Tie) -> tuple[bool, ...]:
    return tie.title is None, tie.kind is None, tie.steel is None, tie.plan is None


def _moved_to(one: Recalled, plan: Plan) -> tuple[int, ...]:
    """The steps, from 0, at which a lesson is said in the plan that it was learned in, or in a copy, once a title that
    it belongs to is there no more: all that the rest of it fits, or of its kind the step nearest to where it was."""
    tie = one.lesson.tie
    if (tie.title is None and tie.plan is None) or not is_of_plan(one.sitting, plan.name) or steps_of(tie, plan):
        return ()
    rest = Tie(tie.kind, None, tie.steel, plan.title)
    steps = steps_of(rest, plan)
    if tie.title is None or not steps:
        return steps
    return (min(steps, key=lambda step: abs(step - one.lesson.step)),)
