"""Lessons: lines that a smith leaves for next time, and what each belongs to."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from datetime import datetime
from typing import Any, Final

from plans.copied import is_titled_as
from plans.logbook.errors import LogbookError
from plans.logbook.header import NewerFormat
from plans.plan import Plan, StepKind
from plans.record import record
from plans.record_values import (
    MOST_OF_ALL,
    Record,
    check_year,
    count_of,
    list_of,
    maybe_moment,
    maybe_stamp,
    moment_of,
    record_of,
    records_of,
    step_of,
    text_of,
)
from plans.text import plain

LONGEST_LESSON: Final = 200
"""How long a lesson may be: one line, to be read at the fire [characters]."""
SCHEMA: Final = 1
"""Version of how a sitting's file keeps its lessons."""


@record
class Tie:
    """What a lesson belongs to: all that it names must be so. Steels and titles are as the plan writes them."""

    kind: StepKind | None = None
    """Steps of this kind; None for any."""
    title: str | None = None
    """Steps of this title, in whatever plan; None for any."""
    steel: str | None = None
    """Plans of this steel, however it is spelt; None for any."""
    plan: str | None = None
    """Plans of this title and their copies, which have a number behind it; None for any."""

    def __post_init__(self) -> None:
        if not any((self.kind, self.title, self.steel, self.plan)):
            raise ValueError("a lesson belongs to something")

    def belongs(self, plan: Plan, step: int) -> bool:
        """Whether it belongs to a step of a plan; `step` from 0."""
        its = plan.steps[step]
        return (
            self.kind in (None, its.kind)
            and self.title in (None, its.title)
            and (self.plan is None or is_titled_as(plan.title, self.plan))
            and (self.steel is None or _has(plan, self.steel))
        )

    @property
    def about(self) -> str:
        """What it belongs to, in words: "every weld step, 1084", "the step “Weld”"."""
        steps = "every step" if self.kind is None else f"every {self.kind.value} step"
        what = steps if self.title is None else f"the step “{self.title}”"
        parts = [what, self.steel or "", "" if self.plan is None else f"“{self.plan}”"]
        return ", ".join(filter(None, parts))

    @property
    def is_of_a_step(self) -> bool:
        """Whether it tells one step from another, rather than plans from plans."""
        return self.kind is not None or self.title is not None


def _has(plan: Plan, steel: str) -> bool:
    """Whether a steel is one of a plan's."""
    from plans.reader import steels_of  # for a sitting whose lessons name no steel nobody needs them
    from plans.steel import same_steel

    return any(same_steel(steel, its) for its in steels_of(plan))


def ties_of(plan: Plan, step: int) -> Iterator[tuple[str, Tie]]:
    """All that a lesson from a step can belong to, the narrowest first, each with its name: "step", "kind" and so on.

    Args:
        plan: that was followed
        step: the step that the lesson was learned at, from 0
    """
    from plans.reader import steels_of

    its, steels = plan.steps[step], steels_of(plan)
    yield "step", Tie(its.kind, its.title)
    yield "kind", Tie(its.kind)
    for steel in steels:
        yield "kind", Tie(its.kind, steel=steel)
    for steel in steels:
        yield "steel", Tie(steel=steel)
    yield "plan", Tie(plan=plan.title)


@record
class Lesson:
    """One line for next time."""

    number: int
    """Counted from 1 in the sitting that it was learned in; never given to another."""
    text: str
    """The line itself: `plain`, not empty, of at most `LONGEST_LESSON` characters."""
    tie: Tie
    """What it belongs to."""
    step: int
    """The step of its sitting at which it was learned, from 0."""
    written: datetime
    """When it was written: wall time with its offset."""
    changed: datetime | None = None
    """When its text was written anew for the last time; None where it stands as it was written."""
    retired: datetime | None = None
    """Since when it is no longer said; None where it is."""
    put_into: tuple[str, ...] = ()
    """The plans that it was put into, by their names; it is said in those for as long as they don't say it."""
    plan: str = ""
    """The name of the plan that it was learned in; empty where a version wrote it that did not keep that."""
    former: tuple[str, ...] = ()
    """What it was called before it was edited, where a plan that it was put into may say that still."""

    def edited(self, text: str, now: datetime) -> Lesson:
        """Make a lesson of other words, as typed; what it belongs to stays.

        Raises:
            LogbookError: there is nothing in the text, or it is too long.
        """
        line = lesson_text(text)
        may_stand = (self.text,) if self.put_into and line != self.text else ()
        former = tuple(dict.fromkeys(one for one in (*self.former, *may_stand) if one != line))
        return replace(self, text=line, changed=now, former=former)

    def put(self, plan: str) -> Lesson:
        """Make a lesson that was put into a plan, by its name."""
        return replace(self, put_into=tuple(dict.fromkeys((*self.put_into, plan))))

    def put_back(self, plan: str) -> Lesson:
        """Make a lesson that was taken out of a plan again."""
        put_into = tuple(name for name in self.put_into if name != plan)
        return replace(self, put_into=put_into, former=self.former if put_into else ())


