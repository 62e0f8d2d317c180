"""Bars that are stacked flat: a laid edge, three layers, a stack that is folded."""

from __future__ import annotations

from typing import Final

from plans.maker.building.built import Built, Moves, height_of, together
from plans.maker.building.sizes import Sizes
from plans.maker.heats import heats_to_draw
from plans.maker.settled import Settled
from plans.maker.strand import HELD, Piece, Strand
from plans.maker.why import Chosen, Concern, Why, asked, practice
from plans.making import Part
from plans.reader import AnswerKeys
from plans.shapes import Section
from plans.stock import Loss, LossKind
from plans.units import Units

THICKER: Final = 2.2
"""A stack begins so many times as thick as the bar that is forged from it, so that the weld is worked: common practice
(2 to 4), no source."""
EDGE_SHARE: Final = 0.4
"""Share of a laid edge's thickness that is the edge's steel: common practice (a third to a half), no source."""
TRIM: Final = 8e-3
"""What is cut off each end before a fold [m]: common practice, no source."""
FACE: Final = 0.5e-3
"""What is ground off each face before a fold [m]: common practice, no source."""
_SET, _WELDED, _WIDER = 0.975, 0.90, 1.03
"""What setting and welding leave of the thickness, and how much wider the billet gets: common practice, no source."""


def welded(moves: Moves, pieces: tuple[Piece, ...], sizes: Sizes) -> Section:
    """Add the moves that weld a stack to one, struck across its seams, and say what section it then has."""
    stack = together(pieces, on_edge=False)
    # Of a tower the larger side is its height, across the seams.
    is_tower = height_of(pieces) > stack.thickness * (1 + 1e-9)
    moves.cold(Part.CLEAN)
    moves.cold(Part.TACK)
    moves.hot(Part.SET_WELD, reach=_pressed(stack, _SET, 1.0, sizes, is_tower))
    done = _pressed(stack, _WELDED, _WIDER, sizes, is_tower)
    moves.hot(Part.WELD, reach=done)
    return done


def laid_edge(of: Settled, answers: AnswerKeys, bar: Section, sizes: Sizes) -> Built:
    """The edge's steel welded flat onto a back.

    Args:
        of: what shall be made
        answers: for the bars that were asked for
        bar: the bar that it is drawn to
        sizes: the bars that there are
    """
    shares = {"edge": (EDGE_SHARE, of.steel, answers.bar, 1), "back": (1 - EDGE_SHARE, of.back, answers.other_bar, 1)}
    return _layers(shares, bar, sizes)


def laminate(of: Settled, answers: AnswerKeys, bar: Section, sizes: Sizes) -> Built:
    """Three layers, the edge's steel between two jackets; for the arguments see `laid_edge`."""
    shares = {"core": (1 / 3, of.steel, answers.bar, 1), "jackets": (1 / 3, of.back, answers.other_bar, 2)}
    return _layers(shares, bar, sizes)


def folded(of: Settled, answers: AnswerKeys, bar: Section, sizes: Sizes) -> Built:
    """A stack of two steels in turn, welded and folded; for the arguments see `laid_edge`."""
    moves = Moves.none()
    pieces, whys = stack_of(of, answers, Section.flat(bar.width, THICKER * bar.thickness), sizes)
    section = welded(moves, pieces, sizes)
    for turn in range(1, of.folds + 1):
        drawn = sizes.worked(max(section.width, bar.width), section.thickness / 2 + 2 * FACE)
        ground = sizes.worked(drawn.width, drawn.thickness - 2 * FACE)
        doubled = Section.flat(ground.width, 2 * ground.thickness)
        moves.hot(Part.FOLD_DRAW, heats_to_draw(of, section, drawn), reach=drawn, turn=turn)
        ends = Loss(LossKind.ENDS, 2 * TRIM * drawn.area)
        moves.cold(Part.FOLD_CUT, reach=ground, gone=1 - ground.area / drawn.area, cuts=(ends,), turn=turn)
        moves.hot(Part.FOLD_CLOSE, reach=doubled, turn=turn)
        section = _pressed(doubled, 0.91, 1.0, sizes)
        moves.hot(Part.FOLD_WELD, reach=section, turn=turn)
    strand = Strand(pieces, together(pieces, on_edge=False), tuple(moves.moves), HELD)
    return Built(strand, section, whys)


def stack_of(
    of: Settled, answers: AnswerKeys, about: Section, sizes: Sizes
) -> tuple[tuple[Piece, ...], dict[str, Why]]:
    """Pieces of the pattern's steels in turn, that come to about a section together; and where it comes from.

    Args:
        of: what shall be made
        answers: for the bar that was asked for
        about: what the stack is to have at least
        sizes: the bars that there are
    """
    each = about.thickness / of.pieces

    def said(units: Units) -> str:
        return f"{of.pieces} of them come to about {units.section(about)}"

    if answers.other_bar is not None:
        chosen = Chosen(answers.other_bar, asked())
    else:
        chosen = Chosen(Section.flat(sizes.side(about.width), sizes.side(each)), practice(said))
    steels = of.pattern if len(of.pattern) > 1 else of.pattern * 2
    counts: dict[str, int] = {}
    for place in range(of.pieces):
        counts[steels[place % 2]] = counts.get(steels[place % 2], 0) + 1
    pieces = tuple(Piece(f"{steel} layers", steel, chosen.value, count) for steel, count in counts.items())
    return pieces, {piece.name: chosen.why for piece in pieces}


def _layers(shares: dict[str, tuple[float, str, Section | None, int]], bar: Section, sizes: Sizes) -> Built:
    moves = Moves.none()
    asked_for = next((section for _, _, section, _ in shares.values() if section is not None), None)
    width = asked_for.width if asked_for else sizes.side(0.85 * bar.width)
    total = THICKER * bar.thickness
    pieces, whys = [], {}
    for name, (share, steel, section, count) in shares.items():
        thick = share * total
        chosen = (
            Chosen(section, asked())
            if section is not None
            else sizes.bar(
                steel,
                Section.flat(width, thick),
                lambda one, thick=thick: one.width >= 0.95 * width and thick <= one.thickness <= 2 * thick,  # type: ignore[misc]
                f"{100 * share:.0f} % of a stack {THICKER:g} times as thick as the bar that is forged",
            )
        )
        pieces.append(Piece(name, steel, chosen.value, count))
        whys[name] = chosen.why
    stack = together(tuple(pieces), on_edge=False)
    billet = welded(moves, tuple(pieces), sizes)
    wide = {round(piece.section.width, 4) for piece in pieces}
    concerns = (_uneven(pieces),) if max(wide) > 1.05 * min(wide) else ()
    strand = Strand(tuple(pieces), stack, tuple(moves.moves), HELD)
    return Built(strand, billet, whys, concerns)


def _uneven(pieces: list[Piece]) -> Concern:
    narrow, wide = sorted(pieces, key=lambda piece: piece.section.width)[:: max(1, len(pieces) - 1)][:2]

    def what(units: Units) -> str:
        return (
            f"{wide.name} and {narrow.name} are not as wide as each other: {units.length(wide.section.width)} and "
            f"{units.length(narrow.section.width)}"
        )

    return Concern("other_bar", what, "take bars of one width; what stands over is not welded and folds in", True)


def _pressed(section: Section, less: float, more: float, sizes: Sizes, is_tower: bool = False) -> Section:
    """A section struck across its seams, which lie across its larger side in a tower."""
    wider, thinner = (less, more) if is_tower else (more, less)
    return sizes.worked(section.width * wider, section.thickness * thinner)
