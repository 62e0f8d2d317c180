"""Pictures to scale of what is done at the bench."""

from __future__ import annotations

from plans.bench.bevels import BEVELS, DoubleEdge, Measured
from plans.bench.evening import Cut
from plans.bench.forged import Forged
from plans.drawing import STEELS, Drawing, Measure, Part, Pattern, Point, as_typed, box
from plans.units import Shown

_THICK = 1 / 4
"""How thick what is to be ground off is drawn at least, in ridges: a cut to scale would be thinner than a dot."""


def _found(metres: float) -> Shown:
    return lambda units: units.width(metres)


def _outline(section: DoubleEdge) -> tuple[Point, ...]:
    """The corners of a double edge, its front above, from the front of its first edge on."""
    front, back, width = section.front, section.back, section.width
    return (
        (0.0, front.first),
        (front.across, front.height),
        (width, front.second),
        (width, -back.second),
        (back.across, -back.height),
        (0.0, -back.first),
    )


def bevels_drawn(section: DoubleEdge, measured: Measured, cut: Cut | None) -> Drawing:
    """The section of a double edge, its front above and its first edge at the left, with what to take off next.

    Args:
        section: as what was measured tells it
        measured: what stands beside it
        cut: what is ground next, which is drawn thick enough to be seen; None where nothing is
    """
    parts = [Part(_outline(section), STEELS[0], "what stays" if cut is not None else "")]
    if cut is not None:
        parts.append(Part(_strip(section, cut), Pattern.CHECKED, _take_off(cut)))
    one, two, three, four = measured.widths
    (x, y), (u, v) = (
        (section.front.across, section.front.height),
        (section.back.across, -section.back.height),
    )
    first, second = measured.edges
    measures = (
        Measure((0.0, y), (x, y), as_typed(one)),
        Measure((x, y), (section.width, y), as_typed(two)),
        Measure((0.0, v), (u, v), as_typed(three)),
        Measure((u, v), (section.width, v), as_typed(four)),
        Measure((0.0, -first / 2), (0.0, first / 2), as_typed(first)),
        Measure((section.width, -second / 2), (section.width, second / 2), as_typed(second)),
        Measure((section.width, v), (section.width, y), as_typed(measured.ridge)),
    )
    return Drawing("the section, its front above, its first edge at the left", tuple(parts), measures)


def _take_off(cut: Cut) -> Shown:
    return lambda units: f"{BEVELS[cut.bevel]}: {units.depth(cut.at_ridge)} off, drawn thicker"


def _strip(section: DoubleEdge, cut: Cut) -> tuple[Point, ...]:
    """What is ground off a bevel, from its edge to its ridge."""
    face = section.front if cut.bevel < 2 else section.back
    side = 1.0 if cut.bevel < 2 else -1.0
    border = (0.0, face.first) if cut.bevel % 2 == 0 else (section.width, face.second)
    thick = max(cut.at_ridge, _THICK * section.ridge)
    # Where the edge is ground too, all of this face's half of it is drawn so.
    thin = border[1] if cut.at_edge > 0 else 0.0
    corners = (border, (face.across, face.height), (face.across, face.height - thick), (border[0], border[1] - thin))
    return tuple((x, side * y) for x, y in corners)


def profile_drawn(difference: float, width: float) -> Drawing:
    """The blade from its front at one place, laid turned over on its outline, with what stands out.

    Args:
        difference: how far one edge stands out [m]
        width: of the blade there [m]
    """
    tall = width / 6
    half, seen = (width - difference) / 2, max(difference, width / 20)
    name = "stands out: grind off" + ("" if seen == difference else ", drawn wider")
    parts = (
        Part(box(-half, 0.0, half, tall), STEELS[0], "on the line either way"),
        Part(box(half, 0.0, half + seen, tall), Pattern.CHECKED, name),
    )
    measures = (
        Measure((-half, 0.0), (half, 0.0), _found(width - difference)),
        Measure((half, tall), (half + seen, tall), as_typed(difference)),
    )
    return Drawing("a piece of the blade from the front, turned over on its outline", parts, measures)


def forged_drawn(width: float, thickness: float, edge: float, bevel: float | None, edges: int, then: Forged) -> Drawing:
    """The bar cut across before, and under it after its bevels were forged in.

    Args:
        width: of the bar before [m]
        thickness: of the bar [m]
        edge: thickness of the edge then [m]
        bevel: width of each bevel then [m]; None where they take the whole width
        edges: 1 or 2 of them
        then: the bar after
    """
    full, thin = thickness / 2, edge / 2
    across = then.width / edges if bevel is None else bevel
    right = [(then.width - across, full), (then.width, thin), (then.width, -thin), (then.width - across, -full)]
    left = [(across, -full), (0.0, -thin), (0.0, thin), (across, full)] if edges == 2 else [(0.0, -full), (0.0, full)]
    above = 2 * thickness
    parts = (
        Part(box(0.0, above - full, width, above + full), STEELS[1], "before"),
        Part((*right, *left), STEELS[0], "after"),
    )
    measures = (
        Measure((0.0, above + full), (width, above + full), as_typed(width)),
        Measure((0.0, -full), (then.width, -full), _found(then.width)),
        Measure((0.0, above - full), (0.0, above + full), as_typed(thickness)),
        Measure((then.width, -thin), (then.width, thin), as_typed(edge)),
    )
    return Drawing("the bar cut across, before and after", parts, measures)
