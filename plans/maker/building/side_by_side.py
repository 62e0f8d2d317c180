"""Bars that lie side by side on edge: twisted bars, a core between jackets, an edge wrapped round a core."""

from __future__ import annotations

from typing import Final

from plans.billets import USUAL_ANGLE, USUAL_LOSS, BilletError, Notch, notch_for
from plans.maker.building.built import Built, Moves, together
from plans.maker.building.sizes import Sizes
from plans.maker.building.stacked import stack_of, welded
from plans.maker.heats import heats_to_draw
from plans.maker.settled import Settled
from plans.maker.strand import GRIP, HELD, Piece, Strand
from plans.maker.why import Chosen, Concern, Why, asked, practice
from plans.making import Build, CoreKind, Part, is_twisted
from plans.reader import AnswerKeys
from plans.shapes import Section
from plans.stock import Loss, LossKind
from plans.units import Units

THICKER: Final = 1.5
"""Bars side by side begin so many times as thick as the bar that is forged: common practice (1.3 to 2), no source."""
TWIST_ROOM: Final = 1.08
"""Side of a bar before it is twisted, beside what it is forged square to again: the corners are worked in and ground
away. Common practice, no source."""
STACKED: Final = 1.6
"""Side of the stack that a layered bar is drawn from, beside the bar: common practice, no source."""
LEAST_PRONG: Final = 4e-3
"""Least width of what is left of the bar beside a notch: narrower, it burns before the rest is hot [m]. A guess."""
_NARROWEST = 30.0
_END = 0.4
"""Share of a billet that is in the fire while its end is welded: a guess."""
_GROUND = 0.04
"""Share that is ground off a twisted bar's four faces, to clean steel and out of the hollows: a guess."""


def twisted(of: Settled, answers: AnswerKeys, bar: Section, sizes: Sizes) -> Built:
    """Twisted bars side by side.

    Args:
        of: what shall be made
        answers: for the bars that were asked for
        bar: the bar that it is drawn to
        sizes: the bars that there are
    """
    side, why = _side(of, answers, bar, sizes, of.cores)
    moves = Moves.none()
    core, whys = _cores(of, answers, Section.flat(side.width, side.thickness), sizes)
    return _joined(of, (core,), whys | {core.name: why}, moves, bar, sizes)


def cored(of: Settled, answers: AnswerKeys, bar: Section, sizes: Sizes) -> Built:
    """A core between two jackets, whose point is closed round it; for the arguments see `twisted`."""
    side, why = _side(of, answers, bar, sizes, of.cores + 2)
    moves = Moves.none()
    core, whys = _cores(of, answers, _core_section(of, answers, side), sizes)
    jackets = Piece("jackets", of.steel, side, 2)
    return _joined(of, (jackets, core), whys | {"jackets": why}, moves, bar, sizes)


def wrapped(of: Settled, answers: AnswerKeys, bar: Section, sizes: Sizes) -> Built:
    """One bar of the edge's steel bent round a core; for the arguments see `twisted`."""
    side, why = _side(of, answers, bar, sizes, of.cores + 2)
    moves = Moves.none()
    core, whys = _cores(of, answers, _core_section(of, answers, side), sizes)
    bend = Moves.none()
    round_point = (core.count * core.section.width + side.width) * side.area
    bend.hot(Part.BEND, cuts=(Loss(LossKind.TRIMMED, round_point),))
    legs = Strand((Piece("edge", of.steel, side),), side, tuple(bend.moves))
    return _joined(of, (Piece("edge", "", side, 2, legs), core), whys | {"edge": why}, moves, bar, sizes)


def _side(of: Settled, answers: AnswerKeys, bar: Section, sizes: Sizes, count: int) -> tuple[Section, Why]:
    """Section of each bar, and where it comes from."""
    if answers.bar is not None:
        return answers.bar, asked()
    thick = THICKER * bar.thickness
    each = max(thick, (1.25 * bar.area / count) ** 0.5)

    def said(units: Units) -> str:
        return f"{count} side by side hold more than the bar that is forged, {units.section(bar)}, and are thicker"

    found = sizes.bar(
        of.steel,
        Section(each, each),
        lambda one: one.thickness >= thick and one.width <= 1.3 * one.thickness and one.area >= each**2,
        "as many side by side hold more than the bar that is forged, and are thicker",
    )
    return found.value, found.why if found.why.basis == "asked" else practice(said)


def _core_section(of: Settled, answers: AnswerKeys, side: Section) -> Section:
    """Section of each bar of a core, as high as the jackets."""
    if answers.core_share is None or of.core is CoreKind.TWISTED:
        return side
    share = answers.core_share
    width = 2 * side.width * share / (1 - share) / of.cores
    return Section.flat(width, side.thickness)


