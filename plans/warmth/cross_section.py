"""How a cross-section is cut up for the conduction solver.

Left and right are alike in every form but the wedge, so that one half stands for both; below and above are not, since
the work lies on an anvil. Cells are small where the heat goes out fastest: at corners and edges.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from math import ceil, cos, dist, log, pi, sin

from plans.shapes import REGULAR, Form, Section
from plans.warmth.mesh import Cut, Mesh

_FACE = 0.0015
"""Thickness of the cells at the faces: less than what a tool chills in some seconds [m]."""
_WIDENING = 1.8
"""How many times as wide each cell is as the one before it, where `_MOST` cells are enough for that."""
_MOST = 5
"""Most cells from a face to the middle; those of thick work widen faster."""
_ROUND_ANGLES = 7


@lru_cache(maxsize=64)
def cross_section(section: Section, length: float | None = None) -> Mesh:
    """A slice of a long bar of a section, one metre long, cut up.

    Args:
        section: cross-section of the bar
        length: length of a bar with both ends bare [m]: what its ends give off is shared out over its length; None for
            a long bar whose ends don't count

    Raises:
        ValueError: the length is not above zero.
    """
    if length is not None and not length > 0:
        raise ValueError("a bar needs a length above zero")
    ends = 0.0 if length is None else 2 / length
    if section.is_round:
        return _round(section.width / 2, ends)
    return _cornered(section, ends) if section.form in REGULAR else _across(section, ends)


def _columns(section: Section) -> list[float]:
    """Where columns of nodes lie, as shares of the width, from an edge or a side inwards."""
    if section.edge is None:
        return [x / section.width for x in _inwards(section.width / 2)]
    cells, whole = (6, 1.0) if section.form is Form.WEDGE else (5, 0.5)
    over = whole if section.bevel is None else section.bevel / section.width
    if over >= whole:
        return [_grown(k / cells) * whole for k in range(cells + 1)]
    # Behind the bevel it is flat: one column half way, and one near a spine that is far off.
    thick = section.thickness / section.width
    last = [whole - thick] if section.form is Form.WEDGE and whole - over > 2.5 * thick else []
    return [*(_grown(k / cells) * over for k in range(cells + 1)), (over + (last or [whole])[0]) / 2, *last, whole]


def _rows(section: Section) -> list[float]:
    """Where rows of nodes lie, as shares of the thickness, from below upwards."""
    thick = section.thickness if section.edge is None else (section.thickness + section.edge) / 2
    lower = [y / thick for y in _inwards(thick / 2)]
    return [*lower, *(1 - y for y in reversed(lower[:-1]))]


def _inwards(half: float) -> list[float]:
    """Where nodes lie from a face (0) to the middle: close together at the face [m]."""
    cells = min(_MOST, max(2, ceil(log(half / _FACE * (_WIDENING - 1) + 1, _WIDENING))))
    low, high = 1.0, 10.0
    for _ in range(30):
        widening = (low + high) / 2
        low, high = (low, widening) if _FACE * sum(widening**k for k in range(cells)) > half else (widening, high)
    widths = [low**k for k in range(cells)]
    unit = half / sum(widths)
    return [unit * sum(widths[:k]) for k in range(cells)] + [half]


def _grown(share: float) -> float:
    return share * (0.4 + 0.6 * share)


def _across(section: Section, ends: float) -> Mesh:
    across, along = _rows(section), _columns(section)
    rows, columns = len(across), len(along)
    halved = section.form is not Form.WEDGE

    def node(column: int, row: int) -> int:
        return column * rows + row

    places = [(x, y) for x in along for y in across]
    thick = dict(zip(along, _thick(section, along), strict=True))
    points = [(x * section.width, (y - 0.5) * thick[x]) for x, y in places]
    cut = Cut(places)
    for i in range(columns - 1):
        for j in range(rows - 1):
            corners = node(i, j), node(i + 1, j), node(i + 1, j + 1), node(i, j + 1)
            cut.quadrilateral(corners, [points[corner] for corner in corners])
        bottom, top = (node(i, 0), node(i + 1, 0)), (node(i, rows - 1), node(i + 1, rows - 1))
        cut.bare(bottom, dist(*(points[one] for one in bottom)), below=True)
        cut.bare(top, dist(*(points[one] for one in top)), above=True)
    for i in (0,) if halved else (0, columns - 1):
        for j in range(rows - 1):
            side = node(i, j), node(i, j + 1)
            cut.bare(side, dist(*(points[one] for one in side)))
    centre = [node(i, rows // 2) for i in range(columns)]
    depths = [round(_depth(section, points[one][0]), 9) for one in centre]
    deepest = [one for one, depth in zip(centre, depths, strict=True) if depth == max(depths)]
    return cut.done(deepest[-1 if halved else len(deepest) // 2], ends)


def _thick(section: Section, along: list[float]) -> list[float]:
    """Thickness at each column [m]; between two it runs straight, and what that cuts off an arc is given back."""
    thick = [section.thickness_at(x) for x in along]
    if section.radius is None and section.form is not Form.LENS:
        return thick
    assert section.edge is not None
    if section.form is Form.LENS:
        straight, area = [section.edge] * len(along), section.width * section.edge
    else:
        flat = Section(section.width, section.thickness, section.form, section.edge, section.bevel)
        straight, area = [flat.thickness_at(x) for x in along], flat.area
    bows = [one - other for one, other in zip(thick, straight, strict=True)]
    cells = zip(pairwise(along), pairwise(bows), strict=True)
    sides = 1 if section.form is Form.WEDGE else 2
    cut_off = sides * section.width * sum((right - left) * (one + other) / 2 for (left, right), (one, other) in cells)
    more = (section.area - area) / cut_off
    return [each + more * bow for each, bow in zip(straight, bows, strict=True)]


def _depth(section: Section, at: float) -> float:
    across = section.thickness_at(at / section.width) / 2
    return min(section.width - at, across) if section.form is Form.WEDGE else across


def _cornered(section: Section, ends: float) -> Mesh:
    """Half of an octagon or a hexagon, in rings round its middle; only the side that it lies on touches the anvil."""
    w, half = section.width, section.thickness / 2
    left = sorted((point for point in section.outline.points() if point.x < w / 2), key=lambda point: point.y)
    corners = [(w / 2, -half), *left, (w / 2, half)]
    # On the sides that stand free one more ray goes to the middle of each; it stands there already where a side is cut.
    rays = [corners[0]]
    for (ax, ay), (bx, by) in pairwise(corners):
        if ay != by:
            rays.append(((ax + bx) / 2, (ay + by) / 2))
        rays.append((bx, by))
    rings = [1 - depth / half for depth in reversed(_inwards(half))][1:]
    points = [(w / 2, 0.0)]
    points += [(w / 2 + out * (x - w / 2), out * y) for out in rings for x, y in rays]
    cut = Cut([(x / w, 0.5 + y / 2 / half) for x, y in points])
    count = len(rays)
    for k in range(len(rings)):
        for ray in range(count - 1):
            outer = 1 + k * count + ray
            if k == 0:
                cut.triangle((0, outer, outer + 1), [points[one] for one in (0, outer, outer + 1)])
                continue
            four = outer - count, outer, outer + 1, outer + 1 - count
            cut.quadrilateral(four, [points[one] for one in four])
    skin = range(1 + (len(rings) - 1) * count, len(points))
    for one, other in pairwise(skin):
        cut.bare((one, other), dist(points[one], points[other]), below=one == skin[0], above=other == skin[-1])
    return cut.done(0, ends)


def _round(radius: float, ends: float) -> Mesh:
    """Half of a circle in rings; flows and volumes are those of the circle, not of a polygon."""
    rings, angles = [radius - depth for depth in reversed(_inwards(radius))][1:], _ROUND_ANGLES
    wide = pi / (angles - 1)
    between = [(inner + outer) / 2 for inner, outer in pairwise((0.0, *rings))] + [radius]
    places = [(0.5, 0.5)]
    for ring in rings:
        out = ring / radius / 2
        places += [(0.5 - out * sin(wide * turn), 0.5 - out * cos(wide * turn)) for turn in range(angles)]
    cut = Cut(places)
    cut.volumes[0] = pi * between[0] ** 2 / 2
    for k, ring in enumerate(rings):
        inner, outer, deep = between[k], between[k + 1], ring - (rings[k - 1] if k else 0.0)
        for turn in range(angles):
            node = 1 + k * angles + turn
            span = wide if 0 < turn < angles - 1 else wide / 2
            cut.volumes[node] = span * (outer**2 - inner**2) / 2
            cut.link(node - angles if k else 0, node, span * inner / deep)
            if turn:
                cut.link(node - 1, node, (outer - inner) / (ring * wide))
            if ring == rings[-1]:
                # As much of it lies on the anvil, and under the upper die, as of a square bar.
                cut.bare((node,), span * radius, below=turn < angles / 4, above=turn > angles * 3 / 4 - 1)
    return cut.done(0, ends)
