"""How a plan stands to what the maker proposes today for the answers that it was made from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from plans.editing import Difference, KeyDifference, PartDifference, difference
from plans.maker.drafting import text_of
from plans.maker.proposing import propose
from plans.reader import AnswerKeys
from plans.reckoned import Reckoned
from plans.record import record
from plans.stock import RackBar
from plans.units import SETTABLE, Units

_WORDING: Final = frozenset({"title", "name", "about", "instruction", "checklist", "cautions", "thin_name", "cues"})
"""Keys and tables that word a plan; what they say changes no figure of it."""


@record
class Apart:
    """What in a plan is not as the maker would have it."""

    figures: Difference
    """The figures that differ, and steps and bars that one of them lacks: before is the maker's, after the plan's."""
    worded: int
    """How many texts are worded otherwise."""


def apart_from_maker(
    text: str, answers: AnswerKeys, racks: Sequence[Sequence[RackBar]] = ((),), reduction: Reckoned | None = None
) -> Apart:
    """Hold a plan against what the maker proposes for its answers.

    In which units and from which rack it was made stands nowhere in it, and decides what bars are cut: whatever leaves
    the least difference is taken.

    Args:
        text: of the plan
        answers: that it was made from
        racks: the bars that it may have been made from; an empty one for common sizes
        reduction: what a heat takes off in this shop; None for what is usual

    Raises:
        MakeError: an answer contradicts another.
        PlanError: the text is no plan.
    """
    nearest: Apart | None = None
    for units in SETTABLE:
        for rack in racks:
            found = apart_from(text_of(propose(answers, units, rack, reduction), units), text)
            if nearest is None or _size(found.figures) < _size(nearest.figures):
                nearest = found
            if nearest.figures.is_empty:
                return nearest
    assert nearest is not None, "there are units that can be set, and at least one rack"
    return nearest


def apart_from(proposed: str, text: str) -> Apart:
    """Hold a plan against one that the maker proposes; both are texts of plans."""
    whole = difference(proposed, text, ("proposal", "plan"))
    steps, bars = _figures(whole.steps), _figures(whole.bars)
    head = tuple(one for one in whole.head if not _is_wording(one))
    worded = sum(_is_wording(one) for one in whole.head)
    worded += sum(_is_wording(one) for part in (*whole.steps, *whole.bars) for one in part.keys)
    return Apart(Difference(head, bars, steps), worded)


def _figures(parts: Sequence[PartDifference]) -> tuple[PartDifference, ...]:
    """What is left of parts that differ without the wording; a part of which nothing is left is as proposed."""
    found = (replace(part, keys=tuple(one for one in part.keys if not _is_wording(one))) for part in parts)
    return tuple(part for part in found if part.keys or part.moved or part.before is None or part.after is None)


def _is_wording(one: KeyDifference) -> bool:
    return one.key.partition(".")[0] in _WORDING


def _size(figures: Difference) -> int:
    return sum(1 for _ in figures.lines(Units.METRIC))
