"""Putting a lesson into a plan: into which, where in it, what that changes, and then it is written."""

from __future__ import annotations

import asyncio
from collections.abc import Iterable
from string import ascii_lowercase
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.events import Key
from textual.widget import Widget
from textual.widgets import Static

from plans.logbook import Lesson, Logbook, steps_of
from plans.plan import Plan
from plans.record import record
from plans.shown import counted
from plans.text import plain
from tui.screens.host import Host, host_of, says_next
from tui.screens.question import Choice, QuestionScreen
from tui.screens.sheet import ReadingSheet
from tui.widgets import KeyLine

if TYPE_CHECKING:
    from pathlib import Path

    from plans.editing import LinePlace
    from tui.config import LessonEdit, Written

_COPY = "copy"
_NAMED = 5
"""So many steps are named, more are counted."""


@record
class Put:
    """A lesson that was put into a plan, to be taken back."""

    sitting: str
    """Id of the sitting that the lesson is from."""
    lesson: int
    """Its number there."""
    written: Written
    """The plan's file."""

    @property
    def told(self) -> str:
        """Where it stands now, in words."""
        return f"the lesson is in {self.written.file.stem}, on your shelf"


class ChangeSheet(ReadingSheet[bool]):
    """Shows what will change in a plan, and answers whether it is to be written.

    Args:
        title: what is asked
        said: the line that is put there, whole
        lines: what changes, a line each
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("y,enter", "answer(True)", show=False),
        Binding("n,escape,q", "answer(False)", show=False),
    ]
    DEFAULT_CSS = """
    ChangeSheet #sheet { height: auto; max-height: 90%; }
    ChangeSheet #list { height: auto; max-height: 100%; }
    ChangeSheet #title { text-style: bold; margin-bottom: 1; }
    """

    def __init__(self, title: str, said: str, lines: list[str]) -> None:
        super().__init__()
        self._title, self._said, self._lines = title, said, lines

    def heading(self) -> Iterable[Widget]:
        """Make the question."""
        return (Static(Content(plain(self._title)), id="title"),)

    def reading(self) -> Iterable[Widget]:
        """Make the line, and what changes by it."""
        lines = [Content.styled(plain(self._said), "bold $accent"), *(Content(plain(line)) for line in self._lines)]
        return (Static(Content("\n\n").join(lines)),)

    def show_keys(self) -> None:
        """Say the keys at the foot."""
        self.query_one(KeyLine).show([("y", "write it", "answer(True)"), ("n", "leave it", "answer(False)")])

    def on_key(self, event: Key) -> None:
        """What says "next" writes it too."""
        if says_next(host_of(self), event.key):
            event.stop()
            self.dismiss(True)

    def action_answer(self, yes: bool) -> None:
        """Answer, and go away."""
        self.dismiss(yes)


async def put_lesson(host: Host, logbook: Logbook, plan: Plan, sitting: str, lesson: Lesson) -> Put | None:
    """Ask into which plan a lesson goes and where, show what that changes, and write it; only in a worker.

    Args:
        host: asks
        logbook: has the lesson
        plan: whose copy is made, or a copy of which is edited
        sitting: id of the sitting that the lesson is from
        lesson: the lesson

    Returns:
        what was written; None where nothing was

    Raises:
        PlansError: it can't be put there.
        OSError: it can't be written.
    """
    from tui.config import edit_with_lesson, noted, says_in_former_words, take_back, write_edit

    where = await _which_plan(host, plan)
    if where is None:
        return None
    into, file = where
    place = None
    if not says_in_former_words(lesson, into):
        place = await _which_place(host, into, lesson)
        if place is None:
            return None
    edit = await asyncio.to_thread(edit_with_lesson, into, file, lesson, place)
    if not await host.push_screen_wait(_sheet(host, edit, lesson)):
        return None
    own, its = host.folders.plans, (sitting, lesson.number)
    return Put(*its, await asyncio.to_thread(noted, logbook, its, lambda: write_edit(edit, own), take_back, there=True))


async def take_lesson_back(host: Host, logbook: Logbook, put: Put) -> None:
    """Have a plan as it was before a lesson was put into it, and say so.

    Raises:
        PlansError: the plan was changed since, or the log can't be written.
        OSError: it can't be written.
    """
    from tui.config import noted, put_back, take_back

    def taken_back() -> Written:
        take_back(put.written)
        return put.written

    await asyncio.to_thread(noted, logbook, (put.sitting, put.lesson), taken_back, put_back, there=False)
    gone = "is gone again" if put.written.before is None else "is as it was"
    host.say_aside(f"taken back: {put.written.file.stem} {gone}")


async def _which_plan(host: Host, plan: Plan) -> tuple[Plan, Path | None] | None:
    from tui.config import own_copies

    copies = await asyncio.to_thread(own_copies, plan, host.folders.plans)
    if not copies:
        return plan, None
    keys = (letter for letter in ascii_lowercase if letter != "n")
    choices = [
        *(
            Choice(str(number), key, f"{copy.name}, your own: {copy.title}")
            for number, (key, (copy, _)) in enumerate(zip(keys, copies, strict=False))
        ),
        Choice(_COPY, "n", "a new copy of the plan that was followed"),
    ]
    answer = await host.push_screen_wait(QuestionScreen("Into which plan?", choices))
    if answer is None:
        return None
    return (plan, None) if answer == _COPY else copies[int(answer)]


async def _which_place(host: Host, plan: Plan, lesson: Lesson) -> LinePlace | None:
    """Where in the plan; what is usual for such a lesson stands first."""
    from plans.editing import LinePlace
    from tui.config import usual_place

    steps = steps_of(lesson, plan)
    named = ", ".join(str(step + 1) for step in steps)
    of = counted(len(steps), "step") if len(steps) > _NAMED else f"step{'s' if len(steps) > 1 else ''} {named}"
    choices = {
        LinePlace.INSTRUCTION: Choice(LinePlace.INSTRUCTION, "i", f"what to do, at the top: {of}"),
        LinePlace.CHECKLIST: Choice(LinePlace.CHECKLIST, "c", f"the checklist: {of}"),
        LinePlace.CAUTIONS: Choice(LinePlace.CAUTIONS, "a", f"take care: {of}"),
        LinePlace.ABOUT: Choice(LinePlace.ABOUT, "p", "what the plan is about, once for all of it"),
    }
    if not steps:
        return LinePlace.ABOUT
    usual = usual_place(lesson, None)
    if usual is not LinePlace.ABOUT:
        del choices[LinePlace.ABOUT]
    ordered = [choices.pop(usual), *choices.values()]
    answer = await host.push_screen_wait(QuestionScreen("Where shall it stand?", ordered))
    return None if answer is None else LinePlace(answer)


def _sheet(host: Host, edit: LessonEdit, lesson: Lesson) -> ChangeSheet:
    title = f"Write a copy of {edit.plan.name}?" if edit.file is None else f"Change {edit.plan.name}, your own?"
    return ChangeSheet(title, lesson.text, list(edit.differs.lines(host.settings.units)))
