"""How deep to grind so that no decarburized skin is left on a double edge, and what stays of it then."""

from __future__ import annotations

from math import cos, tan

from plans.bench.bevels import DoubleEdge
from plans.record import record


@record
class Cleared:
    """A double edge whose bevels have all been ground as deep."""

    edges: tuple[float, float]
    """Thickness that is left of the first and of the second edge [m]; 0 where the edge moves in."""
    ridge: float
    """Thickness that is left at the ridge [m]; 0 where nothing is left."""
    narrower: tuple[float, float]
    """How far the first and the second edge move in, with the flat of the edge ground as deep too [m]."""


def clear_decarb(section: DoubleEdge, depth: float) -> Cleared:
    """What is left of a double edge when every bevel and the flats of both edges are ground as deep.

    Args:
        section: before
        depth: square to each face, from 0 up: the `most` of `plans.steel.grinding_allowance` is what is safe [m]
    """
    front, back = section.front, section.back
    faces = (front, front.mirrored(section.width), back, back.mirrored(section.width))
    slopes = [face.slope for face in faces]
    edges, narrower = [], []
    for edge in (0, 1):
        pair = (slopes[edge], slopes[edge + 2])
        # The flat goes back by the depth, where the blade is thicker by what both bevels rise on that way.
        left = section.edges[edge] - sum(depth / cos(slope) for slope in pair) + depth * sum(map(tan, pair))
        narrower.append(depth + max(-left, 0.0) / sum(map(tan, pair)))
        edges.append(max(left, 0.0))
    lower = sum(
        depth * (cos((one - other) / 2) / cos((one + other) / 2) if one + other > 0 else 1.0)
        for one, other in ((slopes[0], slopes[1]), (slopes[2], slopes[3]))
    )
    first, second = edges
    return Cleared((first, second), max(section.ridge - lower, 0.0), (narrower[0], narrower[1]))
