"""Heat that a change of structure takes up when a material is heated, and gives back at a lower temperature.

Enthalpy is sensible heat and latent heat. The sensible heat is a function of the temperature alone: its specific heat
runs straight from where the change begins on heating to where it has ended, and what the material's own specific heat
has above that line is the heat of the change. The latent heat depends on where the material comes from: on heating it
is never less than `enthalpy` has in it, on cooling never more than `cooled_enthalpy` has, and between the two it stays
as it is (a play operator, as in mechanical backlash). So a round of heating and cooling, whole or broken off half-way,
gives back exactly what it took.
"""

from __future__ import annotations

from collections.abc import Callable
from math import sqrt

from plans.warmth.inverse import find_inverse

_HAIR = 1e-6
"""How far rounding may leave the latent heat short of that of the whole change [J/kg]."""


class Transformation:
    """A change of structure of a material: its heat, and the two ways through it, by heating and by cooling."""

    __slots__ = (
        "_arrest",
        "_at_end",
        "_begins",
        "_bend",
        "_ends",
        "_enthalpy",
        "_specific_heat",
        "_start",
        "_temperature",
        "latent",
        "over",
        "under",
    )

    def __init__(
        self,
        enthalpy: Callable[[float], float],
        temperature: Callable[[float], float],
        specific_heat: Callable[[float], float],
        heating: tuple[float, float],
        arrest: tuple[float, float],
    ) -> None:
        """Part the enthalpy of a material that is heated into sensible and latent heat.

        Args:
            enthalpy: from a temperature [K] to the heat of what is heated to it [J/kg]
            temperature: the inverse of `enthalpy`, from heat [J/kg] to temperature [K]
            specific_heat: the derivative of `enthalpy` [J/(kg K)]
            heating: temperatures at which the change begins and has ended on heating [K]
            arrest: the lower and the upper end of the range in which the heat is given back on cooling, within
                `heating` [K]
        """
        self._enthalpy, self._temperature, self._specific_heat = enthalpy, temperature, specific_heat
        self._begins, self._ends = heating
        self._arrest = arrest
        self._start = specific_heat(self._begins)
        self._bend = (specific_heat(self._ends) - self._start) / (self._ends - self._begins)
        self.under = enthalpy(self._begins)
        """Enthalpy below which the change has not begun [J/kg]."""
        self.over = enthalpy(self._ends)
        """Enthalpy above which the change is over, on heating and on cooling [J/kg]."""
        self._at_end = self.under + self._along_the_line(self._ends)
        self.latent = self.over - self._at_end
        """Heat of the whole change [J/kg]."""

    def _along_the_line(self, kelvin: float) -> float:
        past = kelvin - self._begins
        return past * (self._start + self._bend / 2 * past)

    def sensible(self, kelvin: float) -> float:
        """Sensible heat: the part of the enthalpy that depends on the temperature alone [J/kg].

        Args:
            kelvin: temperature [K]
        """
        if kelvin <= self._begins:
            return self._enthalpy(kelvin)
        if kelvin >= self._ends:
            return self._enthalpy(kelvin) - self.latent
        return self.under + self._along_the_line(kelvin)

    def sensible_temperature(self, joules: float) -> float:
        """Temperature at which the sensible heat comes to a value: the inverse of `sensible` [K].

        Args:
            joules: sensible heat [J/kg]
        """
        if joules <= self.under:
            return self._temperature(joules)
        if joules >= self._at_end:
            return self._temperature(joules + self.latent)
        more = joules - self.under
        return self._begins + 2 * more / (self._start + sqrt(self._start**2 + 2 * self._bend * more))

    def cooled_enthalpy(self, kelvin: float) -> float:
        """Enthalpy of what is cooled to a temperature from above the change [J/kg].

        Of what heating to this temperature would have left undone of the change, cooling has a share done still, which
        falls smoothly from all to nothing over the arrest. Below the arrest both ways are the same.

        Args:
            kelvin: temperature [K]
        """
        heated = self._enthalpy(kelvin)
        if not self._begins < kelvin < self._ends:
            return heated
        return heated + (self.latent - heated + self.sensible(kelvin)) * self._kept(kelvin)[0]

    def cooled_temperature(self, joules: float) -> float:
        """Temperature of what is cooled from above the change: the inverse of `cooled_enthalpy` [K].

        Args:
            joules: enthalpy [J/kg]
        """
        if not self.under < joules < self.over:
            return self._temperature(joules)
        share = (joules - self.under) / (self.over - self.under)
        return find_inverse(self.cooled_enthalpy, self._cooled_specific_heat, joules, self._begins, self._ends, share)

    def latent_in(self, joules: float, kelvin: float) -> float:
        """Latent part of the enthalpy of a cell [J/kg].

        Args:
            joules: its enthalpy [J/kg]
            kelvin: its temperature [K]
        """
        if joules <= self.under:
            return 0.0
        latent = max(joules - self.sensible(kelvin), 0.0)
        # Rounding must not leave a change that is over a hair short of it.
        return latent if latent < self.latent - _HAIR else self.latent

    def _line(self, kelvin: float) -> float:
        return self._start + self._bend * (kelvin - self._begins)

    def _kept(self, kelvin: float) -> tuple[float, float]:
        """Share of the change that is not yet undone on cooling, and its derivative [1/K]."""
        low, high = self._arrest
        past = min(max((kelvin - low) / (high - low), 0.0), 1.0)
        return past * past * (3 - 2 * past), 6 * past * (1 - past) / (high - low)

    def _cooled_specific_heat(self, kelvin: float) -> float:
        line, heating = self._line(kelvin), self._specific_heat(kelvin)
        kept, falling = self._kept(kelvin)
        missing = self.latent - self._enthalpy(kelvin) + self.sensible(kelvin)
        return heating - (heating - line) * kept + missing * falling
