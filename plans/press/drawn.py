"""Pictures to scale of a bar that is squeezed or drawn."""

from __future__ import annotations

from math import sqrt

from plans.drawing import STEELS, Drawing, Measure, Part, Point, box
from plans.press.spread import Squeeze
from plans.shapes import Section
from plans.units import Shown


def _length(metres: float) -> Shown:
    return lambda units: units.length(metres)


def squeeze_drawn(squeeze: Squeeze) -> Drawing:
    """A bar from the side between its dies, and its section there, before and after.

    Args:
        squeeze: before and after
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
        Measure((0.0, low - die), (bite, low - die), _length(bite)),
        Measure((-beyond, 0.0), (-beyond, before), _length(before)),
        Measure((right, low), (right, before - low), _length(after)),
        Measure(*_level(middle, squeeze.width, before - low + die), _length(squeeze.width)),
        Measure(*_level(middle, squeeze.width_then, low - die), _length(squeeze.width_then)),
    )
    return Drawing("the bar from the side between the dies, and cut across", parts, measures)


def heats_drawn(section: Section, reach: Section) -> Drawing:
    """The section of a bar, and beside it the one that it is drawn to.

    Args:
        section: before
        reach: when it is done
    """
    apart = 0.7 * section.width + reach.width / 2
    parts = (
        Part(_outline(section, 0.0), STEELS[1], "before"),
        Part(_outline(reach, apart), STEELS[0], "after"),
    )
    low = -max(section.thickness, reach.thickness) / 2
    measures = (
        *(Measure(*_level(at, one.width, low), _length(one.width)) for one, at in ((section, 0.0), (reach, apart))),
        _upright(-section.width / 2, section.thickness),
        _upright(apart + reach.width / 2, reach.thickness),
    )
    return Drawing("the bar cut across, before and after", parts, measures)


def _upright(at: float, thickness: float) -> Measure:
    return Measure((at, -thickness / 2), (at, thickness / 2), _length(thickness))


def _outline(section: Section, middle: float) -> tuple[Point, ...]:
    """The corners of a section that lies with its middle at so much to the right."""
    count = 24

    def half(share: float) -> float:
        if section.is_round:
            return section.width * sqrt(max(share - share**2, 0.0))
        return section.thickness_at(share) / 2

    upper = [(middle + (place / count - 0.5) * section.width, half(place / count)) for place in range(count + 1)]
    return (*upper, *((x, -y) for x, y in reversed(upper)))


def _across(middle: float, width: float, bottom: float, top: float) -> tuple[Point, ...]:
    return box(middle - width / 2, bottom, middle + width / 2, top)


def _level(middle: float, width: float, height: float) -> tuple[Point, Point]:
    return (middle - width / 2, height), (middle + width / 2, height)
