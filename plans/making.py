"""What can be made, how it is built, and the parts of the work: the words that the maker and its files share."""

from __future__ import annotations

from enum import StrEnum
from typing import Final


class What(StrEnum):
    """What shall be made; its value is how it is written."""

    DOUBLE_EDGED = "double-edged"
    """A blade with an edge on either side and a ridge in the middle."""
    SINGLE_EDGED = "single-edged"
    """A blade with an edge and a spine, ground alike on both faces."""
    CHISEL_EDGED = "chisel-edged"
    """A blade with an edge and a spine, ground on one face alone."""
    WEDGE = "wedge"
    """An axe-like wedge: thick at the poll, running out to an edge across its whole width."""
    DRAWKNIFE = "drawknife"
    """A blade between two tangs, ground on one face."""
    BAR = "bar"
    """A plain bar or billet."""
    CYCLES = "cycles"
    """Nothing new: work that is there already is heat-treated."""


class Build(StrEnum):
    """How it is built; its value is how it is written."""

    ONE_STEEL = "one steel"
    """Forged from one bar."""
    LAID_EDGE = "laid edge"
    """A bar of the edge's steel, welded flat onto a back."""
    LAMINATE = "laminate"
    """Three layers: the edge's steel between two jackets."""
    FOLDED = "folded"
    """A stack of two steels in turn, welded, drawn out and folded."""
    TWISTED = "twisted"
    """Layered bars, twisted, welded side by side."""
    CORE = "core"
    """A patterned core between two jackets that carry the edges, the point closed round it."""
    WRAPPED = "wrapped edge"
    """A patterned core with one bar of the edge's steel bent round it."""
    BUNDLE = "bundle"
    """Cable, or pieces in a canister, welded to a bar: much of it is lost."""


CORED: Final = (Build.CORE, Build.WRAPPED)
"""Builds with a core that has steel of its own round it, so that it ends in a point."""
ALL_PATTERN: Final = (Build.FOLDED, Build.TWISTED, Build.BUNDLE)
"""Builds whose edge is the pattern itself: they have no steel of the edge beside it."""


class CoreKind(StrEnum):
    """What a core is made of; its value is how it is written."""

    PLAIN = "plain"
    """Bars of one steel."""
    LAYERED = "layered"
    """Stacked of two steels in turn."""
    TWISTED = "twisted"
    """Layered, then twisted."""


def is_twisted(build: Build, core: CoreKind | None) -> bool:
    """Whether there is a twisted bar in what is built so.

    Args:
        build: how it is built
        core: what a core is made of; counts where there is one
    """
    return build is Build.TWISTED or (build in CORED and core is CoreKind.TWISTED)


class Part(StrEnum):
    """A part of the work, for which a plan has a step; its value is how it is written."""

    CLEAN = "clean"
    """The bars are cut, and their faces ground bright."""
    TACK = "tack"
    """The pieces are tacked together, and a handle welded on."""
    SET_WELD = "set weld"
    """The first welding heat, with light blows."""
    WELD = "weld"
    """The whole length is welded."""
    FOLD_DRAW = "draw to fold"
    """The billet is drawn out for a fold."""
    FOLD_CUT = "cut to fold"
    """It is trimmed, ground and sawn for the fold."""
    FOLD_CLOSE = "close fold"
    """The fold is closed."""
    FOLD_WELD = "weld fold"
    """The fold is welded."""
    SQUARE = "square"
    """Bars that are to be twisted are drawn out square."""
    TWIST = "twist"
    """They are twisted."""
    FLATTEN = "flatten"
    """What was twisted is forged square again, and its faces ground."""
    BEND = "bend"
    """The bar of the edge's steel is bent round the core."""
    JOIN_CLEAN = "clean bars"
    """Bars that are to lie side by side are cut, and their meeting faces ground bright."""
    JOIN_TACK = "tack bars"
    """They are tacked side by side, and a handle welded on."""
    JOIN_SET = "set bars"
    """Their first welding heat."""
    JOIN = "weld bars"
    """They are welded over their whole length."""
    PROOF = "proof"
    """The billet is drawn hard early, so that a bad weld opens now."""
    NOTCH_CUT = "cut notch"
    """A notch is cut out of the end, where the point will be."""
    NOTCH_CLOSE = "close notch"
    """It is closed and welded."""
    GRIND_BACK = "grind back"
    """The closed point is ground back to sound steel."""
    DRAW = "draw"
    """The work is drawn out to the bar that the piece is forged from."""
    TAPER = "taper"
    """Its thickness is tapered towards the point."""
    TANG = "tang"
    """The tang is drawn out."""
    SECOND_TANG = "second tang"
    """The other tang of a drawknife is drawn out."""
    POINT = "point"
    """The point is forged."""
    BEVELS = "bevels"
    """The bevels are forged in."""
    BEND_TANGS = "bend tangs"
    """The tangs of a drawknife are bent."""
    STRAIGHTEN = "straighten"
    """It is straightened."""
    NORMALIZE = "normalize"
    """It is normalized."""
    PROFILE = "profile"
    """Its outline is ground, and the bevels to near their thickness."""
    HARDEN = "harden"
    """It is quenched."""
    TEMPER = "temper"
    """It is tempered."""
    GRIND = "grind"
    """It is ground to its finished thickness."""
    FINISH = "finish"
    """It is finished by hand."""
    ETCH = "etch"
    """It is etched."""
    LOOK_OVER = "look over"
    """It is looked over, and what it taught is written down."""


OPTIONAL: Final = (
    Part.PROOF,
    Part.TAPER,
    Part.TANG,
    Part.POINT,
    Part.BEVELS,
    Part.STRAIGHTEN,
    Part.NORMALIZE,
    Part.PROFILE,
    Part.HARDEN,
    Part.TEMPER,
    Part.GRIND,
    Part.FINISH,
    Part.ETCH,
    Part.LOOK_OVER,
)
"""The parts that can be left out of a plan, as somebody else does them, or nobody."""
