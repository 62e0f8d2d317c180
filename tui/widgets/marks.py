"""A row of marks that tells the state by its shape alone."""

from __future__ import annotations

from enum import StrEnum
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget


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


ALARMS = frozenset({Mark.TOO_COLD, Mark.TOO_HOT, Mark.SOAKED_TOO_LONG, Mark.PROBE_LOST})

_PATTERNS: dict[Mark, tuple[str, str]] = {
    # As drawn, all of it in code page 437 and so on a Linux console; and in ASCII.
    Mark.READY: ("·   ", ".   "),
    Mark.FIRE: ("▲ ", "/\\"),
    Mark.SOAK: ("═", "="),
    Mark.STRIKE: ("▼ ", "\\/"),
    Mark.AIR: ("░░░   ", "- "),
    Mark.QUENCH: ("≈≈≈ ", "~~~ "),
    Mark.OVEN: ("▐▒▒▌ ", "[##] "),
    Mark.DIP: ("↓≈↑≈", "v~^~"),
    Mark.BENCH: ("┬──┬  ", "T--T  "),
    Mark.PAUSED: ("▌▌    ", "||    "),
    Mark.FINISHED: ("▀▄", "#_"),
    Mark.SOAK_DONE: ("══► ", "==> "),
    Mark.TIME_UP: ("▐► ", "|> "),
    Mark.TOO_COLD: ("▄▄ ▀▀  ", '__ ""  '),
    Mark.TOO_HOT: ("▲█", "/#\\"),
    Mark.SOAKED_TOO_LONG: ("════█", "====#"),
    Mark.PROBE_LOST: ("──┤?├", "--(?)"),
    Mark.PROBE_BACK: ("──┼┼─", "--++-"),
}


def mark_line(mark: Mark, width: int, *, blocks: bool = False) -> str:
    """The row of marks for a state, `width` cells of width one; with `blocks` in plain ASCII."""
    pattern = _PATTERNS[mark][blocks]
    return (pattern * (width // len(pattern) + 1))[:width]


class MarkRow(Widget):
    """The marks across the whole width, once a row. It moves only when `blink_on` is toggled from outside."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"marks--alarm"}
    DEFAULT_CSS = """
    MarkRow { height: 1; color: $foreground; }
    MarkRow > .marks--alarm { color: $error; text-style: bold; }
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

    def render_line(self, y: int) -> Strip:
        del y
        style = self.rich_style
        if self.mark in ALARMS:
            style = self.get_component_rich_style("marks--alarm")
            if not self.blink_on:
                style += Style(reverse=True)
        line = mark_line(self.mark, self.size.width, blocks=self._blocks)
        return Strip([Segment(line, style)], len(line))
