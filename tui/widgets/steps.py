"""The list of steps: what is done, what is going on, what comes next."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from rich.segment import Segment
from textual.strip import Strip

from plans.record import record
from plans.text import plain
from tui.widgets.cached_drawing import CachedDrawing, Shown
from tui.widgets.plain import fill
from tui.widgets.tally import tally_text

_SIGNS = {"done": "√", "current": "►", "next": "·", "later": " "}
_ASCII_SIGNS = {"done": "x", "current": ">", "next": "-", "later": " "}
_TALLY_FROM = 26
"""Narrower lists keep the room for the title."""


@record
class StepLine:
    """One step as the list shows it."""

    title: str
    """The step's title, as its plan has it."""
    done: int = 0
    """How many of its heats are finished."""
    planned: int = 1
    """How many heats are planned, those that are finished included."""


def step_lines(
    steps: Sequence[StepLine], current: int, width: int, height: int, *, working: bool = True, blocks: bool = False
) -> list[tuple[str, str]]:
    """The steps around the current one, `height` lines of `width` cells, each with its state.

    Args:
        steps: all steps of the plan
        current: index of the step that is going on; `len(steps)` when all are done
        working: whether a heat of the current step is under way
        blocks: plain ASCII

    Returns:
        text and state of each line: `done`, `current`, `next`, `later`, or `empty` below the last step.
    """
    signs = _ASCII_SIGNS if blocks else _SIGNS
    first = max(0, min(current - height // 3, len(steps) - height))
    digits = len(str(len(steps)))
    lines = []
    for index, step in enumerate(steps[first : first + height], start=first):
        state = "done" if index < current else "current" if index == current else "later"
        state = "next" if index == current + 1 else state
        tally = ""
        if width >= _TALLY_FROM:
            under_way = working and state == "current"
            tally = tally_text(step.done, step.planned, under_way, width=width // 3, blocks=blocks).plain
        head = f"{signs[state]} {index + 1:>{digits}} "
        room = max(0, width - len(head) - len(tally) - bool(tally))
        lines.append((fill(head + fill(plain(step.title), room) + (f" {tally}" if tally else ""), width), state))
    lines += [(" " * width, "empty")] * (height - len(lines))
    return lines


class StepList(CachedDrawing):
    """The list as a widget; it follows the current step."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "steps--done",
        "steps--current",
        "steps--next",
        "steps--later",
        "steps--empty",
    }
    DEFAULT_CSS = """
    StepList { width: 1fr; height: 1fr; }
    StepList > .steps--done { color: $text-muted; }
    StepList > .steps--current { text-style: bold; }
    StepList > .steps--later { color: $text-muted; }
    """

    steps: Shown[tuple[StepLine, ...]] = Shown(())
    current: Shown[int] = Shown(0)
    working: Shown[bool] = Shown(False)

    def __init__(
        self, *, blocks: bool = False, name: str | None = None, id: str | None = None, classes: str | None = None
    ) -> None:
        super().__init__(name=name, id=id, classes=classes)
        self._blocks = blocks

    def show(self, steps: Sequence[StepLine], current: int, working: bool = False) -> None:
        """Show the steps; `current` is an index, `working` whether a heat of it is under way."""
        self.steps, self.current, self.working = tuple(steps), current, working

    def draw(self, width: int, height: int) -> list[Strip]:
        lines = step_lines(self.steps, self.current, width, height, working=self.working, blocks=self._blocks)
        return [Strip([Segment(text, self.look(f"steps--{state}"))], width) for text, state in lines]
