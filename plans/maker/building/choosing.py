"""From how a piece is built to its billet."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from plans.maker.building import side_by_side, single, stacked
from plans.maker.building.built import Built
from plans.maker.building.sizes import Sizes
from plans.maker.settled import Settled
from plans.making import Build
from plans.reader import AnswerKeys
from plans.shapes import Section

_BUILDINGS: Final[Mapping[Build, Callable[[Settled, AnswerKeys, Section, Sizes], Built]]] = {
    Build.ONE_STEEL: single.one_steel,
    Build.LAID_EDGE: stacked.laid_edge,
    Build.LAMINATE: stacked.laminate,
    Build.FOLDED: stacked.folded,
    Build.TWISTED: side_by_side.twisted,
    Build.CORE: side_by_side.cored,
    Build.WRAPPED: side_by_side.wrapped,
    Build.BUNDLE: single.bundle,
}


def build(of: Settled, answers: AnswerKeys, bar: Section, sizes: Sizes) -> Built:
    """The billet for a piece.

    Args:
        of: what shall be made
        answers: for the bars that were asked for
        bar: the bar that the piece is forged from
        sizes: the bars that there are
    """
    return _BUILDINGS[of.build](of, answers, bar, sizes)
