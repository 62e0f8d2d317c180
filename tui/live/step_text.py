"""What there is to read about a step: instruction, checklist, cautions, and where it stands in the plan."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from textwrap import wrap

from textual.content import Content

from plans.phase import PhaseKind
from plans.plan import Step
from plans.prose import in_units
from plans.sitting import Sitting, for_step
from plans.text import paragraphs, plain
from plans.units import Units
from tui.widgets import StepLine

BEFORE_GOING_ON = "Before you go on"
"""The heading above a checklist."""
_LESSON = "lesson: "
"""Stands before each lesson that has no heading."""


def instruction_text(
    step: Step, width: int, units: Units, lessons: Sequence[str] = (), ticked: Collection[int] = ()
) -> Content:
    """The lessons of earlier sittings, instruction and checklist, one after the other, for little room."""
    learned = [line.stylize("bold") for line in _wrapped(lessons, width, Units.METRIC, _LESSON)]
    return Content("\n").join([*learned, *_instruction(step, width, units), *_ticks(step, width, units, ticked)])


def side_text(
    step: Step, width: int, units: Units, lessons: Sequence[str] = (), ticked: Collection[int] = ()
) -> Content:
    """The lessons of earlier sittings, instruction, checklist and cautions, each under its heading."""
    cautions = [caution.text for caution in for_step(step)]
    parts = [
        *_part("Learned before", _wrapped(lessons, width, Units.METRIC, "· ")),
        *_part("What to do", _instruction(step, width, units)),
        *_part(BEFORE_GOING_ON, _ticks(step, width, units, ticked)),
        *_part("Take care", _wrapped(cautions, width, units, "· ")),
    ]
    return Content("\n").join(parts[:-1])


def _instruction(step: Step, width: int, units: Units) -> list[Content]:
    return _wrapped(paragraphs(step.instruction), width, units)


def _ticks(step: Step, width: int, units: Units, ticked: Collection[int]) -> list[Content]:
    lines: list[Content] = []
    for item, text in enumerate(step.checklist):
        lines += _wrapped([text], width, units, f"{box(item in ticked)} ")
    return lines


def box(ticked: bool) -> str:
    """The sign before an item of a checklist."""
    return "■" if ticked else "□"


def items_ticked(sitting: Sitting) -> frozenset[int]:
    """The items, from 0, that are ticked of the checklist of the step at hand."""
    state = sitting.state
    return frozenset(one.item for one in state.ticked if one.step == state.step)


def _wrapped(texts: Iterable[str], width: int, units: Units, sign: str = "") -> list[Content]:
    """Lines of at most `width` characters, each text with a sign before it and its other lines set in under it."""
    lines: list[Content] = []
    for text in texts:
        wrapped = wrap(plain(in_units(text, units)), max(10, width - len(sign))) or [""]
        lines.append(Content.assemble((sign, "$accent"), wrapped[0]))
        lines += [Content(" " * len(sign) + line) for line in wrapped[1:]]
    return lines


def _part(heading: str, lines: list[Content]) -> list[Content]:
    return [Content.styled(heading, "bold $accent"), *lines, Content("")] if lines else []


def step_list(sitting: Sitting, units: Units) -> tuple[list[StepLine], int, bool]:
    """The steps of the plan as a list shows them, the current one, and whether a heat of it is under way."""
    state = sitting.state
    lines = []
    for number, step in enumerate(sitting.plan.steps):
        planned = sitting.heats_planned(number)
        done = planned if number < state.step else state.heat - 1 if number == state.step else 0
        lines.append(StepLine(in_units(step.title, units), done, planned))
    if state.finished:
        # Whoever finishes early has not done what comes after.
        return lines, len(lines) if state.step + 1 == len(lines) else state.step, False
    return lines, state.step, state.phase is not PhaseKind.READY
