"""Heat conduction in a bar: implicit finite volumes in one dimension, with the area growing as r^p.

The state is the enthalpy of each cell, so that heat is conserved to rounding whatever the specific heat does. One step
solves, for every cell of volume V (for one square metre of skin) and density rho,

    rho V (weight h - kept) / seconds = heat in from the next cell outwards - heat out to the next cell inwards

by Newton's method in the potential (see `Material`). The skin has no heat of its own: its temperature is where what the
surroundings give equals what the outermost cell takes. With weight 1 and the old enthalpies kept this is the backward
Euler method, stable for any step; other weights give methods of higher order.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from plans.warmth.bar import BarShape, Cells
from plans.warmth.material import HOTTEST, Material
from plans.warmth.surroundings import Surroundings

CELLS = 8
"""Within 0.02 % of forty over a soak or a hammer time, thanks to the conductances that `Cells` has."""

CLOSE = 0.5
"""Newton's method converges quadratically: a last correction of the potential by less than this, some 0.02 K, leaves an
error far below it [W/m]."""
_MOST = 40
"""Corrections at most; steps of any length from any state have been seen to need 12."""
_FAR = 2000.0
"""A correction larger than this, some 60 K, may lead out of the tables [W/m]."""


class Solved(NamedTuple):
    """What a step comes to."""

    heat: list[float]
    """Enthalpy of each cell from the middle outwards [J/kg]."""
    skin: float
    """[K]"""
    flux: float
    """Heat through the skin into the work, over the step [W/m2]."""


class Conduction:
    """The equations of one bar of one material; holds no state of the work."""

    __slots__ = ("_conductances", "_masses", "_to_skin", "cells", "material", "shape")

    def __init__(self, shape: BarShape, material: Material, count: int = CELLS) -> None:
        """Cut the bar into cells.

        Args:
            shape: of the bar
            material: of the bar
            count: of cells, two or more
        """
        self.shape = shape
        self.material = material
        self.cells = Cells.cut(shape, count)
        self._masses = [material.density * volume for volume in self.cells.volumes]
        self._conductances = list(self.cells.conductances)
        self._to_skin = self.cells.skin_conductance

    @property
    def count(self) -> int:
        """Of cells."""
        return len(self._masses)

    @property
    def mass(self) -> float:
        """Mass below a square metre of skin [kg/m2]."""
        return sum(self._masses)

    def mean_heat(self, heat: Sequence[float]) -> float:
        """Enthalpy averaged over the bar [J/kg]."""
        return sum(mass * h for mass, h in zip(self._masses, heat, strict=True)) / self.mass

    def middle(self, heat: Sequence[float]) -> float:
        """Temperature in the very middle, on the parabola through the two innermost cells [K]."""
        first = self._potential(heat[0])
        second = self._potential(heat[1])
        return self.material.temperature_at_potential(first - self.cells.middle_share * (second - first))

    def _potential(self, joules: float) -> float:
        material = self.material
        i = int(joules * material.segments_per_joule)
        return material.base[i] + material.slope[i] * joules

    def solve(
        self,
        guess: Sequence[float],
        skin: float,
        kept: Sequence[float],
        weight: float,
        seconds: float,
        outside: Surroundings | float,
        close: float = CLOSE,
    ) -> Solved:
        """Solve one implicit step.

        Args:
            guess: enthalpies to begin from, close to the solution [J/kg]
            skin: guess of the skin's temperature [K]
            kept: what the method keeps of earlier enthalpies, cell by cell [J/kg]
            weight: what the method gives the new enthalpy
            seconds: length of the step
            outside: what is round the bar, or the skin's temperature where it is known [K]
            close: the correction after which no other is made [W/m]
        """
        material = self.material
        base, slope, scale = material.base, material.slope, material.segments_per_joule
        to_skin = self._to_skin
        rate = 1.0 / seconds
        heat = list(guess)
        if isinstance(outside, Surroundings):
            incoming, linear, radiation = outside.incoming, outside.linear, outside.radiation
        else:
            skin = outside
        flux = 0.0
        for _ in range(_MOST):
            # Eliminate from the middle outwards; each turn ends the row of the cell before, whose outer face this is.
            slopes, shares, offsets = [], [], []
            before = diagonal = 1.0
            right = 0.0
            for joules, keeps, mass, conductance in zip(heat, kept, self._masses, self._conductances, strict=True):
                i = int(joules * scale)
                steepness = slope[i]
                here = base[i] + steepness * joules
                flow = conductance * (here - before)
                diagonal += conductance
                share = conductance / diagonal
                offset = (right + flow) / diagonal
                slopes.append(steepness)
                shares.append(share)
                offsets.append(offset)
                turnover = mass * rate
                diagonal = turnover * weight / steepness + conductance * (1.0 - share)
                right = turnover * (keeps - weight * joules) - flow + conductance * offset
                before = here
            # The skin: its flux as a straight line in the potential of the outermost cell.
            drop = to_skin * (material.potential(skin) - before)
            if isinstance(outside, Surroundings):
                cube = radiation * skin**3
                gives = incoming - (linear + cube) * skin
                steep = linear + 4.0 * cube
                conductivity = material.conductivity(skin)
                divisor = to_skin * conductivity + steep
                warmer = (gives - drop) / divisor
                stiff = to_skin / divisor
                change = (right + gives - steep * warmer) / (diagonal + steep * stiff)
                warmer += stiff * change
                flux = gives - steep * warmer
                skin += warmer
                largest = abs(warmer * conductivity)
            else:
                change = (right + drop) / (diagonal + to_skin)
                flux = drop - to_skin * change
                largest = 0.0
            # Back to the middle.
            for i in range(len(heat) - 1, -1, -1):
                heat[i] += change / slopes[i]
                if not -largest <= change <= largest:
                    largest = abs(change)
                change = offsets[i] + shares[i] * change
            if largest < close:
                break
            if largest > _FAR:
                heat = [min(max(joules, 0.0), material.most_heat) for joules in heat]
                skin = min(max(skin, 1.0), HOTTEST)
        return Solved(heat, skin, flux)
