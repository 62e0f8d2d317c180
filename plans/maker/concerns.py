"""What does not add up in how a piece is built: too little to draw, cores that miss, twists that tear."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from plans.billets import LEAST_PITCH
from plans.maker.building import height_of
from plans.maker.edge_place import FLAT_FACED, edge_place, hard_place
from plans.maker.finished import GRIND
from plans.maker.hot_work import forging_concerns
from plans.maker.making import Making, free_of, pitch_of
from plans.maker.settled import EDGED
from plans.maker.strand import Stage
from plans.maker.welding import weld_heat
from plans.maker.why import Concern
from plans.making import Build, Part, What
from plans.units import Units

LEAST_OFF: Final = 0.3e-3
"""A core that may lie no further off its place than this is doubted [m]: a guess."""
TOWER: Final = 1.3
"""A stack that is so many times as high as wide is doubted: a guess."""
LEAST_JACKET: Final = 3e-3
"""Least width of jacket that is to be left at an edge, so that it can be sharpened for years [m]: a guess."""


def concerns_of(making: Making) -> Iterator[Concern]:
    """What does not add up in how a piece is built and forged.

    Args:
        making: the piece
    """
    steels = making.steels
    yield from forging_concerns(steels)
    if steels.welded:
        yield from weld_heat(steels).concerns
    yield from _too_little(making)
    yield from _tang_too_thick(making)
    yield from _edge_is_hard(making)
    yield from _jacket_left(making)
    yield from _twist(making)
    yield from _tower(making)


def _tower(making: Making) -> Iterator[Concern]:
    for run in (making.run, *making.run.before):
        pieces = run.strand.pieces
        if run.stages and all(stage.move.part is not Part.SET_WELD for stage in run.stages):
            continue
        high, wide = height_of(pieces), min(piece.section.width for piece in pieces)
        if len(pieces) + pieces[0].count < 3 or high <= TOWER * wide:
            continue

        def what(units: Units, high: float = high, wide: float = wide) -> str:
            return f"the stack is {units.length(high)} high and {units.length(wide)} wide: it leans, and opens"

        mend = "take wider pieces, thinner ones, or fewer: a stack no higher than it is wide"
        yield Concern("other_bar", what, mend, high > 2 * wide)


def _too_little(making: Making) -> Iterator[Concern]:
    billet, bar = making.built.billet, making.forms.bar
    # a side that is more than a little too small would have to be upset
    if billet.area >= bar.area and billet.thickness >= 0.98 * bar.thickness:
        return

    def what(units: Units) -> str:
        return f"the billet, {units.section(billet)}, is no thicker than the bar to be forged, {units.section(bar)}"

    yield Concern(
        "bar", what, "start from thicker or wider bars, or more of them: steel is not made at the anvil", True
    )


def _tang_too_thick(making: Making) -> Iterator[Concern]:
    of = making.of
    if not of.is_tanged or of.tang.thickness <= 1.1 * of.thickness:
        return

    def what(units: Units) -> str:
        return (
            f"the tang is {units.length(of.tang.thickness)} thick, and comes from a bar no thicker than the blade,"
            f" {units.length(of.thickness)}: it would have to be upset"
        )

    yield Concern("tang", what, "take a tang as thick as the blade, or a thicker blade")


def _edge_is_hard(making: Making) -> Iterator[Concern]:
    of = making.of
    hard = hard_place(of, making.built.strand.pieces)
    if hard is None or of.what not in {*EDGED, What.WEDGE}:
        return
    edge = edge_place(of)
    spare = min(edge[0] - hard[0], hard[1] - edge[1])
    if of.what in FLAT_FACED and of.build is Build.LAID_EDGE:
        spare = hard[1] - edge[1]
    if spare < 0:
        where = "in the flat face" if of.what in FLAT_FACED else "in the middle of the thickness"
        other = Build.LAID_EDGE if of.what in FLAT_FACED else Build.LAMINATE
        mend = "take a thicker bar of the edge's steel" if of.build is other else f"build it as {_NAMED[other]}"
        said = f"the edge lies {where}, and there it is {of.back}, which is no edge"
        yield Concern("bar" if of.build is other else "build", said, mend, True)
    elif spare * of.thickness < LEAST_OFF:

        def thin(units: Units) -> str:
            off = units.depth(spare * of.thickness)
            return f"the core may lie no more than {off} off its place, or the edge is {of.back} on one side"

        yield Concern("bar", thin, "take a thicker core, turn the billet over in every heat, grind both faces alike")


_NAMED: Final = {Build.LAID_EDGE: "a laid edge", Build.LAMINATE: "a laminate of three layers"}


def _jacket_left(making: Making) -> Iterator[Concern]:
    of = making.of
    if of.build not in (Build.CORE, Build.WRAPPED):
        return
    pieces = making.built.strand.pieces
    whole = sum(piece.count * piece.section.width for piece in pieces)
    jacket = pieces[0].section.width / whole * (of.width + 2 * GRIND) - GRIND
    if jacket >= LEAST_JACKET:
        return

    def what(units: Units) -> str:
        return f"only {units.length(max(jacket, 0.0))} of jacket are left along each edge"

    yield Concern("core_share", what, "take wider jackets, or a narrower core", jacket <= LEAST_JACKET / 2)


def _twist(making: Making) -> Iterator[Concern]:
    for run in (making.run, *making.run.before):
        for stage in run.stages:
            if stage.move.part is not Part.TWIST:
                continue
            yield from _no_turn(making, stage)
            pitch, least = pitch_of(making, stage.section), LEAST_PITCH * stage.section.thickness
            if pitch >= least:
                continue

            def what(units: Units, pitch: float = pitch, least: float = least) -> str:
                return f"one turn on {units.length(pitch)} is tighter than is safe; {units.length(least)} is the least"

            yield Concern("twist", what, "twist it less: tighter, welds open and corners tear", True)


def _no_turn(making: Making, stage: Stage) -> Iterator[Concern]:
    pitch, free = pitch_of(making, stage.section), free_of(making, stage)
    if pitch <= free:
        return

    def what(units: Units) -> str:
        return (
            f"one turn on {units.length(pitch)} is not one whole turn: only {units.length(free)} of the bar are free "
            "between vice and wrench"
        )

    yield Concern("twist", what, "twist it tighter, or leave the twist out")
