"""Heat conduction in a bar: implicit finite volumes in one dimension, with the area growing as r^p.

The state is the enthalpy of each cell, so that heat is conserved to rounding whatever the specific heat does, and how
much of it is latent, which says by which way the cell comes to its temperature (see `Transformation`). One step solves,
for every cell of volume V (for one square metre of skin) and density rho,

    rho V (weight h - kept) / seconds = heat in from the next cell outwards - heat out to the next cell inwards

by Newton's method in the potential (see `Material`). The skin has no heat of its own: its temperature is where what the
surroundings give equals what the outermost cell takes. With weight 1 and the old enthalpies kept this is the backward
Euler method, stable for any step; other weights give methods of higher order.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from plans.warmth.bar import BarShape, Cells
from plans.warmth.material import HOTTEST, Heat, Material
from plans.warmth.surroundings import Surroundings

CELLS = 8
"""Number of cells that a bar is cut into: over a soak or a hammer time within 0.02 % of forty, thanks to the
conductances that `Cells` has."""

CLOSE = 0.5
"""Correction of the potential after which Newton's method makes no other [W/m].

It is some 0.02 K; as the method converges quadratically, the error that is left lies far below it.
"""
_MOST = 40
"""Corrections at most; steps of any length from any state have been seen to need 27."""
_HALVED = 12
"""From this one on, corrections are halved: across the bends of the transformation whole ones may go to and fro."""
_FAR = 2000.0
"""A correction larger than this, some 60 K, may lead out of the tables [W/m]."""


class Solved(NamedTuple):
    """The state of a bar at the end of a step."""

    heat: Heat
    """Heat in each cell of the bar."""
    skin: float
    """Temperature of the skin [K]."""
    flux: float
    """Heat flux through the skin into the bar over the step, below 0 where it cools [W/m2]."""


class Conduction:
    """The equations of heat conduction in one bar of one material; it holds no state of the bar."""

    __slots__ = ("_conductances", "_masses", "_none", "_to_skin", "cells", "material", "shape")

    def __init__(self, shape: BarShape, material: Material, count: int = CELLS) -> None:
        """Cut the bar into cells.

        Args:
            shape: shape of the bar
            material: material of the bar
            count: number of cells, two or more
        """
        self.shape = shape
        self.material = material
        self.cells = Cells.cut(shape, count)
        self._masses = [material.density * volume for volume in self.cells.volumes]
        self._conductances = list(self.cells.conductances)
        self._to_skin = self.cells.skin_conductance
        self._none: Sequence[float | None] = (None,) * count

    @property
    def count(self) -> int:
        """Number of cells that the bar is cut into."""
        return len(self._masses)

    @property
    def mass(self) -> float:
        """Mass of the bar for each square metre of skin [kg/m2]."""
        return sum(self._masses)

    def mean(self, joules: Sequence[float]) -> float:
        """Mean over the mass of the bar of what its cells hold [J/kg].

        Args:
            joules: heat of each cell, from the middle outwards [J/kg]
        """
        return sum(mass * h for mass, h in zip(self._masses, joules, strict=True)) / self.mass

    def middle(self, heat: Heat) -> float:
        """Temperature in the very middle of the bar, on the parabola through the two innermost cells [K].

        Args:
            heat: heat in each cell
        """
        tables = self.material.tables
        first, second = (tables.potential(heat.joules[i], heat.latent[i]) for i in (0, 1))
        return self.material.temperature_at_potential(first - self.cells.middle_share * (second - first))

    def solve(
        self,
        now: Heat,
        skin: float,
        seconds: float,
        outside: Surroundings | float,
        *,
        guess: Sequence[float] | None = None,
        kept: Sequence[float] | None = None,
        weight: float = 1.0,
        close: float = CLOSE,
    ) -> Solved:
        """Solve one implicit step: the state of the bar at its end.

        Args:
            now: the heat at the beginning of the step
            skin: guess of the skin's temperature at the end [K]
            seconds: length of the step [s]
            outside: what is round the bar, or the skin's temperature where it is known [K]
            guess: enthalpies to begin from, close to the solution, if those of `now` are not the closest [J/kg]
            kept: what the method keeps of earlier enthalpies, cell by cell; those of `now` by themselves, if
                nothing else is said [J/kg]
            weight: what the method gives the new enthalpy
            close: the correction after which no other is made [W/m]
        """
        material, tables = self.material, self.material.tables
        scale = tables.segments_per_joule
        to_skin = self._to_skin
        rate = 1.0 / seconds
        heat = list(now.joules if guess is None else guess)
        kept = now.joules if kept is None else kept
        course = tables.course(now.latent)
        base, slope = course or tables.heated
        latent = self._none if course else now.latent
        if isinstance(outside, Surroundings):
            incoming, linear, radiation = outside.incoming, outside.linear, outside.radiation
        else:
            skin = outside
        flux = 0.0
        for turn in range(_MOST):
            earlier = (list(heat), skin) if turn >= _HALVED else None
            # Eliminate from the middle outwards; each turn ends the row of the cell before, whose outer face this is.
            slopes, shares, offsets = [], [], []
            before = diagonal = 1.0
            right = 0.0
            for joules, keeps, mass, conductance, held in zip(
                heat, kept, self._masses, self._conductances, latent, strict=True
            ):
                if held is None:
                    i = int(joules * scale)
                    steepness = slope[i]
                    here = base[i] + steepness * joules
                else:
                    here, steepness = tables.between(joules, held)
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
            if earlier:
                heat = [(old + new) / 2 for old, new in zip(earlier[0], heat, strict=True)]
                skin = (earlier[1] + skin) / 2
            if largest > _FAR:
                heat = [min(max(joules, 0.0), tables.most_heat) for joules in heat]
                skin = min(max(skin, 1.0), HOTTEST)
        return Solved(Heat(heat, tables.latent(heat, now.latent)), skin, flux)
