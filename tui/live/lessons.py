"""The lessons of earlier sittings on the step at hand: all of them on a sheet, the first in a line while it runs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from plans.logbook import Recalled
from plans.logbook.lines import recalled_line, said_line
from plans.prose import in_units
from plans.text import plain
from tui.screens import Sheet, host_of

NONE = "no lesson of an earlier sitting belongs to this step"
"""What is said where there are none."""
_FEW = 2
"""Lessons that are read above an instruction on a small screen."""


class LessonSheet(Sheet):
    """Goes away by any of the keys that one would try.

    Args:
        lessons: those of the step at hand, at least one
    """

    OPENED_BY = "lessons"
    LEAVES = "back to the sitting"
    DEFAULT_CSS = """
    LessonSheet #sheet { max-width: 96; height: auto; max-height: 90%; }
    LessonSheet #list { height: auto; }
    """

    def __init__(self, lessons: Sequence[Recalled]) -> None:
        super().__init__()
        self._lessons = lessons

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
