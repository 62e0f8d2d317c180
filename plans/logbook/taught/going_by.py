"""What heatbook reckons with of what sittings teach: the same for a row that says so, and for whoever reckons."""

from __future__ import annotations

from collections.abc import Iterable

from plans.blows import StruckBy
from plans.logbook.taught.evidence import FEWEST, Evidence, Forgotten, drawn_that_counts
from plans.logbook.taught.losses import loss, losses_that_count
from plans.logbook.teaching import StepDrawn
from plans.press import Drawn, learned_reduction
from plans.reckoned import Reckoned
from plans.shown import counted


def reduction_to_go_by(every: Iterable[Evidence], forgotten: Forgotten, by: StruckBy) -> Reckoned | None:
    """Share of the area that a heat takes off in this shop, all kinds of steps together.

    Args:
        every: what the sittings teach
        forgotten: what of it was forgotten
        by: what the work was struck with

    Returns:
        the share, from 0 to 1, with its range; None of fewer than `FEWEST` sittings
    """
    told = [(one, step) for one, step in drawn_that_counts(every, forgotten) if step.by is by]
    if len({one.started for one, _ in told}) < FEWEST:
        return None
    return learned_reduction([as_drawn(step) for _, step in told])


def loss_to_go_by(every: Iterable[Evidence], forgotten: Forgotten) -> Reckoned | None:
    """Share of the steel that a heat takes as scale in this shop.

    Args:
        every: what the sittings teach
        forgotten: what of it was forgotten

    Returns:
        the share, with a range of twice its standard error; None of fewer than `FEWEST` sittings, and where it may
        as well be nothing at all: then the usual share is nearer to the truth
    """
    told = losses_that_count(every, forgotten)
    if len({one.started for one, _ in told}) < FEWEST:
        return None
    found, count = loss([lost for _, lost in told]), sum(len(lost) for _, lost in told)
    if found.value <= 2 * found.shown_error:
        return None
    about = f"from {counted(count, 'measurement')} in {counted(len(told), 'sitting')}"
    said = f"of the steel a heat goes to scale in your shop, {about}, as measured by hand"
    least, most = (found.value + sign * 2 * found.shown_error for sign in (-1, 1))
    return Reckoned(found.value, "modelled", said, "the logbook", least, most)


def as_drawn(step: StepDrawn) -> Drawn:
    """A step that was drawn, as the press reckons with it."""
    return Drawn(step.before, step.after, step.heats, step.measured)
