"""A bar as the one-dimensional solver sees it: a half-thickness and how the area grows from the middle outwards."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import isfinite, pi

from plans.section import Section


@dataclass(frozen=True, slots=True)
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
        per_area = 1 / section.area
        around = pi * section.width if section.is_round else 2 * (section.width + section.thickness)
        skin_for_volume = around * per_area + (0.0 if length is None else 2 / length)
        half = (section.thickness if length is None else min(section.thickness, length)) / 2
        return cls(half, min(max(half * skin_for_volume - 1, 0.0), 2.0))


@dataclass(frozen=True, slots=True)
class Cells:
    """A bar's shape cut into cells of equal thickness; all figures are for one square metre of skin.

    The conductances are those that carry heat exactly where the potential runs as a + b r^2, as it does in a bar that
    warms or cools steadily: this is what lets few cells do. For a plate and a round bar they are the usual k A / dx.
    """

    volumes: tuple[float, ...]
    """Volume of each cell, from the middle outwards [m3/m2]."""
    conductances: tuple[float, ...]
    """Heat flow across the inner face of each cell for a potential difference [1/m]; the first is 0."""
    skin_conductance: float
    """Heat flow between the skin and the outermost cell for a potential difference [1/m]."""
    depths: tuple[float, ...]
    """Square of the half-thickness less the mean of r^2 in each cell: how far below the skin a parabola has it [m2]."""
    middle_share: float
    """Share of the rise of the potential from the first cell to the second by which the very middle lies below the
    first."""

    @classmethod
    def cut(cls, shape: BarShape, count: int) -> Cells:
        """The cells of a shape.

        Args:
            shape: what to cut
            count: number of cells, two or more
        """
        radius, exponent = shape.half_thickness, shape.exponent
        faces = [i / count for i in range(count + 1)]
        shares = [b ** (exponent + 1) - a ** (exponent + 1) for a, b in pairwise(faces)]
        squares = [
            radius**2 * (exponent + 1) / (exponent + 3) * (b ** (exponent + 3) - a ** (exponent + 3)) / share
            for (a, b), share in zip(pairwise(faces), shares, strict=True)
        ]
        inner = [
            face**exponent * 2 * radius * face / (after - before)
            for face, (before, after) in zip(faces[1:-1], pairwise(squares), strict=True)
        ]
        return cls(
            volumes=tuple(radius / (exponent + 1) * share for share in shares),
            conductances=(0.0, *inner),
            skin_conductance=2 * radius / (radius**2 - squares[-1]),
            depths=tuple(radius**2 - square for square in squares),
            middle_share=squares[0] / (squares[1] - squares[0]),
        )
