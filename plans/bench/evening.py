"""Which bevel of a double edge to grind next, and how deep, until all four agree: plane geometry, no source needed.

A bevel that is ground grows wider, and its neighbour across the ridge narrower, since the ridge moves down the
neighbour's face. So the narrower of two neighbours is ground, and no deeper than until they agree. A cut as deep all
along takes from the edge as well; one goes as deep there only as this edge is thicker than the other, and runs out to
nothing where it is not. A face is lowered only where it is known how high its ridge stands.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import atan2, cos, hypot, sin, sqrt
from typing import Final

from plans.bench.bevels import BEVELS, BenchError, DoubleEdge, Face
from plans.record import record

AGREE: Final = 0.2e-3
"""Bevels whose widths differ by less count as alike, as a chalked ridge is no sharper: common practice [m]."""
_NOISE: Final = 1e-8
"""Lengths that differ by less are the same, typed as they may be [m]."""
_MOST_CUTS: Final = 12
_STEPS: Final = 40
"""Halvings of a span that a depth lies in."""


@record
class Cut:
    """One face to grind, and how deep, square to it."""

    bevel: int
    """Which, by its place in `BEVELS`."""
    at_ridge: float
    """How deep at the ridge as it then is [m]."""
    at_edge: float
    """How deep where the edge begins [m]."""
    lowers: bool = False
    """Whether it lowers a whole face, with the bevel beside it, rather than even two neighbours."""


def ground(section: DoubleEdge, cut: Cut) -> DoubleEdge:
    """The section after a cut: its ridge slides down the neighbour's face, its edge loses what is taken there.

    Args:
        section: before
        cut: what is ground off; no deeper than the neighbour is wide, nor than the edge is thick
    """
    face, on_front, mirrored = _seen_from(section, cut.bevel)
    neighbour = face.mirrored(section.width)
    slides = cut.at_ridge / sin(face.slope + neighbour.slope)
    after = replace(
        face,
        first=face.first - cut.at_edge / cos(face.slope),
        across=face.across + slides * cos(neighbour.slope),
        height=face.height - slides * sin(neighbour.slope),
    )
    after = after.mirrored(section.width) if mirrored else after
    return replace(section, front=after) if on_front else replace(section, back=after)


def next_cut(section: DoubleEdge, within: float = AGREE, *, lower: bool = True) -> Cut | None:
    """The next cut towards four bevels that agree, the deepest first; None where they do.

    Neighbours across a ridge come first. Where each pair agrees, yet one face is higher than the other and so its pair
    wider, it is lowered at the ridge, one bevel after the other.

    Args:
        section: as it is
        within: widths and edges that differ by less agree, and heights by less than twice as much, above 0 [m]
        lower: whether a face may be lowered, as the heights of both ridges are known

    Raises:
        BenchError: a bevel is so narrow, or a face so low, that no cut makes the bevels agree.
    """
    widths = section.widths
    more = within + _NOISE
    pairs = [(one, one + 1) for one in (0, 2) if abs(widths[one] - widths[one + 1]) > more]
    cuts = [_evened(section, min(pair, key=widths.__getitem__), within) for pair in pairs]
    # Two readings make a difference of heights, so that one counts as alike up to twice as much.
    higher = abs(section.front.height - section.back.height) / 2
    if lower and not cuts and max(max(widths) - min(widths), higher) > more:
        cuts = [_lowered(section, bevel) for bevel in ((2, 3) if sum(widths[:2]) < sum(widths[2:]) else (0, 1))]
    deepest = max(cuts, key=lambda cut: cut.at_ridge, default=None)
    if deepest is not None:
        after = ground(section, deepest)
        if after.ridge <= max(after.edges) or deepest.at_ridge >= section.ridge / 2:
            raise BenchError(
                "widths",
                f"the bevel {BEVELS[deepest.bevel]} is so narrow that the ridge would be ground away: measure again, "
                "or forge the ridge over",
            )
    return deepest


def as_deep_on(section: DoubleEdge, cut: Cut, within: float = AGREE) -> Cut:
    """How deep the same cut would be on a section that measures a little differently; not at all where it needs none.

    Args:
        section: the other section
        cut: what is ground, whatever its depth
        within: edges that differ by less agree [m]
    """
    if not cut.lowers:
        return _evened(section, cut.bevel, within)
    try:
        return _lowered(section, cut.bevel)
    except BenchError:
        return replace(cut, at_ridge=0.0)


def until_even(section: DoubleEdge, within: float = AGREE, *, lower: bool = True) -> Iterator[tuple[Cut, DoubleEdge]]:
    """Every cut until all four bevels agree, each with the section after it.

    Args:
        section: as it is
        within: widths and edges that differ by less agree, and heights by less than twice as much, above 0 [m]
        lower: whether a face may be lowered, as the heights of both ridges are known

    Raises:
        BenchError: a bevel is so narrow, or a face so low, that no cut makes the bevels agree.
    """
    for _ in range(_MOST_CUTS):
        cut = next_cut(section, within, lower=lower)
        if cut is None:
            return
        section = ground(section, cut)
        yield cut, section


def _seen_from(section: DoubleEdge, bevel: int) -> tuple[Face, bool, bool]:
    """The face of a bevel, turned so that it is that of the first edge; whether it is the front; whether turned."""
    on_front, mirrored = bevel < 2, bevel % 2 == 1
    face = section.front if on_front else section.back
    return (face.mirrored(section.width) if mirrored else face), on_front, mirrored


def _cut(section: DoubleEdge, bevel: int, at_ridge: float, within: float) -> Cut:
    """A cut so deep at the ridge, and at the edge no deeper than what it has over the other edge."""
    face, _, _ = _seen_from(section, bevel)
    spare = section.edges[bevel % 2] - section.edges[1 - bevel % 2]
    return Cut(bevel, at_ridge, min(at_ridge, spare * cos(face.slope)) if spare > within + _NOISE else 0.0)


def _evened(section: DoubleEdge, bevel: int, within: float) -> Cut:
    """The cut that makes a bevel as wide as its neighbour across the ridge; none where it is no narrower."""
    neighbour = bevel ^ 1
    face, _, _ = _seen_from(section, bevel)
    slope = face.slope + face.mirrored(section.width).slope
    low, high = 0.0, max(section.widths[neighbour] - section.widths[bevel], 0.0) * sin(slope)
    for _ in range(_STEPS):
        depth = (low + high) / 2
        widths = ground(section, _cut(section, bevel, depth, within)).widths
        low, high = (depth, high) if widths[bevel] < widths[neighbour] else (low, depth)
    return _cut(section, bevel, low, within)


def _lowered(section: DoubleEdge, bevel: int) -> Cut:
    """The cut, running out to nothing at the edge, through where this face's ridge must come to agree with the other's.

    That is where both of its bevels are as wide as those of the other face are on average.

    Raises:
        BenchError: the new face would meet the neighbour's nowhere, or only beyond its edge.
    """
    face, on_front, _ = _seen_from(section, bevel)
    wanted = sum(section.widths[2:] if on_front else section.widths[:2]) / 2
    rise = face.second - face.first
    apart = hypot(section.width, rise)
    aside = sqrt(max(wanted**2 - (apart / 2) ** 2, 0.0))
    across = section.width / 2 - aside * rise / apart
    height = (face.first + face.second) / 2 + aside * section.width / apart
    slope = atan2(height - face.first, across)
    neighbour = face.mirrored(section.width)
    # Where the new face meets the neighbour's: the old ridge, seen from the edge, turned down by the change of slope.
    turned = face.slope - slope
    inside = face.slope + neighbour.slope
    if turned >= inside or face.bevel * sin(turned) >= neighbour.bevel * sin(inside - turned):
        raise BenchError(
            "widths",
            "one face is nearly flat, and no cut on the other makes all four bevels agree: measure again, or forge the "
            "flat face a ridge",
        )
    slides = face.bevel * sin(turned) / sin(inside - turned)
    return Cut(bevel, max(slides * sin(inside), 0.0), 0.0, lowers=True)
