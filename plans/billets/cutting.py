"""Cutting an outline along a straight line."""

from __future__ import annotations

from collections.abc import Sequence

from plans.drawing import Point


def left_of(outline: Sequence[Point], through: Point, towards: Point) -> tuple[Point, ...]:
    """What of an outline without hollows lies left of a line, as one looks along it; empty where nothing does.

    Sutherland and Hodgman's way: corner by corner, with a new corner wherever the line is crossed.

    Args:
        outline: its corners in order
        through: a place on the line
        towards: the direction of the line
    """

    def side(point: Point) -> float:
        return towards[0] * (point[1] - through[1]) - towards[1] * (point[0] - through[0])

    found: list[Point] = []
    for here, following in zip(outline, [*outline[1:], outline[0]], strict=True):
        one, other = side(here), side(following)
        if one >= 0:
            found.append(here)
        if one * other < 0:
            share = one / (one - other)
            found.append((here[0] + share * (following[0] - here[0]), here[1] + share * (following[1] - here[1])))
    return tuple(found) if len(found) > 2 else ()


def between(outline: Sequence[Point], low: float, high: float, lean: float = 0.0) -> tuple[Point, ...]:
    """What of an outline without hollows lies between two upright or leaning lines; empty where nothing does.

    Args:
        outline: its corners in order
        low: where the left line crosses the level of 0 [m]
        high: where the right line does [m]
        lean: by how much both lean to the right, each metre further up
    """
    right_of_low = left_of(outline, (low, 0.0), (-lean, -1.0))
    return left_of(right_of_low, (high, 0.0), (lean, 1.0)) if right_of_low else ()
