"""One bar of one steel, and a bundle that becomes one: cable, or pieces in a canister."""

from __future__ import annotations

from typing import Final

from plans.maker.building.built import Built, Moves
from plans.maker.building.sizes import Sizes
from plans.maker.settled import Settled
from plans.maker.strand import HELD, Piece, Strand
from plans.maker.why import Chosen, asked, practice
from plans.making import Part
from plans.reader import AnswerKeys
from plans.shapes import Form, Section
from plans.stock import LossKind

THICKER, NARROWER = 1.3, 0.8
"""A bar begins so much thicker, and may be so much narrower than what is forged from it: guesses."""
USUAL_LOSS: Final = 0.35
"""Share of a bundle that is air, scale and what is cut off: common practice (30 to 40 %), no source."""
BUNDLE: Final = 1.9
"""Side of a bundle beside that of the bar that is forged, at least: common practice, no source."""
_BUNDLE_HEATS = 4


def one_steel(of: Settled, answers: AnswerKeys, bar: Section, sizes: Sizes) -> Built:
    """A bar of one steel.

    Args:
        of: what shall be made
        answers: for the bar that was asked for
        bar: the bar that it is drawn to
        sizes: the bars that there are
    """
    least = Section.flat(NARROWER * bar.width, THICKER * bar.thickness)
    if least.area < 1.1 * bar.area:
        least = Section.flat(1.1 * bar.area / least.thickness, least.thickness)
    chosen = (
        Chosen(answers.bar, asked())
        if answers.bar is not None
        else sizes.bar(
            of.steel,
            least,
            lambda one: one.area >= 1.1 * bar.area and one.thickness >= bar.thickness,
            "thicker than the bar that is forged, so that it can be drawn",
        )
    )
    strand = Strand((Piece("bar", of.steel, chosen.value),), chosen.value, ())
    return Built(strand, chosen.value, {"bar": chosen.why})


def bundle(of: Settled, answers: AnswerKeys, bar: Section, sizes: Sizes) -> Built:
    """Cable, or pieces in a canister, as thick as it is bundled; for the arguments see `one_steel`."""
    loss = USUAL_LOSS if answers.loss is None else answers.loss
    lost = practice("Air, scale, the canister's skin, and ends that did not take.")
    of.whys["loss"] = lost if answers.loss is None else asked()
    side = (BUNDLE * bar.area / (1 - loss)) ** 0.5
    round_one = Section.round(sizes.side(side * 1.13))
    chosen = (
        Chosen(answers.other_bar, asked())
        if answers.other_bar is not None
        else Chosen(round_one, practice("So thick that it is still drawn once it is solid."))
    )
    moves = Moves.none()
    moves.cold(Part.CLEAN)
    moves.cold(Part.TACK)
    # what is lost is counted with the first heat, and the bundle is from then on as thick as what is sound of it
    moves.hot(Part.SET_WELD, gone=loss, gone_as=LossKind.TRIMMED)
    solid = (chosen.value.area * (1 - loss)) ** 0.5
    is_round = chosen.value.form is Form.ROUND
    sound = Section.round(chosen.value.width * (1 - loss) ** 0.5) if is_round else Section.flat(solid, solid)
    heats = Chosen(_BUNDLE_HEATS, practice("Several heats on all sides, until nothing gives under the hammer."))
    billet = sizes.worked(0.97 * solid, 0.97 * solid)
    moves.hot(Part.WELD, heats, own=sound, reach=billet)
    strand = Strand((Piece("bundle", of.pattern[0], chosen.value),), chosen.value, tuple(moves.moves), HELD)
    return Built(strand, billet, {"bundle": chosen.why})
