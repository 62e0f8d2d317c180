"""The cross-section of a bar."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi


@dataclass(frozen=True, slots=True)
class Section:
    """A rectangular or round cross-section; the thickness is never the larger side."""

    width: float
    """Larger side of the section, or the diameter of a round bar [m]."""
    thickness: float
    """Smaller side of the section, or the diameter of a round bar [m]."""
    is_round: bool = False
    """Whether it is a circle; then both sides are its diameter."""

    def __post_init__(self) -> None:
        if not 0 < self.thickness <= self.width:
            raise ValueError("a section needs a thickness above zero and no larger than its width")
        if self.is_round and self.thickness != self.width:
            raise ValueError("a round section has one diameter")

    @property
    def area(self) -> float:
        """Area of the cross-section [m2]."""
        if self.is_round:
            return pi * self.width**2 / 4
        return self.width * self.thickness

    def on_the_way_to(self, end: Section, share: float) -> Section:
        """The section at a share (0 to 1) of the way to `end`; equal shares change a side by equal factors.

        Between the two it is round only where both are.
        """
        if share <= 0:
            return self
        if share >= 1:
            return end
        width = self.width * (end.width / self.width) ** share
        thickness = self.thickness * (end.thickness / self.thickness) ** share
        return Section(max(width, thickness), min(width, thickness), self.is_round and end.is_round)
