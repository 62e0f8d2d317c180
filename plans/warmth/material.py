"""What a conducting material is to the solver: heat and conduction as functions of temperature, and tables of both."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from math import inf
from typing import NamedTuple

from plans.warmth.transformation import Transformation

HOTTEST = 3000.0
"""Nothing here may be hotter; well above any fire [K]."""

_TABLE_ENDS = HOTTEST + 500.0
"""The tables go further, so that a guess may overshoot [K]."""

_SEGMENTS = 2048


class Table(NamedTuple):
    """Straight pieces of equal width over heat: base[i] + slope[i] * joules, i = int(joules * segments_per_joule)."""

    base: list[float]
    slope: list[float]

    @classmethod
    def through(cls, points: Sequence[float], width: float) -> Table:
        """Through points so far apart, the first at 0."""
        slopes = [(after - before) / width for before, after in pairwise(points)]
        return cls(
            [point - slope * j * width for j, (point, slope) in enumerate(zip(points[:-1], slopes, strict=True))],
            slopes,
        )


class Heat(NamedTuple):
    """The heat in a bar, cell by cell from the middle outwards."""

    joules: Sequence[float]
    """Enthalpy [J/kg]."""
    latent: Sequence[float]
    """How much of it is latent [J/kg]."""


class Material:
    """Density, enthalpy and the integral of the conductivity, which is called its potential here.

    Between two points heat flows as the difference of the potential whatever the conductivity does between them
    (Kirchhoff's transformation), and a cell's heat is its enthalpy: so neither a conductivity nor a specific heat at
    one temperature ever stands for a range of it.

    `heated` tabulates the potential [W/m] over the enthalpy of what is heated, from 0 to `most_heat` [J/kg]; its slope
    is conductivity over specific heat [kg/(m s)].

    A material with a transformation has a second state, its latent heat, and two more such tables: of what is cooled
    from above the change, and of what changes nothing, over the sensible heat.
    """

    __slots__ = (
        "_all",
        "_at_least",
        "_at_most",
        "_cooled",
        "_cooled_base",
        "_cooled_slope",
        "_heated_base",
        "_heated_slope",
        "_sensible_base",
        "_sensible_slope",
        "conductivity",
        "density",
        "enthalpy",
        "heated",
        "most_heat",
        "potential",
        "segments_per_joule",
        "temperature",
        "temperature_at_potential",
        "transformation",
    )

    def __init__(
        self,
        density: float,
        enthalpy: Callable[[float], float],
        temperature: Callable[[float], float],
        conductivity: Callable[[float], float],
        potential: Callable[[float], float],
        temperature_at_potential: Callable[[float], float],
        transformation: Transformation | None = None,
    ) -> None:
        """Keep the functions and tabulate them.

        Args:
            density: [kg/m3]
            enthalpy: heat at a temperature, from 0 K, where the material is heated to it [J/kg]
            temperature: its inverse [K]
            conductivity: at a temperature [W/(m K)]
            potential: integral of the conductivity from 0 K [W/m]
            temperature_at_potential: its inverse [K]
            transformation: the change whose heat the enthalpy has in it, where it is given back elsewhere on cooling
        """
        self.density = density
        self.enthalpy = enthalpy
        self.temperature = temperature
        self.conductivity = conductivity
        self.potential = potential
        self.temperature_at_potential = temperature_at_potential
        self.transformation = transformation
        width = enthalpy(_TABLE_ENDS) / _SEGMENTS
        self.segments_per_joule = 1.0 / width
        self.most_heat = (_SEGMENTS - 0.5) * width
        knots = [j * width for j in range(_SEGMENTS + 1)]
        self._all = inf if transformation is None else transformation.latent
        self.heated = Table.through([potential(temperature(joules)) for joules in knots], width)
        if transformation is None:
            return
        change = transformation
        self._heated_base, self._heated_slope = self.heated
        cooled = [potential(change.cooled_temperature(joules)) for joules in knots]
        self._cooled = Table.through(cooled, width)
        self._cooled_base, self._cooled_slope = self._cooled
        sensible = [potential(change.sensible_temperature(joules)) for joules in knots]
        self._sensible_base, self._sensible_slope = Table.through(sensible, width)
        self._at_least = Table.through([change.latent_in(joules, temperature) for joules in knots], width)
        self._at_most = Table.through([change.latent_in(joules, change.cooled_temperature) for joules in knots], width)

    def even(self, kelvin: float, count: int) -> Heat:
        """So many cells at one temperature [K], as if they had been heated to it."""
        joules, latent = self.brought_to(kelvin, 0.0)
        return Heat([joules] * count, [latent] * count)

    def table(self, latent: Sequence[float]) -> Table | None:
        """Potential over enthalpy from where cells with so much latent heat are; None if any is half-way.

        Args:
            latent: latent heat of each cell [J/kg]
        """
        first = latent[0]
        if latent.count(first) == len(latent):
            if first <= 0.0:
                return self.heated
            if first >= self._all:
                return self._cooled
        return None

    def between(self, joules: float, latent: float) -> tuple[float, float]:
        """Potential [W/m] of a cell wherever it is in the change, and its slope over the enthalpy [kg/(m s)].

        Args:
            joules: what its enthalpy comes to [J/kg]
            latent: what its latent heat was [J/kg]
        """
        # The latent heat stays as it is as long as that leaves the cell between the two curves.
        sensible, scale = joules - latent, self.segments_per_joule
        i, j = int(joules * scale), int(sensible * scale)
        slope = self._sensible_slope[j]
        here = self._sensible_base[j] + slope * sensible
        steeper = self._heated_slope[i]
        heated = self._heated_base[i] + steeper * joules
        if heated < here:
            here, slope = heated, steeper
        steeper = self._cooled_slope[i]
        cooled = self._cooled_base[i] + steeper * joules
        return (cooled, steeper) if cooled > here else (here, slope)

    def latent(self, joules: Sequence[float], before: Sequence[float]) -> Sequence[float]:
        """Latent heat of cells that have come to their enthalpies by one way, up or down [J/kg].

        Args:
            joules: the enthalpies [J/kg]
            before: latent heat that they had [J/kg]
        """
        change = self.transformation
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

    def potential_of(self, joules: float, latent: float) -> float:
        """Potential of a cell with so much heat, of which so much is latent [W/m]."""
        table = self.table((latent,))
        if table is None:
            return self.between(joules, latent)[0]
        i = int(joules * self.segments_per_joule)
        return table.base[i] + table.slope[i] * joules

    def temperature_of(self, joules: float, latent: float) -> float:
        """Temperature of a cell with so much heat, of which so much is latent [K]."""
        change, heated = self.transformation, self.temperature(joules)
        if change is None or latent <= 0.0:
            return heated
        return max(min(change.sensible_temperature(joules - latent), heated), change.cooled_temperature(joules))

    def brought_to(self, kelvin: float, latent: float) -> tuple[float, float]:
        """Enthalpy of what is brought to a temperature, and its latent heat then [J/kg].

        Args:
            kelvin: the temperature [K]
            latent: latent heat that it had before [J/kg]
        """
        heated, change = self.enthalpy(kelvin), self.transformation
        if change is None:
            return heated, latent
        joules = max(min(change.sensible(kelvin) + latent, change.cooled_enthalpy(kelvin)), heated)
        return joules, self.latent((joules,), (latent,))[0]

    @classmethod
    def constant(cls, density: float, specific_heat: float, conductivity: float) -> Material:
        """A material whose properties do not change with temperature, as textbook examples have them.

        Args:
            density: [kg/m3]
            specific_heat: [J/(kg K)]
            conductivity: [W/(m K)]
        """
        return cls(
            density,
            lambda kelvin: specific_heat * kelvin,
            lambda joules: joules / specific_heat,
            lambda kelvin: conductivity,  # noqa: ARG005
            lambda kelvin: conductivity * kelvin,
            lambda watts: watts / conductivity,
        )
