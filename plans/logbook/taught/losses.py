"""How much steel a heat takes as scale in a shop, and how far its work spreads, of all that was measured by hand."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import exp, log, sqrt
from typing import Final

from plans.logbook.taught.evidence import FEWEST, Evidence, Forgotten, still_counts
from plans.logbook.taught.figures import ShareFigure
from plans.logbook.teaches import SteelLost
from plans.reckoned import Reckoned
from plans.shown import counted

LOSS_ROW: Final = "loss-to-scale"
"""Id of the row that tells what a heat takes as scale."""
SPREAD_ROW: Final = "spread"
"""Id of the row that tells how far work comes out wider than planned."""
_FAR_OFF: Final = (-0.03, 0.10)
"""A heat that takes a share beyond these was measured wrong, or something was cut off that the plan does not say;
common practice has 0.01 to 0.03."""


def losses_that_count(every: Iterable[Evidence], forgotten: Forgotten) -> list[tuple[Evidence, tuple[SteelLost, ...]]]:
    """What heats took in each finished sitting that tells of it still; what can't be right is left out."""
    found = (
        (one, tuple(lost for lost in one.teaches.lost if _FAR_OFF[0] <= lost.a_heat <= _FAR_OFF[1]))
        for one in every
        if one.finished and still_counts(one, LOSS_ROW, forgotten)
    )
    return [(one, lost) for one, lost in found if lost]


def spread_that_counts(every: Iterable[Evidence], forgotten: Forgotten) -> list[tuple[Evidence, tuple[float, ...]]]:
    """How much wider than planned work came out in each finished sitting that tells of it still, step by step."""
    return [
        (one, one.teaches.wider)
        for one in every
        if one.finished and one.teaches.wider and still_counts(one, SPREAD_ROW, forgotten)
    ]


def loss(by_sitting: Sequence[Sequence[SteelLost]]) -> ShareFigure:
    """Share of the steel that a heat takes as scale, pooled: each heat counts as much as another.

    Args:
        by_sitting: what was measured, of one sitting at least

    Returns:
        the share, with the jackknife's standard error [1]_ over the measurements; 0 of a single one

    References:
        .. [1] B. Efron and R. J. Tibshirani, An Introduction to the Bootstrap, 1993, chapter 11.
    """

    def pooled(parts: Sequence[SteelLost]) -> float:
        return 1 - exp(sum(log(one.after / one.before) for one in parts) / sum(one.heats for one in parts))

    some = [lost for sitting in by_sitting for lost in sitting]
    each = [lost.a_heat for lost in some]
    without = [pooled(some[:place] + some[place + 1 :]) for place in range(len(some))] if len(some) > 1 else []
    return ShareFigure(pooled(some), _jackknife(without), min(each), max(each))


def spread(by_sitting: Sequence[Sequence[float]]) -> ShareFigure:
    """Share by which drawn work comes out wider than planned at the same thickness: the mean of the steps.

    Args:
        by_sitting: what was measured, of one sitting at least

    Returns:
        the share, below 0 where narrower, with its standard error; 0 of a single one
    """
    each = [wider for sitting in by_sitting for wider in sitting]
    without = [(sum(each) - one) / (len(each) - 1) for one in each] if len(each) > 1 else []
    return ShareFigure(sum(each) / len(each), _jackknife(without), min(each), max(each))


def loss_to_go_by(every: Iterable[Evidence], forgotten: Forgotten) -> Reckoned | None:
    """What a heat takes as scale in this shop, as a figure to reckon with.

    Args:
        every: what the sittings teach
        forgotten: what of it was forgotten

    Returns:
        the share with its range; None of fewer than `FEWEST` sittings, or where it comes to nothing
    """
    told = losses_that_count(every, forgotten)
    if len(told) < FEWEST:
        return None
    found, count = loss([lost for _, lost in told]), sum(len(lost) for _, lost in told)
    if found.value <= 0:
        return None
    about = f"from {counted(count, 'measurement')} in {counted(len(told), 'sitting')}"
    said = f"of the steel a heat goes to scale in your shop, {about}, as measured by hand"
    return Reckoned(found.value, "modelled", said, "the logbook", max(0.0, found.least), found.most)


def _jackknife(without: Sequence[float]) -> float:
    if not without:
        return 0.0
    mean = sum(without) / len(without)
    return sqrt((len(without) - 1) / len(without) * sum((one - mean) ** 2 for one in without))
