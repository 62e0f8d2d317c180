"""How much steel a heat takes as scale in a shop, and how far its work spreads, of all that was measured by hand."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from math import exp, log, sqrt
from typing import Final, TypeVar

from plans.logbook.taught.evidence import Evidence, Forgotten, still_counts
from plans.logbook.taught.figures import ShareFigure
from plans.logbook.taught.names import LOSS_ROW, SPREAD_ROW
from plans.logbook.teaching import SteelLost
from plans.stock import USUAL_SCALE

_FAR_OFF: Final = 0.08
"""A share of a heat that is further from the usual, on either side, was measured wrong, or something was cut off that
the plan does not say. As far on both sides: what is cut on one side alone shifts the mean."""
_One = TypeVar("_One")


def losses_that_count(every: Iterable[Evidence], forgotten: Forgotten) -> list[tuple[Evidence, tuple[SteelLost, ...]]]:
    """What heats took in each finished sitting that tells of it still; what can't be right is left out."""
    found = (
        (one, tuple(lost for lost in one.teaches.lost if abs(lost.a_heat - USUAL_SCALE.likely) <= _FAR_OFF))
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
        by_sitting: what was measured, of two sittings at least

    Returns:
        the share, with the jackknife's standard error, a sitting left out at a time [1]_: one measurement ends a
        stretch and begins the next, so those of a sitting do not tell apart from one another

    References:
        .. [1] B. Efron and R. J. Tibshirani, An Introduction to the Bootstrap, 1993, chapter 11.
    """

    def pooled(parts: Sequence[SteelLost]) -> float:
        return 1 - exp(sum(log(one.after / one.before) for one in parts) / sum(one.heats for one in parts))

    each = [lost.a_heat for sitting in by_sitting for lost in sitting]
    return ShareFigure(*_jackknifed(by_sitting, pooled), min(each), max(each))


def spread(by_sitting: Sequence[Sequence[float]]) -> ShareFigure:
    """Share by which drawn work comes out wider than planned at the same thickness: the mean of the steps.

    Args:
        by_sitting: what was measured, of two sittings at least

    Returns:
        the share, below 0 where narrower, with its standard error as `loss` has it
    """
    each = [wider for sitting in by_sitting for wider in sitting]
    return ShareFigure(*_jackknifed(by_sitting, lambda some: sum(some) / len(some)), min(each), max(each))


def _jackknifed(by_sitting: Sequence[Sequence[_One]], figure: Callable[[Sequence[_One]], float]) -> tuple[float, float]:
    """A figure of all, and its standard error."""
    count = len(by_sitting)
    without = [
        figure([one for other, sitting in enumerate(by_sitting) if other != left_out for one in sitting])
        for left_out in range(count if count > 1 else 0)
    ]
    mean = sum(without) / max(1, count)
    error = sqrt((count - 1) / count * sum((one - mean) ** 2 for one in without))
    return figure([one for sitting in by_sitting for one in sitting]), error
