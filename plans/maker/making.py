"""A piece worked out: all that its steps are made from, and what follows from it for each."""

from __future__ import annotations

from plans.billets import Meeting, layers_after
from plans.maker.building import Built
from plans.maker.finished import Forms
from plans.maker.settled import Settled
from plans.maker.steels import Steels
from plans.maker.strand import GRIP, Move, Run, Stage
from plans.making import Build, Part
from plans.record import record
from plans.shapes import Section
from plans.units import Units


@record(eq=False)
class Making:
    """All that the steps of a piece are made from."""

    of: Settled
    """What shall be made."""
    forms: Forms
    """The sections that it goes through."""
    built: Built
    """How its billet is built."""
    run: Run
    """Its moves, with their figures."""
    steels: Steels
    """All its steels."""
    units: Units
    """The units in which the work is measured and cut."""


def pitch_of(making: Making, section: Section) -> float:
    """Length of one whole turn of a twisted bar of a section [m]."""
    asked_for = making.of.twist
    return asked_for if asked_for is not None else 2.5 * section.thickness


def free_of(making: Making, stage: Stage) -> float:
    """Length of bar that is twisted between vice and wrench, for each of the bars that are cut from it later [m]."""
    cores = making.of.cores
    return (stage.length - (cores + 1) * GRIP) / cores


def layers_at(making: Making, run: Run, move: Move) -> int | None:
    """Layers through the thickness of the work when a move begins; None where it has none."""
    of = making.of
    if of.build in (Build.LAID_EDGE, Build.LAMINATE):
        return None
    if run is not making.run:
        return of.pieces if move.part is not Part.BEND else None
    if of.build is not Build.FOLDED:
        return None
    folds = [one for one in run.stages if one.move.part is Part.FOLD_WELD]
    done = move.turn - (move.part is not Part.FOLD_WELD) if move.turn else None
    if done is None:
        before = next(place for place, stage in enumerate(run.stages) if stage.move is move)
        done = sum(1 for stage in run.stages[:before] if stage.move.part is Part.FOLD_WELD)
    return layers_after(of.pieces, min(done, len(folds)), 2, Meeting.LIKE)
