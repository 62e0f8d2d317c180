"""A piece of steel cut up for the conduction solver: nodes that hold heat, links that carry it, skin that gives it off.

Every node stands at a point of the piece, those on its skin too, and holds the heat of the steel round it. A link
carries heat as the difference of the potential of its two nodes (see `Material`), times a conductance that only the
shape decides. How a shape is cut up stands in cross_section.py and thin_end.py.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from plans.warmth.elimination import Elimination


class Link(NamedTuple):
    """What carries heat between two nodes."""

    one: int
    """Number of the node at one end."""
    other: int
    """Number of the node at the other end."""
    conductance: float
    """Heat flow between them for a difference of the potential [m, or 1 for a slice one metre long]."""


class Skin(NamedTuple):
    """What of a node lies bare."""

    node: int
    """Number of the node."""
    area: float
    """Area of its skin, that which tools touch counted in, but not the bare ends [m2, or m for a slice]."""
    below: float
    """How much of `area` lies on the anvil or the lower die [m2 or m]."""
    above: float
    """How much of `area` the upper die touches, where there is one [m2 or m]."""
    ends: float
    """Its share of the bare ends of the piece [m2 or m]."""


@dataclass(frozen=True)
class Mesh:
    """Nodes, links and skin of a piece, or of a slice of it one metre long; both are solved alike."""

    volumes: tuple[float, ...]
    """Volume of steel round each node [m3, or m2 for a slice]."""
    links: tuple[Link, ...]
    """What carries heat between the nodes."""
    skin: tuple[Skin, ...]
    """What lies bare, node by node; nodes inside have none."""
    middle: int
    """Number of the node that lies deepest, the last that a fire warms through."""
    places: tuple[tuple[float, float], ...]
    """Where each node lies in the piece, as shares (0 to 1) of its width or length and of its thickness."""

    @property
    def count(self) -> int:
        """Number of nodes."""
        return len(self.volumes)

    @cached_property
    def skin_area(self) -> float:
        """Area of the skin, bare ends left out [m2, or m for a slice]."""
        return sum(one.area for one in self.skin)

    @cached_property
    def fold(self) -> Fold:
        """The piece folded over its middle, where below and above are alike: half of the nodes stand for all.

        Raises:
            KeyError: a node has none that lies opposite to it.
        """
        at = {(round(x, 9), round(y, 9)): node for node, (x, y) in enumerate(self.places)}
        first = [min(node, at[round(x, 9), round(1 - y, 9)]) for node, (x, y) in enumerate(self.places)]
        kept = sorted(set(first))
        onto = tuple(kept.index(node) for node in first)
        cut = Cut([self.places[node] for node in kept])
        for node, volume in enumerate(self.volumes):
            cut.volumes[onto[node]] += volume
        for one, other, conductance in self.links:
            if onto[one] != onto[other]:
                cut.link(onto[one], onto[other], conductance)
        for node, area, below, above, ends in self.skin:
            cut.add_skin(onto[node], area, below, above, ends)
        return Fold(cut.done(onto[self.middle]), onto, tuple(at[round(x, 9), round(1 - y, 9)] for x, y in self.places))

    @cached_property
    def elimination(self) -> Elimination:
        """How the equations of the piece are solved: the matrix of conduction, whose diagonal each step changes."""
        return Elimination(self.count, [(one, other, -conductance) for one, other, conductance in self.links])

    @cached_property
    def diagonal(self) -> tuple[float, ...]:
        """For each node the sum of the conductances of its links."""
        sums = [0.0] * self.count
        for one, other, conductance in self.links:
            sums[one] += conductance
            sums[other] += conductance
        return tuple(sums)

    @cached_property
    def depths(self) -> tuple[float, ...]:
        """How deep each node lies for heat that flows evenly through the skin [m2].

        A piece that warms steadily by a flux q has, below the mean potential of its skin, q times this times skin over
        volume; it is below 0 at corners and edges, which run ahead of the rest.
        """
        diagonal, hold = list(self.diagonal), self.skin_area / sum(self.volumes)
        for one in self.skin:
            diagonal[one.node] += hold * one.area
        sinks = self.elimination.solve(diagonal, self.volumes)
        mean = sum(one.area * sinks[one.node] for one in self.skin) / self.skin_area
        return tuple(sink - mean for sink in sinks)

    @cached_property
    def smallest(self) -> float:
        """Least of volume over conductance that any node has: how quickly the quickest evens out [m2]."""
        return min(volume / all_of_it for volume, all_of_it in zip(self.volumes, self.diagonal, strict=True))


class Fold(NamedTuple):
    """A piece folded over its middle."""

    mesh: Mesh
    """What is left of its nodes; each holds what it and the one opposite to it held."""
    onto: tuple[int, ...]
    """For each node of the whole piece the one of `mesh` that stands for it."""
    opposite: tuple[int, ...]
    """For each node of the whole piece the one that lies opposite to it; itself in the middle."""


class Cut:
    """A piece while it is cut up: volumes, links and skin are added up part by part."""

    def __init__(self, places: Sequence[tuple[float, float]]) -> None:
        """Begin with nodes that hold nothing.

        Args:
            places: where they lie, as `Mesh.places` says
        """
        self._places = tuple(places)
        self.volumes = [0.0] * len(places)
        """Volume round each node so far."""
        self._links: dict[tuple[int, int], float] = {}
        self._skin = [[0.0, 0.0, 0.0, 0.0] for _ in places]

    def link(self, one: int, other: int, conductance: float) -> None:
        """Let a conductance carry heat between two nodes, besides what is there already."""
        key = (min(one, other), max(one, other))
        self._links[key] = self._links.get(key, 0.0) + conductance

    def bare(self, nodes: Iterable[int], area: float, *, below: bool = False, above: bool = False) -> None:
        """Lay skin bare, in equal shares for some nodes: on the anvil, under the upper die, or touched by neither."""
        nodes = tuple(nodes)
        each = area / len(nodes)
        for node in nodes:
            self.add_skin(node, each, each if below else 0.0, each if above else 0.0)

    def add_skin(self, node: int, area: float, below: float, above: float, ends: float = 0.0) -> None:
        """Add to what of a node lies bare; the areas are those of `Skin`."""
        for k, more in enumerate((area, below, above, ends)):
            self._skin[node][k] += more

    def quadrilateral(self, corners: Sequence[int], points: Sequence[tuple[float, float]], depth: float = 1.0) -> None:
        """Fill a quadrilateral with steel: linear finite elements, the mean of both ways to part it into triangles.

        Args:
            corners: numbers of the four nodes, in order round it
            points: where the corners lie [m]
            depth: how thick the piece is there, at right angles to the plane [m]

        References:
            Pinkall and Polthier, Computing Discrete Minimal Surfaces, Experimental Mathematics 2 (1993), 15-36: the
            conductance along a side of a triangle is half the cotangent of the angle that faces it.
        """
        for three in ((0, 1, 2), (2, 3, 0), (1, 2, 3), (3, 0, 1)):
            self.triangle([corners[k] for k in three], [points[k] for k in three], depth / 2)

    def triangle(self, corners: Sequence[int], points: Sequence[tuple[float, float]], depth: float = 1.0) -> None:
        """Fill a triangle with steel: one linear finite element.

        Args:
            corners: numbers of the three nodes
            points: where the corners lie [m]
            depth: how thick the piece is there, at right angles to the plane [m]
        """
        (ax, ay), (bx, by), (cx, cy) = points
        double = abs((bx - ax) * (cy - ay) - (cx - ax) * (by - ay))
        for k in range(3):
            (px, py), (qx, qy), (rx, ry) = points[k], points[k - 1], points[k - 2]
            facing = ((qx - px) * (rx - px) + (qy - py) * (ry - py)) / double
            self.link(corners[k - 1], corners[k - 2], depth * facing / 2)
            self.volumes[corners[k]] += depth * double / 6

    def done(self, middle: int, ends: float = 0.0) -> Mesh:
        """The piece as it is cut up.

        Args:
            middle: number of the node that lies deepest
            ends: area of the bare ends for each volume, which is shared out over all nodes [1/m]
        """
        most = max(self._links.values())
        return Mesh(
            tuple(self.volumes),
            tuple(Link(*key, value) for key, value in sorted(self._links.items()) if abs(value) > 1e-9 * most),
            tuple(
                Skin(node, area, below, above, of_ends + ends * volume)
                for node, ((area, below, above, of_ends), volume) in enumerate(
                    zip(self._skin, self.volumes, strict=True)
                )
                if area or of_ends or ends
            ),
            middle,
            self._places,
        )
