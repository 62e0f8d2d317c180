"""A bar in one dimension, as textbooks have it: a half-thickness and how the area grows from the middle outwards.

Lumped times and Biot numbers go by it; the warm model goes by the section (cross_section.py).
"""

from __future__ import annotations

from math import isfinite

from plans.record import record
from plans.shapes import Section


@record
class BarShape:
    """The shape of a bar for heat that flows along r, from its middle (0) to its skin (`half_thickness`).

    It flows through an area that grows as r^exponent. The exponent makes the volume for each area of skin that of the
    real bar: 0 for a wide plate, 1 for a long square or round bar, 2 for a cube or a ball.

    Raises:
        ValueError: the half-thickness is not above 0, or the exponent not from 0 to 2.
    """

    half_thickness: float
    """Distance from the middle to the nearest skin [m]."""
    exponent: float
    """Power of r with which the area grows that heat flows through, from 0 to 2."""

    def __post_init__(self) -> None:
        if not (isfinite(self.half_thickness) and self.half_thickness > 0 and 0 <= self.exponent <= 2):
            raise ValueError("a bar needs a half-thickness above zero and an area exponent from 0 to 2")

    @property
    def volume_for_area(self) -> float:
        """Volume over area of skin: the characteristic length of a lumped bar [m]."""
        return self.half_thickness / (self.exponent + 1)

    @classmethod
    def of(cls, section: Section, length: float | None = None) -> BarShape:
        """The shape of a bar of this section.

        Args:
            section: cross-section of the bar
            length: length of a bar with both ends bare [m]; None for a long bar whose ends don't count

        Raises:
            ValueError: the length is not above zero.
        """
        if length is not None and not length > 0:
            raise ValueError("a bar needs a length above zero")
        skin_for_volume = section.around / section.area + (0.0 if length is None else 2 / length)
        half = (section.thickness if length is None else min(section.thickness, length)) / 2
        return cls(half, min(max(half * skin_for_volume - 1, 0.0), 2.0))
