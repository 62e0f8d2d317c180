"""Sections as they are drawn: seen along the bar, lying as they are named, with both sides."""

from __future__ import annotations

from plans.drawing.records import Measure, Part, Pattern, Point, long
from plans.shapes import Section
from plans.units import Shown

_WITHIN = 2e-5
"""How far a drawn corner may lie from an arc [m]."""


def cut_across(section: Section, pattern: Pattern, middle: Point = (0.0, 0.0), name: Shown = "") -> Part:
    """A section as a part of a drawing.

    Args:
        section: what is drawn
        pattern: of its steel
        middle: where the middle of its sides lies [m]
        name: what the pattern stands for
    """
    left, up = middle[0] - section.width / 2, middle[1]
    return Part(tuple((left + x, up + y) for x, y in section.outline.points(_WITHIN)), pattern, name)


def sides_of(section: Section, middle: Point = (0.0, 0.0)) -> tuple[Measure, Measure]:
    """The dimensions of a section: its width below it, its thickness to its right.

    Args:
        section: what is drawn
        middle: where the middle of its sides lies [m]
    """
    left, right = middle[0] - section.width / 2, middle[0] + section.width / 2
    low, high = middle[1] - section.thickness / 2, middle[1] + section.thickness / 2
    return (
        Measure((left, low), (right, low), long(section.width)),
        Measure((right, low), (right, high), long(section.thickness)),
    )
