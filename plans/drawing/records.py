"""What is drawn to scale: parts of a piece, each in the pattern of its steel, with dimensions and notes."""

from __future__ import annotations

from enum import StrEnum
from typing import Final, NamedTuple

from plans.record import record
from plans.units import Shown

Point = tuple[float, float]
"""A place: to the right and upwards [m]."""


class Pattern(StrEnum):
    """How a part is filled; told apart without colours, and where a part is only a few dots wide."""

    SOLID = "solid"
    """Filled."""
    DOTTED = "dotted"
    """A few dots."""
    HATCHED = "hatched"
    """Lines that rise to the right."""
    COUNTER = "counter"
    """Lines that fall to the right: what is twisted the other way."""
    LINED = "lined"
    """Upright lines."""
    CHECKED = "checked"
    """Every other dot: layers of several steels that are too fine to be drawn."""
    EMPTY = "empty"
    """Its outline alone: what is taken away, or stood there before."""


STEELS: Final = (Pattern.SOLID, Pattern.DOTTED, Pattern.HATCHED, Pattern.LINED)
"""The patterns of steels, in the order in which the steels of a piece take them."""
LAYERS: Final = Pattern.CHECKED
"""The pattern of layers that are too fine to be drawn one by one."""


@record
class Part:
    """A part of a piece, of one steel."""

    outline: tuple[Point, ...]
    """Its corners in order, three or more; the last is joined to the first. It may be hollow, but not cross itself."""
    pattern: Pattern
    """How it is filled."""
    name: Shown = ""
    """What the pattern stands for, once for all parts that share both; empty where that needs no telling."""


@record
class Measure:
    """A dimension: a line between two places beside the parts, with a text.

    It runs level or upright, and is written on that side of the whole that it lies nearer to.
    """

    begin: Point
    """Its left or lower end."""
    end: Point
    """Its right or upper end."""
    shown: Shown
    """What it says: "6 mm"."""

    @property
    def is_level(self) -> bool:
        """Whether it runs across rather than upright."""
        return abs(self.end[0] - self.begin[0]) >= abs(self.end[1] - self.begin[1])

    @property
    def span(self) -> tuple[float, float]:
        """Where it begins and ends along its direction, the lesser first [m]."""
        axis = 0 if self.is_level else 1
        return min(self.begin[axis], self.end[axis]), max(self.begin[axis], self.end[axis])


@record
class Note:
    """A text in the middle of a place."""

    at: Point
    """The place."""
    shown: Shown
    """What it says."""


class Bounds(NamedTuple):
    """The upright rectangle round something [m]."""

    left: float
    """Its left side."""
    bottom: float
    """Its lower side."""
    right: float
    """Its right side."""
    top: float
    """Its upper side."""

    @property
    def width(self) -> float:
        """From left to right [m]."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top [m]."""
        return self.top - self.bottom


@record
class Drawing:
    """A picture to scale: equal lengths are equally long in it, whichever way they run."""

    said: Shown
    """A line that says what is seen."""
    parts: tuple[Part, ...]
    """Its parts, one at least; a later one lies on those before it."""
    measures: tuple[Measure, ...] = ()
    """Its dimensions."""
    notes: tuple[Note, ...] = ()
    """Texts in it."""

    @property
    def bounds(self) -> Bounds:
        """The rectangle round all parts."""
        across = [x for part in self.parts for x, _ in part.outline]
        upward = [y for part in self.parts for _, y in part.outline]
        return Bounds(min(across), min(upward), max(across), max(upward))

    @property
    def named(self) -> tuple[Part, ...]:
        """One part for each pattern and name, in the order of their first: what a legend tells."""
        first: dict[tuple[Pattern, object], Part] = {}
        for part in self.parts:
            if part.name:
                first.setdefault((part.pattern, part.name), part)
        return tuple(first.values())

    def beside(self, *, level: bool, far: bool) -> tuple[Measure, ...]:
        """The dimensions of one side of the whole: of those that run level the lower ones, or far, the upper; of those
        that run upright the left ones, or far, the right."""
        bounds = self.bounds
        middle = bounds.bottom + bounds.top if level else bounds.left + bounds.right
        axis = 1 if level else 0
        return tuple(
            one
            for one in self.measures
            if one.is_level == level and (one.begin[axis] + one.end[axis] > middle + 1e-9) == far
        )


def box(left: float, bottom: float, right: float, top: float) -> tuple[Point, ...]:
    """The outline of an upright rectangle, from its sides [m]."""
    return (left, bottom), (right, bottom), (right, top), (left, top)


def as_typed(metres: float) -> Shown:
    """What a dimension says of a length that was typed or measured [m], with all its decimals: "6.25 mm"."""
    return lambda units: units.exact_length(metres)


def long(metres: float) -> Shown:
    """What a dimension says of a length [m]: "6 mm"."""
    return lambda units: units.length(metres)
