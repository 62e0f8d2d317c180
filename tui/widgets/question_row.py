"""The questions by groups, in two rows: the groups, and below them the questions of the one that is looked at."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import ClassVar

from rich.segment import Segment
from textual import events
from textual.message import Message
from textual.strip import Strip

from tui.widgets.cached_drawing import CachedDrawing, Shown

_APART = 3
"""Cells between two names, where there is room for so many."""


def columns(names: Sequence[str], chosen: int, width: int) -> dict[int, int]:
    """Where names begin that stand side by side in a row of this width, each with a cell before and behind it.

    Where there is no room for all, those around the chosen one are there.

    Returns:
        columns by the places of the names
    """
    apart = max(1, min(_APART, (width - 2 - sum(map(len, names))) // max(1, len(names) - 1)))
    begins, end = [], 1
    for name in names:
        begins.append(end)
        end += len(name) + apart
    left = begins[chosen] + (len(names[chosen]) - width) // 2
    left = max(0, min(left, end - apart + 1 - width))
    shown = {place: begin - left for place, begin in enumerate(begins)}
    inside = {place: begin for place, begin in shown.items() if 0 < begin < width - len(names[place])}
    return inside or {chosen: 1}


def written(names: Sequence[str], chosen: int, width: int) -> str:
    """The names in a row of this width; a mark at an end says that there are more that way."""
    begins, cells = columns(names, chosen, width), [" "] * width
    if min(begins) > 0:
        cells[0] = "‹"
    if max(begins) < len(names) - 1:
        cells[-1] = "›"
    for place, begin in begins.items():
        cells[begin : begin + len(names[place])] = names[place]
    return "".join(cells)


class QuestionRow(CachedDrawing, can_focus=True):
    """Names to choose one from.

    Args:
        groups: the names by group, one of them at least in each
    """

    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {"row--other", "row--group", "row--chosen"}
    DEFAULT_CSS = """
    QuestionRow { height: 2; width: 1fr; }
    QuestionRow > .row--other { color: $text-muted; }
    QuestionRow > .row--group, QuestionRow > .row--chosen { color: $accent; text-style: bold underline; }
    QuestionRow:focus > .row--chosen { text-style: bold reverse; }
    """

    chosen: Shown[str] = Shown("")

    class Turned(Message):
        """A name was clicked."""

        def __init__(self, name: str) -> None:
            super().__init__()
            self.name = name

    def __init__(self, groups: Mapping[str, Sequence[str]]) -> None:
        super().__init__()
        self._groups = [(f"{key} {group}", tuple(names)) for key, (group, names) in enumerate(groups.items(), start=1)]
        self._names = [name for names in groups.values() for name in names]
        self.chosen = self._names[0]

    @property
    def groups(self) -> int:
        """How many groups there are."""
        return len(self._groups)

    def beside(self, steps: int) -> str:
        """The name so many steps to the right, on into the next group, and from the last to the first."""
        return self._names[(self._names.index(self.chosen) + steps) % len(self._names)]

    def first_of(self, group: int) -> str:
        """The first name of a group, counted from 1; the chosen name where there is no such group."""
        return self._groups[group - 1][1][0] if group <= len(self._groups) else self.chosen

    @property
    def _rows(self) -> list[tuple[Sequence[str], int, str]]:
        """What stands in both rows, which of it is chosen, and how that is written."""
        group = next(place for place, (_, names) in enumerate(self._groups) if self.chosen in names)
        names = self._groups[group][1]
        return [
            ([name for name, _ in self._groups], group, "row--group"),
            (names, names.index(self.chosen), "row--chosen"),
        ]

    def draw(self, width: int, height: int) -> list[Strip]:
        drawn = [self._drawn(*row, width) for row in self._rows]
        return [*drawn, *[Strip.blank(width, self.look())] * height][:height]

    def _drawn(self, names: Sequence[str], chosen: int, look: str, width: int) -> Strip:
        line, begin = written(names, chosen, width), columns(names, chosen, width)[chosen] - 1
        end = begin + len(names[chosen]) + 2
        other = self.look("row--other")
        parts = (Segment(line[:begin], other), Segment(line[begin:end], self.look(look)), Segment(line[end:], other))
        return Strip([part for part in parts if part.text]).crop(0, width)

    def on_click(self, event: events.Click) -> None:
        if not 0 <= event.y < 2:
            return
        names, chosen, _ = self._rows[event.y]
        for place, begin in columns(names, chosen, self.size.width).items():
            if begin - 1 <= event.x <= begin + len(names[place]):
                self.post_message(self.Turned(self.first_of(place + 1) if event.y == 0 else names[place]))
                break
