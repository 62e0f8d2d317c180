"""The lessons of earlier sittings on the step at hand: all of them on a sheet, the first in a line while it runs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from string import ascii_lowercase
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from plans.errors import PlansError
from plans.logbook import Logbook, Recalled
from plans.logbook.lines import recalled_line, said_line
from plans.plan import Plan
from plans.prose import in_units
from plans.text import plain
from tui.screens import Choice, Host, QuestionScreen, Sheet, host_of, logbook_of
from tui.widgets import KeyLine

NONE = "no lesson of an earlier sitting beside what the plan itself says"
"""What is said where there are none."""
_FEW = 2
"""Lessons that are read above an instruction on a small screen."""


class LessonSheet(Sheet):
    """Goes away by any of the keys that one would try.

    Args:
        lessons: those of the step at hand, at least one
        plan: that is followed, of which a copy can be made with a lesson in it
        rehearsal: whether the sitting, and what its lessons are from, is a rehearsal
    """

    BINDINGS: ClassVar[list[BindingType]] = [Binding("w", "put", show=False)]

    OPENED_BY = "lessons"
    LEAVES = "back to the sitting"
    DEFAULT_CSS = """
    LessonSheet #sheet { max-width: 96; height: auto; max-height: 90%; }
    LessonSheet #list { height: auto; }
    """

    def __init__(self, lessons: Sequence[Recalled], plan: Plan, rehearsal: bool) -> None:
        super().__init__()
        self._lessons, self._plan, self._rehearsal = lessons, plan, rehearsal

    def show_keys(self) -> None:
        """Say the keys at the foot."""
        super().show_keys()
        line = self.query_one(KeyLine)
        line.show([*line.keys, ("w", "put into the plan", "put")])

    def action_put(self) -> None:
        """Go back to the sitting, and put a lesson into a plan, for the next one."""
        host = host_of(self)
        logbook = logbook_of(host, self._rehearsal)
        self.app.run_worker(_put(host, logbook, self._plan, self._lessons))
        self.dismiss(None)

    def reading(self) -> Iterable[Widget]:
        """Make the lessons, each with what it belongs to and where it comes from."""
        units = host_of(self).settings.units
        lines = [Content.styled("What earlier sittings taught", "bold $accent")]
        for one in self._lessons:
            about = in_units(one.lesson.tie.about, units)
            told = f"{about}; {one.lesson.written:%Y-%m-%d}, {said_line(one)}; {one.id}"
            lines += [Content(""), Content.styled(plain(one.lesson.text), "bold")]
            lines.append(Content.styled(plain(told), "$text-muted"))
        return (Static(Content("\n").join(lines)),)


async def _put(host: Host, logbook: Logbook, plan: Plan, lessons: Sequence[Recalled]) -> None:
    """Ask which lesson, where there are several, and put it into a plan."""
    from tui.screens import put_lesson

    one = lessons[0]
    if len(lessons) > 1:
        choices = [
            Choice(str(number), key, each.lesson.text)
            for number, (key, each) in enumerate(zip(ascii_lowercase, lessons, strict=False))
        ]
        answer = await host.push_screen_wait(QuestionScreen("Which lesson goes into the plan?", choices))
        if answer is None:
            return
        one = lessons[int(answer)]
    try:
        put = await put_lesson(host, logbook, plan, one.sitting, one.lesson)
    except (PlansError, OSError) as error:
        host.say_aside(f"not put into the plan: {error}", wrong=True)
    else:
        if put is not None:
            host.say_aside(f"{put.told}, for the next sitting")


def for_little_room(lessons: Sequence[Recalled], key: str) -> list[str]:
    """The first lessons, and which key shows the others: the instruction below them needs room as well."""
    lines = [recalled_line(one) for one in lessons[:_FEW]]
    return [*lines, f"{len(lessons) - _FEW} more: {key}"] if len(lessons) > _FEW else lines


def lesson_line(lessons: Sequence[Recalled], key: str) -> str:
    """The lesson that stands on one line, and which key shows the others; empty where there is none."""
    if not lessons:
        return ""
    more = f"; {key}: {len(lessons) - 1} more" if len(lessons) > 1 else ""
    return f"lesson: {plain(recalled_line(lessons[0]))}{more}"
