"""A line more in the texts of a plan, such as a lesson, or that line taken out again."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from typing import Any

from plans.editing.changes import checked
from plans.editing.setting import parsed, with_values
from plans.prose import as_prose
from plans.text import paragraphs
from plans.toml import KeyPath


class LinePlace(StrEnum):
    """Where a line comes to stand in a plan; each is the key's name in the file."""

    INSTRUCTION = "instruction"
    """First in the instruction of a step, as a paragraph of its own: it is read before the step begins."""
    CHECKLIST = "checklist"
    """Last of what is checked before the step is left."""
    CAUTIONS = "cautions"
    """Last of the cautions of a step."""
    ABOUT = "about"
    """Last of what the whole plan is about, as a paragraph of its own."""


def with_line(text: str, place: LinePlace, steps: Sequence[int], line: str) -> str:
    """The plan with a line more; a text that has it already stays as it is.

    Args:
        text: of the plan
        place: where it comes to stand
        steps: in which steps, from 0; without meaning for what the plan is about
        line: as it was typed: a brace in it that holds no quantity is written twice

    Raises:
        PlanError: the plan is none, or is none then, as where the line is too long there; it holds every fault.
    """
    said, there = as_prose(line), parsed(checked(text)).values
    values: dict[KeyPath, Any] = {}
    for path, old in _texts(there, place, steps):
        if said not in _lines_of(old, place):
            values[path] = _with(old, place, said)
    return checked(with_values(text, values)) if values else text


def without_line(text: str, line: str) -> str:
    """The plan without a line, wherever it stands by itself: as a paragraph, an item of a checklist, a caution.

    Args:
        text: of the plan
        line: as it was typed

    Raises:
        PlanError: the plan is none, or is written in a way that this can't be done.
    """
    return _instead(text, line, [])


def with_line_instead(text: str, line: str, other: str) -> str:
    """The plan with another line wherever one stands by itself; a text that has the other already only loses the one.

    Args:
        text: of the plan
        line: the one, as it was typed
        other: the other, as it was typed

    Raises:
        PlanError: the plan is none, or is none then, or is written in a way that this can't be done.
    """
    return _instead(text, line, [as_prose(other)])


def _instead(text: str, line: str, others: list[str]) -> str:
    said, there = as_prose(line), parsed(checked(text)).values
    values: dict[KeyPath, Any] = {}
    steps = range(len(there["step"]))
    for place in LinePlace:
        for path, old in _texts(there, place, steps):
            lines = _lines_of(old, place)
            if said in lines:
                instead = [other for other in others if other not in lines]
                first = lines.index(said)
                left = [*lines[:first], *instead, *(one for one in lines[first:] if one != said)]
                values[path] = (left if isinstance(old, list) else "\n\n".join(left)) or None
    return checked(with_values(text, values)) if values else text


def _texts(values: Any, place: LinePlace, steps: Sequence[int]) -> list[tuple[KeyPath, Any]]:
    """Each text that a line may stand in, by its path, as TOML holds it; None where there is none."""
    if place is LinePlace.ABOUT:
        return [((place.value,), values.get(place.value))]
    return [(("step", step, place.value), values["step"][step].get(place.value)) for step in steps]


def _lines_of(old: Any, place: LinePlace) -> list[str]:
    if place in (LinePlace.CHECKLIST, LinePlace.CAUTIONS):
        return [" ".join(str(one).split()) for one in old or []]
    return paragraphs(str(old or ""))


def _with(old: Any, place: LinePlace, line: str) -> Any:
    match place:
        case LinePlace.INSTRUCTION:
            return "\n\n".join(filter(None, (line, str(old or "").strip())))
        case LinePlace.ABOUT:
            return "\n\n".join(filter(None, (str(old or "").strip(), line)))
    return [*(old or []), line]
