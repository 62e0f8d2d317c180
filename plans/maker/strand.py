"""Steel on its way from bars to a forged piece: what each part of the work does to section and length. Volume is held.

A strand is a bar, or pieces that are laid together and become one, with the moves that are made on it. Its sections
are known beforehand; its lengths follow from what shall come out, backwards through the moves, and then forwards from
bars that are cut to whole millimetres.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from plans.maker.why import Why
from plans.making import Part
from plans.record import record
from plans.shapes import Section
from plans.stock import USUAL_SCALE, Loss, LossKind, ScaleLoss

KERF: Final = 1.5e-3
"""What the saw takes between two pieces of a bar [m]: common practice, no source."""

GRIP: Final = 25e-3
"""What the vice holds of a bar that is twisted, and the wrench as much; it stays straight [m]: common practice (20 to
25 mm), no source."""
HELD: Final = 80e-3
"""Pieces that are welded together are no shorter, so that they can be held, struck and heated evenly [m]: a guess."""


@record
class Move:
    """What one part of the work does to a strand. In this order: scale is lost, steel is cut off, some is set apart."""

    part: Part
    """What part of the work it is."""
    reach: Section | None = None
    """The section that it comes to; None where it keeps the one that it has."""
    heats: int = 0
    """How many heats it takes; 0 for cold work."""
    heats_why: Why | None = None
    """Why so many; None for cold work."""
    heated: float = 1.0
    """Share of the strand that is in the fire, where one end alone is heated."""
    cuts: tuple[Loss, ...] = ()
    """What is cut off besides, once it is done."""
    gone: float = 0.0
    """Share of the steel that goes besides scale, as what is ground off its faces."""
    gone_as: LossKind = LossKind.GRINDING
    """What that counts as."""
    apart: float = 0.0
    """Volume that the move alone is about, as the end that a tang is drawn from [m3]; it stays in the piece, but the
    moves that come after are not about it. 0 where the move is about all of the strand."""
    turn: int = 0
    """Which time it is, from 1, of a move that is made several times; 0 of any other."""
    own: Section | None = None
    """Section that it begins with, where that is not what the move before left."""

    @property
    def cut(self) -> float:
        """Volume that is cut off [m3]."""
        return sum(loss.volume for loss in self.cuts)

    def left(self, scale: ScaleLoss) -> float:
        """Share of the steel that its scale leaves.

        Args:
            scale: of one heat
        """
        return 1 - self.heated * (1 - scale.left(self.heats)[0])


@record
class Piece:
    """Pieces of one kind, as long as the others of a strand."""

    name: str
    """What the plan calls them."""
    steel: str
    """Grade of their steel; empty where they are made of a strand."""
    section: Section
    """Section of each."""
    count: int = 1
    """How many there are."""
    made_of: Strand | None = None
    """The strand that they are cut from; None for a bar as it is bought."""


@record
class Strand:
    """Pieces that become one, and what is done with them."""

    pieces: tuple[Piece, ...]
    """The pieces."""
    section: Section
    """The section of all of them together, before the first move."""
    moves: tuple[Move, ...]
    """What is done, in order."""
    least: float = 0.0
    """Length that its pieces have at the least [m]; what that is too much is left over."""


@record
class Stage:
    """One move with its figures."""

    move: Move
    """The move."""
    section: Section
    """Section that it begins with."""
    length: float
    """Length that it begins with [m]."""
    reach: Section
    """Section that it ends with."""
    reach_length: float
    """Length that it ends with, before anything is cut off [m]."""
    losses: tuple[Loss, ...]
    """What it loses."""


@record
class Cut:
    """A bar to be cut, for the pieces of one kind."""

    piece: Piece
    """The pieces."""
    length: float
    """Length of the bar, the saw cuts between its pieces counted [m]."""
    each: float
    """Length of each piece [m]."""


@record
class Run:
    """A strand with all its figures, and those of the strands that it is made of before it."""

    before: tuple[Run, ...]
    """The strands that its pieces are cut from."""
    cuts: tuple[Cut, ...]
    """The bars that it starts from itself."""
    strand: Strand
    """The strand."""
    stages: tuple[Stage, ...]
    """Its moves."""
    out: float
    """Volume that it ends with, without what was set apart [m3]."""
    apart: float
    """Volume that was set apart on the way [m3]."""
    losses: tuple[Loss, ...]
    """What was lost before its first move: saw cuts, and pieces that are longer than the others."""

    @property
    def all_cuts(self) -> tuple[Cut, ...]:
        """The bars of the whole work."""
        return (*(cut for one in self.before for cut in one.all_cuts), *self.cuts)

    @property
    def all_losses(self) -> tuple[Loss, ...]:
        """What the whole work loses."""
        earlier = (loss for one in self.before for loss in one.all_losses)
        return (*earlier, *self.losses, *(loss for stage in self.stages for loss in stage.losses))


def run(strand: Strand, out: float, rounded: Callable[[float], float], scale: ScaleLoss = USUAL_SCALE) -> Run:
    """Work out a strand that is to end with a volume.

    Args:
        strand: the strand
        out: what it is to end with at least, without what is set apart [m3]
        rounded: rounds the length of a bar up to one that is cut [m]
        scale: what a heat takes as scale
    """
    volume = out
    for move in reversed(strand.moves):
        volume = (volume + move.cut) / (1 - move.gone)
        volume = volume + move.apart if move.apart else volume / move.left(scale)
    return _forward(strand, max(volume / _area(strand), strand.least), rounded, scale)


def _forward(strand: Strand, length: float, rounded: Callable[[float], float], scale: ScaleLoss) -> Run:
    """A strand whose pieces are so long at least [m]."""
    before, cuts, there = [], [], []
    over = 0.0
    for piece in strand.pieces:
        kerfs = (piece.count - 1) * KERF
        if piece.made_of is None:
            each = rounded(length)
            bar = rounded(piece.count * each + kerfs)
            cuts.append(Cut(piece, bar, each))
            over += (bar - kerfs - piece.count * each) * piece.section.area
        else:
            made = run(piece.made_of, (piece.count * length + kerfs) * piece.section.area, rounded, scale)
            before.append(made)
            each = (made.out / piece.section.area - kerfs) / piece.count
        there.append(each)
    length = min(there)
    kerf = sum((piece.count - 1) * KERF * piece.section.area for piece in strand.pieces)
    longer = over + sum(
        piece.count * (own - length) * piece.section.area for piece, own in zip(strand.pieces, there, strict=True)
    )
    losses = [Loss(kind, lost) for kind, lost in ((LossKind.KERF, kerf), (LossKind.TRIMMED, longer)) if lost > 1e-15]
    return _through(strand, length, tuple(before), tuple(cuts), tuple(losses), scale)


def _through(
    strand: Strand,
    length: float,
    before: tuple[Run, ...],
    cuts: tuple[Cut, ...],
    losses: tuple[Loss, ...],
    of_a_heat: ScaleLoss,
) -> Run:
    volume, section, apart = length * _area(strand), strand.section, 0.0
    stages = []
    for move in strand.moves:
        begins = move.own or section
        about = move.apart or volume
        scale = about * (1 - move.left(of_a_heat))
        reach = move.reach or begins
        gone = (about - scale) * move.gone
        ends = about - scale - gone
        lost = (Loss(LossKind.SCALE, scale), Loss(move.gone_as, gone), *move.cuts)
        stages.append(
            Stage(
                move,
                begins,
                about / begins.area,
                reach,
                ends / reach.area,
                tuple(loss for loss in lost if loss.volume > 0),
            )
        )
        if move.apart:
            apart += ends
            volume -= about + move.cut
        else:
            volume = ends - move.cut
            section = reach
    return Run(before, cuts, strand, tuple(stages), volume, apart, losses)


def _area(strand: Strand) -> float:
    """Area of all pieces together [m2]."""
    return sum(piece.count * piece.section.area for piece in strand.pieces)
