"""A row of marks that tells the state by its shape alone."""

from __future__ import annotations

from enum import StrEnum
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual.reactive import reactive
from textual.strip import Strip

from tui.widgets.cached_drawing import CachedDrawing


class Mark(StrEnum):
    """What a row can say; the values are those of the phases and of the calls."""

    READY = "ready"
    FIRE = "fire"
    SOAK = "soak"
    STRIKE = "strike"
    AIR = "air"
    QUENCH = "quench"
    OVEN = "oven"
    DIP = "dip"
    BENCH = "bench"
    PAUSED = "paused"
    FINISHED = "finished"
    SOAK_DONE = "soak done"
    TIME_UP = "time up"
    TOO_COLD = "too cold"
    TOO_HOT = "too hot"
    SOAKED_TOO_LONG = "soaked too long"
    PROBE_LOST = "probe lost"
    PROBE_BACK = "probe back"
    AT_HEAT = "at heat"
    COLD_ENOUGH = "cold enough"
    TEMPER_LATE = "temper late"
    QUENCH_LATE = "quench late"
    PEAK_MISSED = "peak missed"
    ARREST = "arrest seen"
    FIRE_FELL = "fire fell"


ALARMS = frozenset({Mark.TOO_COLD, Mark.TOO_HOT, Mark.SOAKED_TOO_LONG, Mark.TEMPER_LATE, Mark.PROBE_LOST})

_HALVES = ("▀█", "▄█")
"""Cells whose upper half, and cells whose lower half, is inked."""
_CELLS = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}
_PATTERNS: dict[Mark, tuple[str, str]] = {
    # In half blocks, which every terminal has, the Linux console too; and in ASCII.
    Mark.READY: ("▄       ", ".       "),
    Mark.FIRE: ("▄█▄ ", "/\\ "),
    Mark.SOAK: ("▄", "="),
    Mark.STRIKE: ("▀█▀ ", "\\/ "),
    Mark.AIR: ("▀   ▄   ", "'   .   "),
    Mark.QUENCH: ("▀▀▄▄", "~"),
    Mark.OVEN: ("████    ", "[##]    "),
    Mark.DIP: ("█▄▄▄▄█  ", "|____|  "),
    Mark.BENCH: ("▀█▀▀▀█▀  ", "TT---TT  "),
    Mark.PAUSED: ("█ █         ", "| |         "),
    Mark.FINISHED: ("▀▄", "#-"),
    Mark.SOAK_DONE: ("▄▄▄▄▄▄ ▀█▀ ", "====== \\/ "),
    Mark.TIME_UP: ("█ ▄ ▄ ▄ ", "| . . . "),
    Mark.TOO_COLD: ("▀▀▀▀▀ ▄▄▄▄▄   ", "----- _____   "),
    Mark.TOO_HOT: ("▄█", "/^"),
    Mark.SOAKED_TOO_LONG: ("▄▄▄▄▄▄██", "======##"),
    Mark.PROBE_LOST: ("▄▄▄▄   ▀   ", "----   ?   "),
    Mark.PROBE_BACK: ("▄▄▄▄███", "----+++"),
    Mark.AT_HEAT: ("▄█▄ ▄█▄ █████ ", "/\\ /\\ ##### "),
    Mark.COLD_ENOUGH: ("▀▀▀   ███   ", "'''   |||   "),
    Mark.TEMPER_LATE: ("████ ▀▄▀▄ ", "[##] /\\/\\ "),
    Mark.QUENCH_LATE: ("▀▀▄▄ █ ", "~~~~ | "),
    Mark.PEAK_MISSED: ("▄█▄   ▀▀▀   ", "/\\   ---   "),
    Mark.ARREST: ("▀▀▀▄▄▄▄▄▄▀▀▀", "\\------\\   "),
    Mark.FIRE_FELL: ("▄█▄ ▀ ▀ ", "/\\ v v "),
}


def mark_lines(mark: Mark, width: int, height: int = 1, *, blocks: bool = False) -> list[str]:
    """The rows of marks for a state: `height` lines of `width` cells, the pattern as much larger as the rows are more.

    With `blocks` in plain ASCII, the same line on each row.
    """
    pattern = _PATTERNS[mark][blocks]
    if blocks:
        return [(pattern * (width // len(pattern) + 1))[:width]] * height
    if not height:
        return []
    stretched = "".join(cell * height for cell in pattern)
    whole = (stretched * (width // len(stretched) + 1))[:width]
    return [
        "".join(_CELLS[cell in _HALVES[2 * row // height], cell in _HALVES[(2 * row + 1) // height]] for cell in whole)
        for row in range(height)
    ]


class MarkRow(CachedDrawing):
    """The marks across the whole width, as tall as the widget. Nothing moves but what `blink_on` toggles."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"marks--alarm"}
    DEFAULT_CSS = """
    MarkRow { height: 1; color: $foreground; }
    MarkRow > .marks--alarm { color: $error; text-style: bold; }
    MarkRow:nocolor > .marks--alarm { color: $foreground; }
    """

    mark: reactive[Mark] = reactive(Mark.READY)
    blink_on: reactive[bool] = reactive(True)
    """Off, an alarm's marks are drawn in reverse; other states do not blink."""

    def __init__(
        self,
        mark: Mark = Mark.READY,
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
        style = self.rich_style
        if self.mark in ALARMS:
            style = self.get_component_rich_style("marks--alarm")
            if not self.blink_on:
                style += Style(reverse=True)
        lines = mark_lines(self.mark, width, height, blocks=self._blocks)
        return [Strip([Segment(line, style)], width) for line in lines]
