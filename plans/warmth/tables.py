"""What the solver looks up at every cell: the potential over the heat, and the latent heat, in straight pieces."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import NamedTuple

from plans.warmth.transformation import Transformation

_SEGMENTS = 2048


class Piecewise(NamedTuple):
    """Straight pieces of equal width over heat: base[i] + slope[i] * joules, i = int(joules * segments_per_joule)."""

    base: list[float]
    slope: list[float]

    @classmethod
    def through(cls, points: Sequence[float], width: float) -> Piecewise:
        """Through points so far apart, the first at 0."""
        slopes = [(after - before) / width for before, after in pairwise(points)]
        return cls(
            [point - slope * j * width for j, (point, slope) in enumerate(zip(points[:-1], slopes, strict=True))],
            slopes,
        )


class Tables:
    """The potential [W/m] of a material over its enthalpy, from 0 to `most_heat` [J/kg].

    The slope of the potential is conductivity over specific heat [kg/(m s)]. A material with a transformation has more
    tables than `heated`: the potential of what is cooled from above the change, that of what changes nothing, over the
    sensible heat, and the least and the most latent heat that there can be.
    """

    __slots__ = (
        "_at_least",
        "_at_most",
        "_change",
        "_cooled",
        "_heated_base",
        "_heated_slope",
        "_sensible_base",
        "_sensible_slope",
        "heated",
        "most_heat",
        "segments_per_joule",
    )

    def __init__(
        self,
        most: float,
        temperature: Callable[[float], float],
        potential: Callable[[float], float],
        change: Transformation | None,
    ) -> None:
        """Tabulate a material.

        Args:
            most: enthalpy at which the tables end [J/kg]
            temperature: of what is heated, at an enthalpy [K]
            potential: at a temperature [W/m]
            change: the material's transformation, if it has one
        """
        width = most / _SEGMENTS
        self.segments_per_joule = 1.0 / width
        self.most_heat = (_SEGMENTS - 0.5) * width
        knots = [j * width for j in range(_SEGMENTS + 1)]
        heated = [temperature(joules) for joules in knots]
        self.heated = Piecewise.through([potential(kelvin) for kelvin in heated], width)
        self._change = change
        if change is None:
            return
        cooled = [
            change.cooled_temperature(joules) if change.under < joules < change.over else kelvin
            for joules, kelvin in zip(knots, heated, strict=True)
        ]
        sensible = [
            kelvin if joules <= change.under else change.sensible_temperature(joules)
            for joules, kelvin in zip(knots, heated, strict=True)
        ]
        self._heated_base, self._heated_slope = self.heated
        self._cooled = Piecewise.through([potential(kelvin) for kelvin in cooled], width)
        self._sensible_base, self._sensible_slope = Piecewise.through([potential(kelvin) for kelvin in sensible], width)
        self._at_least, self._at_most = (
            Piecewise.through([change.latent_in(*each) for each in zip(knots, way, strict=True)], width)
            for way in (heated, cooled)
        )

    def course(self, latent: Sequence[float]) -> Piecewise | None:
        """How the potential goes with the enthalpy where cells hold so much latent heat; None if any is half-way.

        Args:
            latent: latent heat of each cell [J/kg]
        """
        first = latent[0]
        if latent.count(first) == len(latent):
            if first <= 0.0 or self._change is None:
                return self.heated
            if first >= self._change.latent:
                return self._cooled
        return None

    def between(self, joules: float, latent: float) -> tuple[float, float]:
        """Potential [W/m] of a cell wherever it is in the change, and its slope over the enthalpy [kg/(m s)].

        Args:
            joules: what its enthalpy comes to [J/kg]
            latent: what its latent heat was [J/kg]
        """
        # The latent heat stays as it is as long as that leaves the cell between the two curves. Far from the change,
        # where these are one, the place in the third table means nothing and counts for nothing.
        sensible, scale = joules - latent, self.segments_per_joule
        i, j = int(joules * scale), int(sensible * scale)
        slope = self._sensible_slope[j]
        here = self._sensible_base[j] + slope * sensible
        steeper = self._heated_slope[i]
        heated = self._heated_base[i] + steeper * joules
        if heated < here:
            here, slope = heated, steeper
        base, slopes = self._cooled
        cooled = base[i] + slopes[i] * joules
        return (cooled, slopes[i]) if cooled > here else (here, slope)

    def latent(self, joules: Sequence[float], before: Sequence[float]) -> Sequence[float]:
        """Latent heat of cells that have come to their enthalpies by one way, up or down [J/kg].

        Args:
            joules: the enthalpies [J/kg]
            before: latent heat that they had [J/kg]
        """
        change = self._change
        if change is None:
            return before
        if min(joules) >= change.over:
            return (change.latent,) * len(joules)
        if max(joules) <= change.under:
            return (0.0,) * len(joules)
        scale, (base, slope), (base_at_most, slope_at_most) = self.segments_per_joule, self._at_least, self._at_most
        latent = []
        for heat, had in zip(joules, before, strict=True):
            i = int(heat * scale)
            latent.append(min(max(had, base[i] + slope[i] * heat), base_at_most[i] + slope_at_most[i] * heat))
        return latent

    def potential(self, joules: float, latent: float) -> float:
        """Potential of a cell with so much heat, of which so much is latent [W/m]."""
        course = self.course((latent,))
        if course is None:
            return self.between(joules, latent)[0]
        i = int(joules * self.segments_per_joule)
        return course.base[i] + course.slope[i] * joules
