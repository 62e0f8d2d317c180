"""Tables that the solver looks up at every cell: potential and latent heat over the enthalpy, in straight pieces."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Sequence
from functools import cached_property
from itertools import count, pairwise
from typing import NamedTuple

from plans.warmth.transformation import Transformation

_SEGMENTS = 2048


class Piecewise(NamedTuple):
    """A function of heat or of potential in straight pieces of equal width: base[i] + slope[i] * argument.

    The piece is i = int(joules * segments_per_joule), or int(potential * segments_per_watt), with either from the
    `Tables` that hold it.
    """

    base: list[float]
    """What each piece comes to where the argument is 0, in the unit of the function."""
    slope: list[float]
    """Slope of each piece, in the unit of the function for each unit of the argument."""

    @classmethod
    def through(cls, points: Sequence[float], width: float) -> Piecewise:
        """The function that joins points by straight lines.

        Args:
            points: values of the function, the first where its argument is 0
            width: how far apart they are, in the unit of the argument
        """
        slopes = [(after - before) / width for before, after in pairwise(points)]
        return cls([point - slope * j * width for point, slope, j in zip(points, slopes, count())], slopes)


class Tables:
    """Tables of a material's potential [W/m] over its enthalpy, from 0 to `most_heat` [J/kg], and back to kelvins.

    The slope of the potential is conductivity over specific heat [kg/(m s)]. A material with a transformation has more
    tables than `heated`: the potential of what is cooled from above the change, that of what changes nothing, over the
    sensible heat, and the least and the most latent heat that there can be.
    """

    def __init__(
        self,
        most: float,
        temperature: Callable[[float], float],
        potential: Callable[[float], float],
        temperature_at_potential: Callable[[float], float],
        change: Transformation | None,
    ) -> None:
        """Tabulate a material.

        Args:
            most: enthalpy at which the tables end [J/kg]
            temperature: from the enthalpy of what is heated [J/kg] to its temperature [K]
            potential: from a temperature [K] to the potential [W/m]
            temperature_at_potential: the inverse of `potential` [K]
            change: the material's transformation, if it has one
        """
        self._width = width = most / _SEGMENTS
        self.segments_per_joule = 1.0 / width
        self.most_heat = (_SEGMENTS - 0.5) * width
        self._knots = knots = [j * width for j in range(_SEGMENTS + 1)]
        self._temperatures = [temperature(joules) for joules in knots]
        self._potential = potential
        self._warming = warming = [potential(kelvin) for kelvin in self._temperatures]
        steep = warming[-1] / _SEGMENTS
        self.segments_per_watt = 1.0 / steep
        self.kelvins = Piecewise.through([temperature_at_potential(j * steep) for j in range(_SEGMENTS + 1)], steep)
        self._change = change
        if change is not None:
            # Within the change the two ways differ; below it there is no latent heat, and above it there is all.
            self._begins, self._ends = bisect_right(knots, change.under), bisect_left(knots, change.over)
            self._within = knots[self._begins : self._ends]

    @cached_property
    def heated(self) -> Piecewise:
        """The potential of what is heated [W/m]."""
        return Piecewise.through(self._warming, self._width)

    # Those of a change are made when something first comes to it: all at once would take the time of a first answer.

    @cached_property
    def _cooled_temperatures(self) -> list[float]:
        assert self._change is not None
        return [self._change.cooled_temperature(joules) for joules in self._within]

    @cached_property
    def _cooled(self) -> Piecewise:
        warming, cooling = self._warming, map(self._potential, self._cooled_temperatures)
        return Piecewise.through([*warming[: self._begins], *cooling, *warming[self._ends :]], self._width)

    @cached_property
    def _sensible(self) -> Piecewise:
        assert self._change is not None
        temperature, begins = self._change.sensible_temperature, self._begins
        above = (self._potential(temperature(joules)) for joules in self._knots[begins:])
        return Piecewise.through([*self._warming[:begins], *above], self._width)

    @cached_property
    def _at_least(self) -> Piecewise:
        return self._latent_by(self._temperatures[self._begins : self._ends])

    @cached_property
    def _at_most(self) -> Piecewise:
        return self._latent_by(self._cooled_temperatures)

    def _latent_by(self, way: Sequence[float]) -> Piecewise:
        """The latent heat of what comes through the change by these temperatures [J/kg]."""
        assert self._change is not None
        below, above = [0.0] * self._begins, [self._change.latent] * (len(self._knots) - self._ends)
        return Piecewise.through([*below, *map(self._change.latent_in, self._within, way), *above], self._width)

    def within(self, joules: Sequence[float]) -> Sequence[float]:
        """Enthalpies that lie within the tables: those given, or the nearest that do [J/kg].

        Args:
            joules: enthalpy of each cell [J/kg]
        """
        if min(joules) >= 0.0 and max(joules) <= self.most_heat:
            return joules
        return [min(max(heat, 0.0), self.most_heat) for heat in joules]

    def course(self, latent: Sequence[float]) -> Piecewise | None:
        """The table of the potential that all cells are on; None where one is half-way through the transformation.

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

    def along(self, joules: Sequence[float], latent: Sequence[float]) -> tuple[list[float], list[float]]:
        """Potential of each of some cells [W/m], and its slope over the enthalpy [kg/(m s)].

        Args:
            joules: enthalpy that each cell has come to [J/kg]
            latent: latent heat that it had before [J/kg]
        """
        scale, watts, steepness = self.segments_per_joule, [], []
        course = self.course(latent)
        if course:
            base, slopes = course
            for heat in joules:
                i = int(heat * scale)
                slope = slopes[i]
                steepness.append(slope)
                watts.append(base[i] + slope * heat)
            return watts, steepness
        # The latent heat stays as it is as long as that leaves the cell between the two curves. Far from the change,
        # where these are one, the place in the third table means nothing and counts for nothing.
        heated_base, heated_slope = self.heated
        cooled_base, cooled_slope = self._cooled
        sensible_base, sensible_slope = self._sensible
        for heat, had in zip(joules, latent, strict=True):
            sensible = heat - had
            i, j = int(heat * scale), int(sensible * scale)
            slope = sensible_slope[j]
            here = sensible_base[j] + slope * sensible
            steeper = heated_slope[i]
            heated = heated_base[i] + steeper * heat
            if heated < here:
                here, slope = heated, steeper
            steeper = cooled_slope[i]
            cooled = cooled_base[i] + steeper * heat
            if cooled > here:
                here, slope = cooled, steeper
            watts.append(here)
            steepness.append(slope)
        return watts, steepness

    def latent(self, joules: Sequence[float], before: Sequence[float]) -> Sequence[float]:
        """Latent heat of cells that have come to their enthalpies by one way, up or down [J/kg].

        Args:
            joules: enthalpy that each cell has come to [J/kg]
            before: latent heat that each had before [J/kg]
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
