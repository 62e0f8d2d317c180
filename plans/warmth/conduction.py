"""Heat conduction in a piece of steel: implicit finite elements over its mesh, the skin's losses node by node.

The state is the enthalpy at each node, so that heat is conserved to rounding whatever the specific heat does, and how
much of it is latent, which says by which way the steel there comes to its temperature (see `Transformation`). One step
solves, for every node of volume V and density rho,

    rho V (weight h - kept) / seconds = heat in through its links + heat in through its skin

by Newton's method in the potential (see `Material`). With weight 1 and the old enthalpies kept this is the backward
Euler method, stable for any step; other weights give methods of higher order.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import sqrt
from operator import itemgetter, mul, sub
from typing import NamedTuple

from plans.warmth.correction import Correction, Lacking
from plans.warmth.material import Heat, Material
from plans.warmth.mesh import Mesh
from plans.warmth.surroundings import Surroundings

CLOSE = 0.5
"""Correction of the potential after which Newton's method makes no other [W/m].

It is some 0.02 K; as the method converges quadratically, the error that is left lies far below it.
"""
_ALIKE = 700.0
"""Below and above are alike where they are no further apart, about 1 K [J/kg]."""
_MOST = 40
"""Corrections at most; steps of any length from any state have been seen to need 27."""
_HALVED = 12
"""From this one on, corrections are halved: across the bends of the transformation whole ones may go to and fro."""


class Warmth(NamedTuple):
    """How warm a piece is, place by place."""

    skin: float
    """Mean over its skin [K]."""
    coldest: float
    """Its coldest place: a corner, an edge, the side on the anvil while it is struck, the middle in the fire [K]."""
    face: float
    """Mean over the face that lies on the anvil or the lower die [K]."""
    middle: float
    """Where it lies deepest [K]."""


class Mean:
    """The mean over part of a piece of what its nodes have."""

    __slots__ = ("_shares", "_those")

    def __init__(self, parts: Iterable[tuple[int, float]]) -> None:
        """Take the mean over some nodes.

        Args:
            parts: number of each node, and what it counts for
        """
        nodes, areas = zip(*((node, area) for node, area in parts if area), strict=True)
        whole = sum(areas)
        self._shares = [area / whole for area in areas]
        self._those = itemgetter(*nodes, nodes[0])
        """The first stands again at the end: of a single one no tuple would come."""

    def of(self, values: Sequence[float]) -> float:
        """The mean of the values, which are one for each node of the piece."""
        mean: float = sum(map(mul, self._shares, self._those(values)))
        return mean


class Conduction:
    """The equations of heat conduction in one piece of one material; it holds no state of the piece."""

    __slots__ = ("_correction", "_face", "_folded", "_mass", "_masses", "_skin", "material", "mesh")

    def __init__(self, mesh: Mesh, material: Material) -> None:
        """Put the equations up.

        Args:
            mesh: the piece, cut up
            material: what it is made of
        """
        self.mesh = mesh
        self.material = material
        self._masses = [material.density * volume for volume in mesh.volumes]
        self._mass = sum(self._masses)
        self._correction = Correction(mesh, material.tables)
        self._folded: Conduction | None = None
        self._skin = Mean((one.node, one.area) for one in mesh.skin)
        touched = [(one.node, one.below) for one in mesh.skin if one.below]
        self._face = Mean(touched) if touched else self._skin

    def folded(self) -> Conduction:
        """The equations of the piece folded over its middle, for where below and above are alike."""
        if self._folded is None:
            self._folded = Conduction(self.mesh.fold.mesh, self.material)
        return self._folded

    def fares_alike(self, heat: Heat, surroundings: Surroundings) -> bool:
        """Whether below and above are alike, and fare alike, so that the folded piece stands for the whole.

        Args:
            heat: heat at each node
            surroundings: what it is in
        """
        if surroundings.touches_below_only:
            return False
        mirrored = self._mirrored(heat.joules)
        return mirrored == heat.joules or self.apart(heat.joules, mirrored) < _ALIKE

    def fold(self, heat: Heat) -> Heat:
        """Heat at each node of the folded piece: the mean of the two that it stands for.

        Args:
            heat: heat at each node of the whole
        """
        onto, count = self.mesh.fold.onto, self.mesh.fold.mesh.count
        if self._mirrored(heat.joules) == heat.joules and self._mirrored(heat.latent) == list(heat.latent):
            # As it was unfolded: the very same again, and quicker.
            joules, latents = [0.0] * count, [0.0] * count
            for k, held, latent in zip(onto, *heat, strict=True):
                joules[k], latents[k] = held, latent
            return Heat(joules, latents)
        masses, joules, latents = [0.0] * count, [0.0] * count, [0.0] * count
        for k, mass, held, latent in zip(onto, self._masses, heat.joules, heat.latent, strict=True):
            masses[k] += mass
            joules[k] += mass * held
            latents[k] += mass * latent
        mean = [held / mass for held, mass in zip(joules, masses, strict=True)]
        even = min(heat.latent) == max(heat.latent)
        latents = [heat.latent[0] if even else latent / mass for latent, mass in zip(latents, masses, strict=True)]
        return Heat(mean, self.material.tables.latent(mean, latents))

    def _mirrored(self, joules: Sequence[float]) -> list[float]:
        """Heat at each node if the piece were turned upside down [J/kg]."""
        return [joules[node] for node in self.mesh.fold.opposite]

    def unfold(self, heat: Heat) -> Heat:
        """Heat at each node of the whole, from that of the folded piece.

        Args:
            heat: heat at each node of the folded piece
        """
        onto = self.mesh.fold.onto
        return Heat([heat.joules[k] for k in onto], [heat.latent[k] for k in onto])

    @property
    def count(self) -> int:
        """Number of nodes."""
        return len(self._masses)

    @property
    def mass(self) -> float:
        """Mass of the piece [kg], or of a slice of it [kg/m]."""
        return self._mass

    def mean(self, joules: Sequence[float]) -> float:
        """Mean over the mass of the piece of what its nodes hold [J/kg].

        Args:
            joules: heat at each node [J/kg]
        """
        whole: float = sum(map(mul, self._masses, joules))
        return whole / self._mass

    def warmth(self, heat: Heat) -> Warmth:
        """How warm the piece is, place by place.

        Args:
            heat: heat at each node
        """
        kelvins = self.kelvins(heat)
        return Warmth(self._skin.of(kelvins), min(kelvins), self._face.of(kelvins), kelvins[self.mesh.middle])

    def middle(self, heat: Heat) -> float:
        """Temperature where the piece lies deepest [K].

        Args:
            heat: heat at each node
        """
        node = self.mesh.middle
        return self.material.temperature_of(heat.joules[node], heat.latent[node])

    def kelvins(self, heat: Heat) -> list[float]:
        """Temperature at each node [K].

        Args:
            heat: heat at each node
        """
        tables = self.material.tables
        base, slope = tables.kelvins
        scale = tables.segments_per_watt
        kelvins = []
        for watts in tables.along(heat.joules, heat.latent)[0]:
            i = int(watts * scale)
            kelvins.append(base[i] + slope[i] * watts)
        return kelvins

    def apart(self, one: Sequence[float], other: Sequence[float]) -> float:
        """How far two states of the piece are apart: the root of the mean square over its mass [J/kg].

        Args:
            one: heat at each node in the one [J/kg]
            other: heat at each node in the other [J/kg]
        """
        apart = list(map(sub, one, other))
        return sqrt(sum(map(mul, self._masses, map(mul, apart, apart))) / self._mass)

    def solve(
        self,
        now: Heat,
        seconds: float,
        outside: Surroundings,
        *,
        skin: float | None = None,
        guess: Sequence[float] | None = None,
        kept: Sequence[float] | None = None,
        weight: float = 1.0,
        close: float = CLOSE,
    ) -> Heat:
        """Solve one implicit step: the heat in the piece at its end.

        Args:
            now: the heat at the beginning of the step
            seconds: length of the step [s]
            outside: what is round the piece
            skin: mean temperature of its skin at the end, where it is known [K]: then as much heat flows through every
                part of the skin, besides what `outside` makes flow, as brings it there
            guess: enthalpies to begin from, close to the solution, if those of `now` are not the closest [J/kg]
            kept: what the method keeps of earlier enthalpies, node by node; those of `now` by themselves, if
                nothing else is said [J/kg]
            weight: what the method gives the new enthalpy
            close: the correction after which no other is made [W/m]
        """
        tables, rate = self.material.tables, 1.0 / seconds
        # Whatever it is told, as a skin that no such surroundings leave: it never looks beyond the tables.
        heat = tables.within(now.joules if guess is None else guess)
        rates = [mass * rate for mass in self._masses]
        turnover = rates if weight == 1.0 else [each * weight for each in rates]
        supply = list(map(mul, rates, now.joules if kept is None else kept))
        step = Lacking(turnover, supply, outside, skin)
        for turn in range(_MOST):
            earlier = heat
            heat, largest = self._correction.correct(step, heat, *tables.along(heat, now.latent))
            if turn >= _HALVED and largest >= close:
                heat = [(old + new) / 2 for old, new in zip(earlier, heat, strict=True)]
            heat = tables.within(heat)
            if largest < close:
                break
        return Heat(heat, tables.latent(heat, now.latent))
