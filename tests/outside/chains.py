"""The plate, the long round bar and the ball of textbooks, cut up for the conduction solver."""

from __future__ import annotations

from plans.warmth.bar import BarShape
from plans.warmth.mesh import Cut, Mesh


def chain(shape: BarShape, cells: int = 8) -> Mesh:
    """A row of nodes from the middle of a shape to its skin, for one square metre of skin.

    Args:
        shape: half-thickness, and how the area grows outwards
        cells: number of cells between middle and skin
    """
    exponent, deep = shape.exponent, shape.half_thickness / cells
    cut = Cut([(k / cells, 0.5) for k in range(cells + 1)])
    for k in range(cells + 1):
        inner, outer = max(k - 0.5, 0.0) / cells, min(k + 0.5, cells) / cells
        cut.volumes[k] = shape.volume_for_area * (outer ** (exponent + 1) - inner ** (exponent + 1))
        if k:
            cut.link(k - 1, k, inner**exponent / deep)
    cut.bare((cells,), 1.0)
    return cut.done(0)
