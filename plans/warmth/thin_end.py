"""How a thin end is cut up for the conduction solver: a point, a tang or a taper, with the body that it grows from.

It is cut along its length and its thickness; across its width, over which so thin a piece is about even, it is one. Its
narrow sides and its tip give off heat as its broad faces do.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from math import hypot

from plans.shapes import Section
from plans.warmth.mesh import Cut, Mesh

_ACROSS = (0.0, 0.5, 1.0)
_ALONG = 7
"""Cells along the end."""
_BODY = (0.008, 0.012, 0.02)
"""Cells of the body behind it [m]: what lies farther away is not felt at the tip in the time that it may be struck."""


@lru_cache(maxsize=64)
def thin_end(body: Section, tip: Section, length: float) -> Mesh:
    """An end that tapers from the section of the body to that of its tip, and a piece of the body, cut up.

    Args:
        body: section where it begins
        tip: section at its tip
        length: length over which it tapers [m]

    Raises:
        ValueError: the length is not above zero.
    """
    if not length > 0:
        raise ValueError("a thin end needs a length above zero")
    at = [length * (k / _ALONG) * (0.5 + 0.5 * k / _ALONG) for k in range(_ALONG + 1)]
    for cell in _BODY:
        at.append(at[-1] + cell)
    shares = [min(x / length, 1.0) for x in at]
    thick = [_mean(tip.area / tip.width, body.area / body.width, share) for share in shares]
    wide = [_mean(tip.width, body.width, share) for share in shares]
    rows = len(_ACROSS)
    places = [(x / at[-1], y) for x in at for y in _ACROSS]
    points = [(x, (y - 0.5) * thickness) for x, thickness in zip(at, thick, strict=True) for y in _ACROSS]
    cut = Cut(places)
    for column, (one, other) in enumerate(pairwise(wide)):
        left, width = rows * column, (one + other) / 2
        before = list(cut.volumes)
        for k in range(left, left + rows - 1):
            corners = (k, k + rows, k + rows + 1, k + 1)
            cut.quadrilateral(corners, [points[corner] for corner in corners], width)
        for k in range(left, left + 2 * rows):
            cut.bare((k,), 2 * (cut.volumes[k] - before[k]) / width)
        side = hypot(points[left + rows][0] - points[left][0], points[left + rows][1] - points[left][1])
        cut.bare((left, left + rows), side * width, below=True)
        cut.bare((left + rows - 1, left + 2 * rows - 1), side * width, above=True)
    for pair in pairwise(range(rows)):
        cut.bare(pair, wide[0] * (points[pair[1]][1] - points[pair[0]][1]))
    return cut.done(rows * (len(at) - 1) + rows // 2)


def _mean(tip: float, body: float, share: float) -> float:
    return tip + share * (body - tip)
