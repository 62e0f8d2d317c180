"""Pictures to scale of what is done at the bench."""

from __future__ import annotations

from plans.bench.bevels import DoubleEdge
from plans.bench.evening import Cut, ground
from plans.bench.forged import Forged
from plans.drawing import STEELS, Drawing, Measure, Note, Part, Pattern, Point, box, long


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


def bevels_drawn(section: DoubleEdge, cut: Cut | None) -> Drawing:
    """The section of a double edge, its front above and its first edge at the left, with what to take off next.

    Args:
        section: as it was measured
        cut: what is ground next; None where all bevels agree
    """
    left = section if cut is None else ground(section, cut)
    parts = [Part(_outline(left), STEELS[0], "what stays" if cut is not None else "")]
    if cut is not None:
        parts.insert(0, Part(_outline(section), Pattern.CHECKED, "what to take off next"))
    one, two, three, four = section.widths
    (x, y), (u, v) = (
        (section.front.across, section.front.height),
        (section.back.across, -section.back.height),
    )
    first, second = section.edges
    measures = (
        Measure((0.0, y), (x, y), long(one)),
        Measure((x, y), (section.width, y), long(two)),
        Measure((0.0, v), (u, v), long(three)),
        Measure((u, v), (section.width, v), long(four)),
        Measure((0.0, -first / 2), (0.0, first / 2), long(first)),
        Measure((section.width, -second / 2), (section.width, second / 2), long(second)),
        Measure((section.width, v), (section.width, y), long(section.ridge)),
    )
    notes = () if cut is None else (_note(section, cut),)
    return Drawing("the section, its front above, its first edge at the left", tuple(parts), measures, notes)


def _note(section: DoubleEdge, cut: Cut) -> Note:
    """How deep, in the middle of the bevel that is ground."""
    face = section.front if cut.bevel < 2 else section.back
    edge = (0.0, face.first) if cut.bevel % 2 == 0 else (section.width, face.second)
    side = 1.0 if cut.bevel < 2 else -1.0
    at = ((edge[0] + face.across) / 2, side * (edge[1] + face.height) / 4)
    return Note(at, lambda units: f"off: {units.depth(cut.at_ridge)}")


def profile_drawn(difference: float, width: float) -> Drawing:
    """The blade from its front at one place, laid turned over on its outline, with what stands out.

    Args:
        difference: how far one edge stands out [m]
        width: of the blade there [m]
    """
    tall = width / 3
    half = (width - difference) / 2
    parts = (
        Part(box(-half, 0.0, half, tall), STEELS[0], "on the line either way"),
        Part(box(half, 0.0, half + difference, tall), Pattern.CHECKED, "stands out: grind off"),
    )
    measures = (
        Measure((-half, 0.0), (half, 0.0), long(width - difference)),
        Measure((half, tall), (half + difference, tall), lambda units: units.depth(difference)),
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
        Measure((0.0, above + full), (width, above + full), long(width)),
        Measure((0.0, -full), (then.width, -full), long(then.width)),
        Measure((0.0, above - full), (0.0, above + full), long(thickness)),
        Measure((then.width, -thin), (then.width, thin), long(edge)),
    )
    return Drawing("the bar cut across, before and after", parts, measures)
