"""A row of marks that tells the state by its shape alone."""

from __future__ import annotations

from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

from plans.phase import PhaseKind
from plans.record import record
from plans.sitting import Call
from tui.widgets.cached_drawing import CachedDrawing, Shown
from tui.widgets.painting import cells_of


@record
class Mark:
    """The pattern of a row, repeated over its width."""

    blocks: str
    """In half blocks, which every terminal has, the Linux console too."""
    ascii: str
    """In plain ASCII."""
    alarm: bool = False
    """Whether it is drawn as an alarm, which blinks."""


PAUSED = Mark("█ █         ", "| |         ")
"""The smith has said pause."""
FINISHED = Mark("▀▄", "#-")
"""The sitting is over."""


def phase_mark(kind: PhaseKind) -> Mark:
    """The mark of a phase."""
    return Mark(*kind.row.marks)


def call_mark(call: Call) -> Mark:
    """The mark of a call."""
    return Mark(*call.row.marks, alarm=bool(call.row.rank))


_HALVES = ("▀█", "▄█")
"""Cells whose upper half, and cells whose lower half, is inked."""


def mark_lines(mark: Mark, width: int, height: int = 1, *, blocks: bool = False) -> list[str]:
    """The rows of marks for a state: `height` lines of `width` cells, the pattern as much larger as the rows are more.

    With `blocks` in plain ASCII, the same line on each row.
    """
    pattern = mark.ascii if blocks else mark.blocks
    if blocks:
        return [(pattern * (width // len(pattern) + 1))[:width]] * height
    if not height:
        return []
    stretched = "".join(cell * height for cell in pattern)
    whole = (stretched * (width // len(stretched) + 1))[:width]
    return list(cells_of([[cell in _HALVES[dot // height] for cell in whole] for dot in range(2 * height)]))


class MarkRow(CachedDrawing):
    """The marks across the whole width, as tall as the widget. Nothing moves but what `blink_on` toggles."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"marks--alarm"}
    DEFAULT_CSS = """
    MarkRow { height: 1; color: $foreground; }
    MarkRow > .marks--alarm { color: $error; text-style: bold; }
    MarkRow:nocolor > .marks--alarm { color: $foreground; }
    """

    mark: Shown[Mark] = Shown(phase_mark(PhaseKind.READY))
    blink_on: Shown[bool] = Shown(True)
    """Off, an alarm's marks are drawn in reverse; other states do not blink."""

    def __init__(
        self,
        mark: Mark = phase_mark(PhaseKind.READY),  # noqa: B008 - frozen
        *,
        blocks: bool = False,
        name: str | None = None,
        id: str | None = None,
        classes: str | None = None,
    ) -> None:
        super().__init__(name=name, id=id, classes=classes)
        self._blocks = blocks
        self.set_reactive(MarkRow.mark, mark)

    def draw(self, width: int, height: int) -> list[Strip]:
        style = self.look()
        if self.mark.alarm:
            style = self.look("marks--alarm")
            if not self.blink_on:
                style += Style(reverse=True)
        lines = mark_lines(self.mark, width, height, blocks=self._blocks)
        return [Strip([Segment(line, style)], width) for line in lines]
