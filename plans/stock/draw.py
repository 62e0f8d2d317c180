"""Drawing out by constant volume: what was gone to scale is gone, and the rest has another section and length."""

from __future__ import annotations

from plans.shapes import Section


def drawn_length(section: Section, length: float, to: Section, left: float = 1.0) -> float:
    """Length that a bar comes to when it is drawn to a section, by constant volume [m].

    Args:
        section: of the bar
        length: of the bar [m]
        to: the section that it is drawn to
        left: share of the steel that is left, from 0 to 1
    """
    return section.area * length * left / to.area