def _cores(of: Settled, answers: AnswerKeys, section: Section, sizes: Sizes) -> tuple[Piece, dict[str, Why]]:
    """The bars of a core, each of a section, and where the figures of their stock come from."""
    name = "bars" if of.build is Build.TWISTED else "core" if of.cores == 1 else "cores"
    if of.is_plain:
        why = practice("As high as the bars beside it.")
        return Piece(name, of.pattern[0], section, of.cores), {name: why}
    before = Moves.none()
    has_twist = is_twisted(of.build, of.core)
    squared = sizes.worked(section.width * TWIST_ROOM, section.thickness * TWIST_ROOM) if has_twist else section
    pieces, whys = stack_of(of, answers, Section.flat(STACKED * squared.width, STACKED * squared.thickness), sizes)
    stack = together(pieces, on_edge=False)
    billet = welded(before, pieces, sizes)
    before.hot(Part.SQUARE, heats_to_draw(of, billet, squared), reach=squared)
    if has_twist:
        straight = Loss(LossKind.ENDS, (of.cores + 1) * GRIP * squared.area)
        before.hot(Part.TWIST, cuts=(straight,))
        before.hot(Part.FLATTEN, reach=section, gone=_GROUND)
    return Piece(name, "", section, of.cores, Strand(pieces, stack, tuple(before.moves), HELD)), whys


def _joined(
    of: Settled, pieces: tuple[Piece, ...], whys: dict[str, Why], moves: Moves, bar: Section, sizes: Sizes
) -> Built:
    """The bars side by side, welded, proved, and where it is asked for with the point closed round the core."""
    concerns: list[Concern] = []
    whole = together(pieces, on_edge=True)
    moves.cold(Part.JOIN_CLEAN)
    moves.cold(Part.JOIN_TACK)
    moves.hot(Part.JOIN_SET, reach=sizes.worked(whole.width * 0.985, whole.thickness))
    section = sizes.worked(whole.width * 0.97, whole.thickness * 0.97)
    moves.hot(Part.JOIN, reach=section)
    if of.has(Part.PROOF):
        section = sizes.worked(section.width, section.thickness * 0.88)
        moves.hot(Part.PROOF, reach=section)
    if of.build is Build.CORE:
        concerns += _notched(pieces, section, bar, moves)
    strand = Strand(pieces, whole, tuple(moves.moves), HELD)
    return Built(strand, section, whys, tuple(concerns))


def notch_of(pieces: tuple[Piece, ...], section: Section, bar: Section) -> Notch:
    """The notch that closes jackets round a core, in a billet of a section that is drawn to a bar.

    Raises:
        BilletError: the V would be wider than the billet.
    """
    core = pieces[1].count * pieces[1].section.width
    whole = sum(piece.count * piece.section.width for piece in pieces)
    return closing_notch(core / whole, section, bar)


def closing_notch(share: float, section: Section, bar: Section) -> Notch:
    """The notch that closes jackets round a core, its V as wide as is usual or as there is room for.

    Args:
        share: what the core has of the billet's width
        section: of the billet
        bar: that it is drawn to

    Raises:
        BilletError: the V would be wider than the billet.
    """
    core, drawn = share * section.width, min(bar.thickness, section.thickness)
    for angle in (USUAL_ANGLE, 45.0):
        try:
            return notch_for(section.width, section.thickness, core, angle=angle, drawn_to=drawn)
        except BilletError:
            continue
    return notch_for(section.width, section.thickness, core, angle=_NARROWEST, drawn_to=drawn)


def _notched(pieces: tuple[Piece, ...], section: Section, bar: Section, moves: Moves) -> tuple[Concern, ...]:
    try:
        notch = notch_of(pieces, section, bar)
    except BilletError as error:
        return (Concern("core_share", str(error), "make the core narrower or the jackets wider", True),)
    cut = Loss(LossKind.TRIMMED, notch.mouth.value * notch.depth.value / 2 * section.thickness)
    moves.cold(Part.NOTCH_CUT, cuts=(cut,))
    heats = Chosen(int(notch.heats.value), Why("common practice", notch.heats.validity, notch.heats.source))
    moves.hot(Part.NOTCH_CLOSE, heats, heated=_END)
    # The closed point is about as wide as the V's angle makes it: half of the bar's width, on average.
    back = Loss(LossKind.TRIMMED, USUAL_LOSS * section.area / 2)
    moves.cold(Part.GRIND_BACK, cuts=(back,))
    if notch.prong.value < LEAST_PRONG:

        def narrow(units: Units) -> str:
            return f"only {units.length(notch.prong.value)} are left of the bar beside the notch: that burns at once"

        return (Concern("core_share", narrow, "make the core narrower or the jackets wider"),)
    if notch.heats.outside:
        return (Concern("bar", notch.heats.validity, "start from thicker bars, or notch it before it is drawn", True),)
    return ()
