"""What does not add up in how a piece is built: too little to draw, cores that miss, twists that tear."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from plans.billets import LEAST_PITCH, BilletError, Laminate
from plans.maker.finished import GRIND
from plans.maker.hot_work import forging_concerns
from plans.maker.making import Making, pitch_of
from plans.maker.welding import weld_heat
from plans.maker.why import Concern
from plans.making import Build, Part
from plans.units import Units

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
    yield from _core_shows(making)
    yield from _jacket_left(making)
    yield from _twist(making)


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


def _core_shows(making: Making) -> Iterator[Concern]:
    of = making.of
    if of.build is not Build.LAMINATE:
        return
    pieces = making.built.strand.pieces
    total = sum(piece.count * piece.section.thickness for piece in pieces)
    core = next(piece.section.thickness for piece in pieces if piece.name == "core") / total * of.thickness
    height = of.width / (1 if of.what.value != "double-edged" else 2)
    try:
        laminate = Laminate(of.thickness, of.edge, core, height)
    except BilletError as error:
        yield Concern("bar", str(error), "take a thicker core, or thinner jackets", True)
        return
    wander = laminate.may_wander.value
    if wander >= 0.3e-3:
        return

    def thin(units: Units) -> str:
        return f"the core may lie no more than {units.depth(wander)} off the middle, or the edge is jacket on one side"

    yield Concern("bar", thin, "take a thicker core, turn the billet over in every heat, grind both faces alike")


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
            pitch, least = pitch_of(making, stage.section), LEAST_PITCH * stage.section.thickness
            if pitch >= least:
                continue

            def what(units: Units, pitch: float = pitch, least: float = least) -> str:
                return f"one turn on {units.length(pitch)} is tighter than is safe; {units.length(least)} is the least"

            yield Concern("twist", what, "twist it less: tighter, welds open and corners tear", True)
