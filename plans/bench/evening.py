"""Which bevel of a double edge to grind next, and how deep, until all four agree: plane geometry, no source needed.

A bevel that is ground grows wider, and its neighbour across the ridge narrower, since the ridge moves down the
neighbour's face. So the narrower of two neighbours is ground, and no deeper than until they agree. A cut as deep all
along takes from the edge as well; one goes as deep there only as this edge is thicker than the other, and runs out to
nothing where it is not.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import atan2, cos, hypot, sin, sqrt
from typing import Final

from plans.bench.bevels import BenchError, DoubleEdge, Face
from plans.record import record

AGREE: Final = 0.2e-3
"""Bevels whose widths differ by less count as alike, as a chalked ridge is no sharper: common practice [m]."""
_MOST_CUTS: Final = 12


@record
class Cut:
    """One face to grind, and how deep, square to it."""

    bevel: int
    """Which, by its place in `BEVELS`."""
    at_ridge: float
    """How deep at the ridge as it then is [m]."""
    at_edge: float
    """How deep where the edge begins [m]."""


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


def next_cut(section: DoubleEdge, within: float = AGREE) -> Cut | None:
    """The next cut towards four bevels that agree, the deepest first; None where they do.

    Neighbours across a ridge come first. Where each pair agrees, yet the pair of one face is wider than that of the
    other, that face is too high: it is lowered at the ridge, one bevel after the other.

    Args:
        section: as it is
        within: widths that differ by less agree, above 0 [m]

    Raises:
        BenchError: a face is so low that no cut on the other makes their bevels agree.
    """
    widths = section.widths
    pairs = [(one, one + 1) for one in (0, 2) if abs(widths[one] - widths[one + 1]) > within]
    cuts = [_evened(section, min(pair, key=widths.__getitem__)) for pair in pairs]
    if not cuts and max(widths) - min(widths) > within:
        cuts = [_lowered(section, bevel) for bevel in ((2, 3) if sum(widths[:2]) < sum(widths[2:]) else (0, 1))]
    return max(cuts, key=lambda cut: cut.at_ridge, default=None)


def until_even(section: DoubleEdge, within: float = AGREE) -> Iterator[tuple[Cut, DoubleEdge]]:
    """Every cut until all four bevels agree, each with the section after it.

    Args:
        section: as it is
        within: widths that differ by less agree, above 0 [m]

    Raises:
        BenchError: a face is so low that no cut on the other makes their bevels agree.
    """
    for _ in range(_MOST_CUTS):
        cut = next_cut(section, within)
        if cut is None:
            return
        section = ground(section, cut)
        yield cut, section


def _seen_from(section: DoubleEdge, bevel: int) -> tuple[Face, bool, bool]:
    """The face of a bevel, turned so that it is that of the first edge; whether it is the front; whether turned."""
    on_front, mirrored = bevel < 2, bevel % 2 == 1
    face = section.front if on_front else section.back
    return (face.mirrored(section.width) if mirrored else face), on_front, mirrored


def _cut(section: DoubleEdge, bevel: int, at_ridge: float) -> Cut:
    """A cut so deep at the ridge, and at the edge no deeper than what it has over the other edge."""
    face, _, _ = _seen_from(section, bevel)
    own = section.edges[bevel % 2]
    spare = max(own - section.edges[1 - bevel % 2], 0.0)
    return Cut(bevel, at_ridge, min(at_ridge, spare * cos(face.slope)))


def _evened(section: DoubleEdge, bevel: int) -> Cut:
    """The cut that makes a bevel as wide as its neighbour across the ridge."""
    neighbour = bevel ^ 1
    face, _, _ = _seen_from(section, bevel)
    slope = face.slope + face.mirrored(section.width).slope
    low, high = 0.0, (section.widths[neighbour] - section.widths[bevel]) * sin(slope)
    for _ in range(60):
        depth = (low + high) / 2
        widths = ground(section, _cut(section, bevel, depth)).widths
        low, high = (depth, high) if widths[bevel] < widths[neighbour] else (low, depth)
    return _cut(section, bevel, low)


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
    return Cut(bevel, max(slides * sin(inside), 0.0), 0.0)
