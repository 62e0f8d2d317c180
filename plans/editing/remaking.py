"""A plan made anew for other answers, without losing what was changed in it by hand."""

from __future__ import annotations

from plans.editing.changes import checked, with_made_from
from plans.editing.differing import Difference
from plans.editing.draft import Draft, draft_of
from plans.editing.merging import Merging
from plans.editing.order import Part
from plans.editing.setting import FILE
from plans.errors import PlanError
from plans.record import record
from plans.units import Units


@record
class Remade:
    """A plan made anew."""

    text: str
    """Its text; it can be followed."""
    followed: Difference
    """What follows the new answers: from the plan as it was to the plan as it is now."""
    kept: Difference
    """What was changed by hand and stays: from what the new answers would give to what stands in the plan."""
    gave_way: Difference
    """What was changed by hand, but could not stay since the plan would make no sense: from that to the new figure."""


def remake(base: Draft, mine: str, new: Draft, units: Units) -> Remade:
    """Make a plan anew for other answers.

    Three plans are held side by side. What differs between the first two is the smith's, and stays; what differs
    between the first and the last follows, and stays the smith's where it is both.

    Args:
        base: what was made from the answers as they were
        mine: the plan's text as it is now
        new: what is made from the new answers, which it holds
        units: in which new figures are written

    Raises:
        PlanError: the plan's text can't be used, or can't be changed as it is written, or there is no way to bring the
            two together; it holds every fault.
    """
    yielding: frozenset[tuple[Part, int]] = frozenset()
    while True:
        merging = Merging(draft_of(mine, FILE), mine, units, yielding)
        merging.head(base, new)
        merging.parts("bar", base.bars, merging.mine.bars, new.bars)
        merging.parts("step", base.steps, merging.mine.steps, new.steps)
        text = merging.text
        if new.made_from is not None:
            text = with_made_from(text, new.made_from, units, check=False)
        try:
            return Remade(checked(text), *merging.told())
        except PlanError as error:
            at_fault = merging.at_fault(error)
            if at_fault <= yielding:
                raise
            yielding |= at_fault
