"""Pictures to scale of a bar that is squeezed or drawn."""

from __future__ import annotations

from plans.drawing import STEELS, Drawing, Measure, Part, Point, as_typed, box, cut_across, long, sides_of
from plans.press.spread import Squeeze
from plans.shapes import Section


def squeeze_drawn(squeeze: Squeeze, said: str = "") -> Drawing:
    """A bar from the side between its dies, and its section there, before and after.

    Args:
        squeeze: before and after
        said: what it is of, where there are more than one
    """
    bite, before, after = squeeze.bite, squeeze.height, squeeze.height_then
    beyond, die = 0.4 * bite, 0.35 * before
    low = (before - after) / 2
    end = bite + beyond
    side: tuple[Point, ...] = (
        *((-beyond, 0.0), (0.0, 0.0), (0.0, low), (bite, low), (bite, 0.0), (end, 0.0)),
        *((end, before), (bite, before), (bite, before - low), (0.0, before - low), (0.0, before), (-beyond, before)),
    )
    wide = max(squeeze.width, squeeze.width_then)
    middle = end + 0.3 * bite + wide / 2
    parts = (
        Part(box(0.0, low - die, bite, low), STEELS[2], "dies"),
        Part(box(0.0, before - low, bite, before - low + die), STEELS[2], "dies"),
        Part(side, STEELS[0], "bar"),
        Part(_across(middle, squeeze.width, 0.0, before), STEELS[1], "before"),
        Part(_across(middle, squeeze.width_then, low, before - low), STEELS[0], "bar"),
    )
    right = middle + wide / 2
    measures = (
        Measure((0.0, low - die), (bite, low - die), as_typed(bite)),
        Measure((-beyond, 0.0), (-beyond, before), as_typed(before)),
        Measure((right, low), (right, before - low), long(after)),
        Measure(*_level(middle, squeeze.width, before - low + die), long(squeeze.width)),
        Measure(*_level(middle, squeeze.width_then, low - die), long(squeeze.width_then)),
    )
    return Drawing(f"{said}the bar from the side between the dies, and cut across", parts, measures)


def heats_drawn(section: Section, reach: Section) -> Drawing:
    """The section of a bar, and beside it the one that it is drawn to.

    Args:
        section: before
        reach: when it is done
    """
    middle = (0.7 * section.width + reach.width / 2, 0.0)
    parts = (cut_across(section, STEELS[1], name="before"), cut_across(reach, STEELS[0], middle, "after"))
    side, half = -section.width / 2, section.thickness / 2
    left = Measure((side, -half), (side, half), long(section.thickness))
    measures = (sides_of(section)[0], left, *sides_of(reach, middle))
    return Drawing("the bar cut across, before and after", parts, measures)


def _across(middle: float, width: float, bottom: float, top: float) -> tuple[Point, ...]:
    return box(middle - width / 2, bottom, middle + width / 2, top)


def _level(middle: float, width: float, height: float) -> tuple[Point, Point]:
    return (middle - width / 2, height), (middle + width / 2, height)
