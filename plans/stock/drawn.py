"""Stock drawn to scale: a bar before and after it is drawn out, and a piece from the side beside its bar."""

from __future__ import annotations

from plans.drawing import STEELS, Drawing, Measure, Part, box, cut_across, long, sides_of
from plans.shapes import Blade, Section

_SLICES = 24
"""Points along a body whose sides are no straight lines."""


def drawn_out(section: Section, length: float, to: Section, then: float) -> Drawing:
    """A bar from the side, and below it the same bar drawn out; each section beside it, cut across.

    Args:
        section: of the bar
        length: of the bar [m]
        to: the section that it is drawn to
        then: its length then [m]
    """
    apart = 0.8 * max(section.thickness, to.thickness)
    low = -apart - to.thickness
    right = 1.05 * max(length, then) + max(section.width, to.width) / 2
    middles = (right, section.thickness / 2), (right, low + to.thickness / 2)
    return Drawing(
        "the bar from the side and cut across, and below it drawn out",
        (
            Part(box(0.0, 0.0, length, section.thickness), STEELS[1], lambda units: units.section(section)),
            Part(box(0.0, low, then, low + to.thickness), STEELS[0], lambda units: units.section(to)),
            cut_across(section, STEELS[1], middles[0]),
            cut_across(to, STEELS[0], middles[1]),
        ),
        (
            Measure((0.0, section.thickness), (length, section.thickness), long(length)),
            Measure((0.0, low), (then, low), long(then)),
            # The legend tells how thick they are.
            sides_of(section, middles[0])[0],
            sides_of(to, middles[1])[0],
        ),
    )


def piece_drawn(piece: Blade, bar: Section | None = None, length: float = 0.0) -> Drawing:
    """A finished piece from its broad side, and below it the bar that it is made of.

    Args:
        piece: as it shall be
        bar: section of the bar; None for the piece alone
        length: of the bar [m]
    """
    upper: list[tuple[float, float]] = []
    for begin, body in zip(piece.begins, piece.bodies, strict=True):
        upper += [(begin + k / _SLICES * body.length, body.width_at(k / _SLICES) / 2) for k in range(_SLICES + 1)]
    wide = 2 * max(y for _, y in upper)
    parts = [Part((*upper, *((x, -y) for x, y in reversed(upper))), STEELS[0], "finished")]
    measures = [
        Measure((0.0, wide / 2), (piece.length, wide / 2), long(piece.length)),
        Measure((piece.length, -wide / 2), (piece.length, wide / 2), long(wide)),
    ]
    if bar is not None:
        low = -wide / 2 - 0.6 * wide - bar.width
        parts.append(Part(box(0.0, low, length, low + bar.width), STEELS[1], lambda units: units.section(bar)))
        measures.append(Measure((0.0, low), (length, low), long(length)))
    return Drawing("the piece from its broad side" + (", and the bar" if bar else ""), tuple(parts), tuple(measures))
