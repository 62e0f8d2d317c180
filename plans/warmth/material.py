"""What a conducting material is to the solver: heat and conduction as functions of temperature, and a table of both."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

HOTTEST = 3000.0
"""Nothing here may be hotter; well above any fire [K]."""

_TABLE_ENDS = HOTTEST + 500.0
"""The tables go further, so that a guess may overshoot [K]."""

_SEGMENTS = 2048


class Material:
    """Density, enthalpy and the integral of the conductivity, which is called its potential here.

    Between two points heat flows as the difference of the potential whatever the conductivity does between them
    (Kirchhoff's transformation), and a cell's heat is its enthalpy: so neither a conductivity nor a specific heat at
    one temperature ever stands for a range of it.

    `base` and `slope` tabulate the potential over the enthalpy `h`: with `i = int(h * segments_per_joule)` the
    potential is `base[i] + slope[i] * h` [W/m], and `slope` is conductivity over specific heat [kg/(m s)]. They hold
    for enthalpies from 0 to `most_heat` [J/kg].
    """

    __slots__ = (
        "base",
        "conductivity",
        "density",
        "enthalpy",
        "most_heat",
        "potential",
        "segments_per_joule",
        "slope",
        "temperature",
        "temperature_at_potential",
    )

    def __init__(
        self,
        density: float,
        enthalpy: Callable[[float], float],
        temperature: Callable[[float], float],
        conductivity: Callable[[float], float],
        potential: Callable[[float], float],
        temperature_at_potential: Callable[[float], float],
    ) -> None:
        """Keep the functions and tabulate them.

        Args:
            density: [kg/m3]
            enthalpy: heat at a temperature, from 0 K [J/kg]
            temperature: its inverse [K]
            conductivity: at a temperature [W/(m K)]
            potential: integral of the conductivity from 0 K [W/m]
            temperature_at_potential: its inverse [K]
        """
        self.density = density
        self.enthalpy = enthalpy
        self.temperature = temperature
        self.conductivity = conductivity
        self.potential = potential
        self.temperature_at_potential = temperature_at_potential
        width = enthalpy(_TABLE_ENDS) / _SEGMENTS
        self.segments_per_joule = 1.0 / width
        points = [potential(temperature(j * width)) for j in range(_SEGMENTS + 1)]
        self.slope = [(after - before) / width for before, after in pairwise(points)]
        self.most_heat = (_SEGMENTS - 0.5) * width
        self.base = [
            point - slope * j * width for j, (point, slope) in enumerate(zip(points[:-1], self.slope, strict=True))
        ]

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
