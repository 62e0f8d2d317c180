"""`heatbook log lesson`: lines for next time: written, listed, edited, retired."""

from __future__ import annotations

import argparse
import json
import shlex
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import datetime
from typing import TYPE_CHECKING, Any

from plans.prose import in_units
from plans.text import printable
from tui.cli.opened import opened
from tui.cli.own_files import units_in
from tui.cli.plan_files import plan_named
from tui.config import UsageError, plans_saying, user_folders

if TYPE_CHECKING:
    from plans.logbook import KeptSitting, Lesson, Logbook, Recalled, Tie
    from plans.plan import Plan
    from plans.units import Units


def run(chosen: argparse.Namespace) -> int:
    """Answer `log lesson list`, `add`, `edit`, `retire`, `again` or `put`."""

    places = user_folders()
    units = units_in(places)
    now = datetime.now().astimezone().replace(microsecond=0)
    with opened(places, chosen.rehearsals) as logbook:
        match chosen.lesson_action:
            case "list":
                _list(logbook, chosen, units)
            case "add":
                _add(logbook, chosen, now, units)
            case "edit":
                name, lesson = _change(logbook, chosen.lesson, lambda lesson: lesson.edited(chosen.text, now), units)
                for plan in plans_saying(lesson, places.plans, in_former_words=True):
                    if lesson.retired is None:
                        put = _command(chosen, "put", name, "--plan", plan)
                        print(printable(f"{plan} says it in its former words; in these: {put}"))
            case "retire":
                name, lesson = _change(
                    logbook, chosen.lesson, lambda lesson: replace(lesson, retired=lesson.retired or now), units
                )
                for plan in plans_saying(lesson, places.plans):
                    put = _command(chosen, "put", name, "--back", "--plan", plan)
                    print(printable(f"{plan} still says it; out of it: {put}"))
            case "again":
                _change(logbook, chosen.lesson, lambda lesson: replace(lesson, retired=None), units)
            case "put":
                from tui.cli.lesson_put import put_lesson

                return put_lesson(logbook, chosen, units)
        return 0


def _command(chosen: argparse.Namespace, *words: str) -> str:
    """What is to be typed for another action on lessons."""
    return shlex.join(["heatbook", "log", "lesson", *words, *(["--rehearsals"] if chosen.rehearsals else [])])


def _list(logbook: Logbook, chosen: argparse.Namespace, units: Units) -> None:
    recalled = logbook.recall()
    if chosen.plan is not None:
        plan = plan_named(chosen.plan)
        found = list(_of_plan(recalled, plan))
        if chosen.json:
            print(json.dumps([_record(one) | {"before_step": step + 1} for step, one in found], indent=2))
            return
        lines, last = [], -1
        for step, one in found:
            if step != last:
                lines.append(f"{step + 1} {in_units(plan.steps[step].title, units)}")
                last = step
            lines.append(f"  {_line(one, units)}")
        print("\n".join(map(printable, lines or [f"no lesson belongs to a step of {plan.name}"])))
        return
    if chosen.json:
        print(json.dumps([_record(one) for one in recalled], indent=2))
        return
    none = 'no lessons yet; leave one: heatbook log lesson add last --step 1 "flux sooner"'
    print("\n".join(printable(_line(one, units)) for one in recalled) or none)


def _of_plan(recalled: tuple[Recalled, ...], plan: Plan) -> Iterator[tuple[int, Recalled]]:
    from plans.logbook import at_step

    for step in range(len(plan.steps)):
        for one in at_step(recalled, plan, step):
            yield step, one


def _add(logbook: Logbook, chosen: argparse.Namespace, now: datetime, units: Units) -> None:
    from plans.logbook import SittingLessons
    from plans.logbook.lines import lesson_line

    def learned(kept: KeptSitting) -> KeptSitting:
        tie = _tie(kept, chosen)
        lessons = (kept.lessons or SittingLessons()).learned(chosen.text, tie, chosen.step - 1, now, kept.header.plan)
        return replace(kept, lessons=lessons)

    kept = logbook.amend(chosen.id, learned)
    assert kept.lessons is not None
    lesson = kept.lessons.written[-1]
    print(printable(f"{kept.header.id}.{lesson.number}  {lesson_line(lesson, units)}"))


def _tie(kept: KeptSitting, chosen: argparse.Namespace) -> Tie:
    """What the new lesson belongs to.

    Raises:
        UsageError: the plan has no such step or steel.
        LogbookError: this version can't read it.
    """
    from plans.logbook import LogbookError, plan_if_known, ties_of
    from plans.reader import steels_of
    from plans.steel import same_steel

    plan = plan_if_known(kept.header)
    if plan is None:
        raise LogbookError(f"the plan of sitting {kept.header.id} can't be read by this version: no lesson can be tied")
    if not 1 <= chosen.step <= len(plan.steps):
        raise UsageError(f"--step {chosen.step}: the plan of this sitting has steps 1 to {len(plan.steps)}")
    if chosen.steel is None and chosen.scope == "steel":
        raise UsageError("--for steel: say which, with --steel")
    if chosen.steel is not None and chosen.scope == "plan":
        raise UsageError("--steel and --for plan: a plan has its steels already; leave out one of the two")
    steels = steels_of(plan)
    steel = next((one for one in steels if chosen.steel is not None and same_steel(one, chosen.steel)), None)
    if chosen.steel is not None and steel is None:
        known = ", ".join(steels) or "none that it names"
        raise UsageError(f"--steel {chosen.steel}: the plan of this sitting is of {known}")
    found = [tie for scope, tie in ties_of(plan, chosen.step - 1) if scope == chosen.scope]
    if chosen.scope == "step":
        return replace(found[0], steel=steel)
    return next(tie for tie in found if tie.steel == steel)


def _change(logbook: Logbook, name: str, change: Callable[[Lesson], Lesson], units: Units) -> tuple[str, Lesson]:
    """Change a lesson, and print it as it is now.

    Returns:
        what it is called, and the lesson
    """
    from plans.logbook import LogbookError
    from plans.logbook.lines import lesson_line
    from tui.cli.lesson_put import lesson_named

    sitting, number = lesson_named(name)

    def changed(kept: KeptSitting) -> KeptSitting:
        if kept.lessons is None:
            raise LogbookError(f"sitting {kept.header.id} has no lessons; `heatbook log lesson list` shows all")
        return replace(kept, lessons=kept.lessons.changed(number, change))

    kept = logbook.amend(sitting, changed)
    assert kept.lessons is not None
    lesson = next(lesson for lesson in kept.lessons.written if lesson.number == number)
    name = f"{kept.header.id}.{number}"
    print(printable(f"{name}  {lesson_line(lesson, units)}"))
    return name, lesson


def _line(one: Recalled, units: Units) -> str:
    from plans.logbook.lines import lesson_line, said_line

    return f"{one.id}  {lesson_line(one.lesson, units)}, {said_line(one)}"


def _record(one: Recalled) -> dict[str, Any]:
    from plans.logbook import lesson_record

    return {"id": one.id, "sitting": one.sitting, "said_in_sittings": one.said} | lesson_record(one.lesson)
