"""A conducting material as the solver sees it: its heat and its conduction as functions of temperature."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from plans.warmth.tables import Tables
from plans.warmth.transformation import Transformation

HOTTEST = 3000.0
"""Hottest temperature that is calculated with, well above any fire [K]."""

_TABLE_ENDS = HOTTEST + 500.0
"""The tables go further, so that a guess may overshoot [K]."""


class Heat(NamedTuple):
    """The heat in a piece of steel, node by node of its mesh."""

    joules: Sequence[float]
    """Enthalpy at each node, from 0 K [J/kg]."""
    latent: Sequence[float]
    """How much of the enthalpy of each node is latent heat of a transformation [J/kg]."""


class Material:
    """A material by its density, its enthalpy and the integral of its conductivity, which is called its potential here.

    Between two points heat flows as the difference of the potential whatever the conductivity does between them
    (Kirchhoff's transformation), and a cell's heat is its enthalpy: so neither a conductivity nor a specific heat at
    one temperature ever stands for a range of it.

    Without a transformation the enthalpy is a function of the temperature. With one it is that only for what is heated,
    and how much of it is latent is part of the state.
    """

    __slots__ = (
        "conductivity",
        "density",
        "enthalpy",
        "potential",
        "tables",
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
            density: density at every temperature [kg/m3]
            enthalpy: from a temperature [K] to the heat since 0 K of what is heated to it [J/kg]
            temperature: the inverse of `enthalpy`, from heat [J/kg] to temperature [K]
            conductivity: from a temperature [K] to the thermal conductivity [W/(m K)]
            potential: from a temperature [K] to the integral of the conductivity from 0 K [W/m]
            temperature_at_potential: the inverse of `potential`, from potential [W/m] to temperature [K]
            transformation: the change whose heat the enthalpy has in it, where it is given back elsewhere on cooling
        """
        self.density = density
        self.enthalpy = enthalpy
        self.temperature = temperature
        self.conductivity = conductivity
        self.potential = potential
        self.temperature_at_potential = temperature_at_potential
        self.transformation = transformation
        self.tables = Tables(enthalpy(_TABLE_ENDS), temperature, potential, temperature_at_potential, transformation)

    def even(self, kelvin: float, count: int) -> Heat:
        """The heat in a bar that has been heated to one temperature throughout.

        Args:
            kelvin: the temperature [K]
            count: number of cells
        """
        joules, latent = self.brought_to(kelvin, 0.0)
        return Heat([joules] * count, [latent] * count)

    def temperature_of(self, joules: float, latent: float) -> float:
        """Temperature of a cell [K].

        Args:
            joules: its enthalpy [J/kg]
            latent: how much of it is latent heat [J/kg]
        """
        change, heated = self.transformation, self.temperature(joules)
        if change is None or latent <= 0.0:
            return heated
        return max(min(change.sensible_temperature(joules - latent), heated), change.cooled_temperature(joules))

    def brought_to(self, kelvin: float, latent: float) -> tuple[float, float]:
        """Enthalpy of what is brought to a temperature, and how much of it is latent heat then [J/kg].

        Args:
            kelvin: the temperature; as 0 or as `HOTTEST` where it lies beyond [K]
            latent: latent heat that it had before [J/kg]
        """
        kelvin = min(max(kelvin, 0.0), HOTTEST)
        heated, change = self.enthalpy(kelvin), self.transformation
        if change is None:
            return heated, latent
        joules = max(min(change.sensible(kelvin) + latent, change.cooled_enthalpy(kelvin)), heated)
        return joules, self.tables.latent((joules,), (latent,))[0]

    @classmethod
    def constant(cls, density: float, specific_heat: float, conductivity: float) -> Material:
        """A material whose properties do not change with temperature, as textbook examples have them.

        Args:
            density: density [kg/m3]
            specific_heat: specific heat [J/(kg K)]
            conductivity: thermal conductivity [W/(m K)]
        """
        return cls(
            density,
            lambda kelvin: specific_heat * kelvin,
            lambda joules: joules / specific_heat,
            lambda kelvin: conductivity,  # noqa: ARG005
            lambda kelvin: conductivity * kelvin,
            lambda watts: watts / conductivity,
        )
