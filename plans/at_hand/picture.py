"""The sections of a plan to scale: what goes into the fire, and what each step makes of it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from plans.drawing import STEELS, Drawing, Measure, Part, cut_across
from plans.plan import Plan
from plans.shapes import Section
from plans.units import Shown

_ALIKE: Final = 0.12
"""Sections of one form whose sides differ by no more than this share are drawn once: to set a weld takes off 1 mm."""
_APART: Final = 0.25
"""Between two of them is this share of the widest side."""
_MOST: Final = 8
"""More of them are too small to be seen beside one another."""


def sections_drawn(plan: Plan) -> Drawing | None:
    """The sections that a plan begins with and comes to at the fire, side by side; None where it names none.

    Args:
        plan: the plan
    """
    found = _sections(plan)[:_MOST]
    if not found:
        return None
    apart = _APART * max(max(section.width, section.thickness) for section, _ in found)
    parts: list[Part] = []
    measures: list[Measure] = []
    left = 0.0
    for section, reached in found:
        right, low = left + section.width, -section.thickness / 2
        name, pattern = ("worked to", STEELS[0]) if reached else ("into the fire", STEELS[1])
        parts.append(cut_across(section, pattern, ((left + right) / 2, 0.0), name))
        measures.append(Measure((left, low), (right, low), _sides(section)))
        left = right + apart
    return Drawing("its sections at the fire, to scale", tuple(parts), tuple(measures))


def _sides(section: Section) -> Shown:
    return lambda units: units.section(section)


def _sections(plan: Plan) -> list[tuple[Section, bool]]:
    """The sections that are drawn, in order, each with whether a step comes to it."""
    drawn: list[tuple[Section, bool]] = []
    for section, reached in _each(plan):
        if not any(_is_like(section, other) for other, _ in drawn):
            drawn.append((section, reached))
    return drawn


def _each(plan: Plan) -> Iterator[tuple[Section, bool]]:
    for step in plan.steps:
        if step.heats_in_fire and step.section is not None:
            yield step.section, False
            if step.reach is not None:
                yield step.reach, True


def _is_like(one: Section, other: Section) -> bool:
    sides = ((one.width, other.width), (one.thickness, other.thickness), (one.edge or 0.0, other.edge or 0.0))
    return one.form is other.form and all(abs(a - b) <= _ALIKE * max(a, b) for a, b in sides)