@record
class SittingLessons:
    """The lessons of one sitting: what was learned in it, and what was said to its smith of what others had taught."""

    written: tuple[Lesson, ...] = ()
    """Those that were learned in it, in the order in which they were written, those no longer said among them."""
    said: tuple[str, ...] = ()
    """The ids of those that stood there before its steps."""
    given: int = 0
    """The highest number that one had which was taken back again; 0 where none was."""

    def learned(self, text: str, tie: Tie, step: int, now: datetime, plan: str) -> SittingLessons:
        """Make lessons of these and one more.

        Args:
            text: the line, as it was typed
            tie: what it belongs to
            step: at which step of the sitting it was learned, from 0
            now: wall time with its offset
            plan: the name of the plan that the sitting followed

        Raises:
            LogbookError: there is nothing in the text, it is too long, or the same stands there already.
        """
        number = max((self.given, *(lesson.number for lesson in self.written))) + 1
        new = Lesson(number, lesson_text(text), tie, step, now, plan=plan)
        return replace(self, written=(*self.written, new))._checked(new)

    def changed(self, number: int, change: Callable[[Lesson], Lesson]) -> SittingLessons:
        """Make lessons of these with one of them changed.

        Raises:
            LogbookError: no lesson has that number, or another says the same then.
        """
        if all(lesson.number != number for lesson in self.written):
            raise LogbookError(f"it has no lesson {number}; `heatbook log lesson list` shows them")
        written = tuple(change(lesson) if lesson.number == number else lesson for lesson in self.written)
        return replace(self, written=written)._checked(next(one for one in written if one.number == number))

    def _checked(self, new: Lesson) -> SittingLessons:
        """These lessons; a LogbookError where another of them says the same of the same."""
        for one in self.written:
            same = (one.text.casefold(), one.tie) == (new.text.casefold(), new.tie)
            if same and one.number != new.number and one.retired is None and new.retired is None:
                raise LogbookError(f"it stands there already: lesson {one.number}, {one.tie.about}")
        return self


@record
class Recalled:
    """A lesson as the logbook recalls it: with the sitting that it is from, and how often it was said since."""

    sitting: str
    """Id of the sitting that it was learned in."""
    lesson: Lesson
    """The lesson."""
    said: int
    """In how many sittings it was said since."""
    moved: bool = False
    """Whether it stands where it does as its own step, or its plan, was given another title since."""

    @property
    def id(self) -> str:
        """How it is called: the sitting's id, a full stop, and its number."""
        return lesson_id(self.sitting, self.lesson.number)


def lesson_id(sitting: str, number: int) -> str:
    """How a lesson is called on the command line and in the files: `20261125-091502-drawknife.1`."""
    return f"{sitting}.{number}"


def lesson_text(text: str) -> str:
    """The text of a lesson as it is kept: `plain`, without blanks around.

    Raises:
        LogbookError: there is nothing in it, or it is too long.
    """
    line = plain(text).strip()
    if not line:
        raise LogbookError("a lesson needs a text")
    if len(line) > LONGEST_LESSON:
        raise LogbookError(f"a lesson is one line of at most {LONGEST_LESSON} characters; this one has {len(line)}")
    return line


def lessons_record(lessons: SittingLessons) -> Record:
    """The lessons of a sitting as a JSON object."""
    return {
        "schema": SCHEMA,
        "written": [lesson_record(lesson) for lesson in lessons.written],
        "said": list(lessons.said),
    } | ({"given": lessons.given} if lessons.given else {})


def lesson_record(lesson: Lesson) -> Record:
    """A lesson as a JSON object; steps are counted from 1."""
    tie = lesson.tie
    return {
        "number": lesson.number,
        "text": lesson.text,
        "kind": None if tie.kind is None else tie.kind.value,
        "step_title": tie.title,
        "steel": tie.steel,
        "plan_title": tie.plan,
        "step": lesson.step + 1,
        "written": lesson.written.isoformat(timespec="seconds"),
        "changed": maybe_stamp(lesson.changed),
        "retired": maybe_stamp(lesson.retired),
    } | {
        key: said if isinstance(said, str) else list(said)
        for key, said in (("put_into", lesson.put_into), ("plan_name", lesson.plan), ("former", lesson.former))
        if said
    }


def lessons_from_record(record: Mapping[str, Any]) -> SittingLessons:
    """The lessons of a sitting from a JSON object that `lessons_record` made.

    Raises:
        NewerFormat: a newer heatbook wrote it.
        ValueError, KeyError, TypeError: it is none.
    """
    check_schema(record, SCHEMA)
    written = tuple(_lesson(item) for item in records_of(record["written"]))
    if len({lesson.number for lesson in written}) < len(written):
        raise ValueError("two lessons have the same number")
    given = count_of(record.get("given", 0), 0, MOST_OF_ALL)
    return SittingLessons(written, tuple(text_of(item) for item in list_of(record["said"])), given)


def check_schema(record: Mapping[str, Any], known: int) -> None:
    """Refuse a part of a sitting's file that this version can't read.

    Raises:
        NewerFormat: a newer heatbook wrote it.
        ValueError, KeyError, TypeError: it has no version.
    """
    if count_of(record_of(record)["schema"], 1, MOST_OF_ALL) > known:
        raise NewerFormat


def _lesson(record: Record) -> Lesson:
    kind = None if record["kind"] is None else StepKind(record["kind"])
    title, steel, plan = (_maybe_text(record[key]) for key in ("step_title", "steel", "plan_title"))
    return Lesson(
        count_of(record["number"], 1, MOST_OF_ALL),
        _line(record["text"]),
        Tie(kind, title, steel, plan),
        step_of(record["step"]),
        check_year(moment_of(record["written"])),
        maybe_moment(record["changed"]),
        maybe_moment(record["retired"]),
        tuple(_plan_name(name) for name in list_of(record.get("put_into", []))),
        _plan_name(record["plan_name"]) if "plan_name" in record else "",
        tuple(_line(one) for one in list_of(record.get("former", []))),
    )


def _line(value: object) -> str:
    text = text_of(value)
    if not 0 < len(text) <= LONGEST_LESSON or plain(text).strip() != text:
        raise ValueError("a lesson is no plain line")
    return text


def _plan_name(value: object) -> str:
    name = text_of(value)
    if not name or plain(name) != name:
        raise ValueError("a lesson names no plan")
    return name


def _maybe_text(value: object) -> str | None:
    return None if value is None else text_of(value)
