"""Which bar to start from: what the rack has, or else a common size."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from plans.maker.marking import worked_to
from plans.maker.why import Chosen, Why, practice
from plans.record import record
from plans.shapes import Section
from plans.steel import same_steel
from plans.stock import RackBar
from plans.units import INCH, Units

_MILLIMETRES: Final = (3, 4, 5, 6, 8, 10, 12, 15, 16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 120, 150, 200)
_SIXTEENTHS: Final = (2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 20, 24, 28, 32, 40, 48, 56, 64, 80, 96, 128)
"""Sides of bars that are mostly sold, in mm and in sixteenths of an inch: common practice, no source."""


@record
class Sizes:
    """The bars that there are to choose from.

    Attributes of it are given once; every building asks it for bars.
    """

    units: Units
    """The units in which bars are bought."""
    rack: Sequence[RackBar] = ()
    """The bars that one has; where one of the steel will do, it is taken."""

    def side(self, least: float) -> float:
        """The smallest common side of a bar that is no smaller than this [m]; as it is, where none is so large."""
        inches = self.units is Units.INCH
        steps = (one * INCH / 16 for one in _SIXTEENTHS) if inches else (one / 1000 for one in _MILLIMETRES)
        return next((one for one in steps if one >= least * (1 - 1e-9)), least)

    def bar(self, steel: str, least: Section, fits: Callable[[Section], bool], said: str) -> Chosen[Section]:
        """A bar of a steel: the smallest of the rack that fits, or a common size.

        Args:
            steel: its grade
            least: the smallest that will do
            fits: whether a bar of the rack will do
            said: what it is chosen for, for the smith
        """
        have = [one.section for one in self.rack if same_steel(one.steel, steel) and fits(one.section)]
        if have:
            smallest = min(have, key=lambda section: section.area)
            return Chosen(smallest, Why("asked", f"from the rack: the smallest of this steel that will do; {said}"))
        sides = self.side(least.width), self.side(least.thickness)
        return Chosen(Section(max(sides), min(sides)), practice(f"a common size; {said}"))

    def worked(self, one: float, other: float) -> Section:
        """A flat section as the work is forged to it, of sides that calipers are set to [m]."""
        return worked_to(one, other, self.units)

    def up(self, length: float) -> float:
        """A length rounded up to one that is cut: whole millimetres, or sixteenths of an inch [m]."""
        step = INCH / 16 if self.units is Units.INCH else 1e-3
        return -(-(length - 1e-9) // step) * step
