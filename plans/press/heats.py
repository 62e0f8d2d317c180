"""How many heats it takes from one section to another, by what a heat takes off: as usual, or as a shop has learned."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, exp, log
from typing import Final

from plans.blows import StruckBy
from plans.reckoned import Reckoned
from plans.record import record
from plans.shapes import Section
from plans.shown import counted

REDUCTION: Final = 0.20
"""Share of the area that a heat takes off by hand; common practice (15 to 25 %), no source."""
_USUAL: Final = {
    StruckBy.HAND: (REDUCTION, 0.15, 0.25),
    StruckBy.POWER_HAMMER: (0.35, 0.30, 0.45),
    StruckBy.PRESS: (0.35, 0.30, 0.45),
}


def usual_heats(section: Section, reach: Section, reduction: float = REDUCTION) -> int:
    """How many heats it takes to draw a bar from one section down to another, 1 at least.

    Args:
        section: when it begins
        reach: when it is done; smaller in area
        reduction: share of the area that each heat takes off, above 0 and below 1
    """
    return max(1, ceil(log(reach.area / section.area) / log(1 - reduction) - 1e-9))


def usual_reduction(by: StruckBy) -> Reckoned:
    """Share of the area that a heat takes off by common practice, with its range.

    Args:
        by: what the work is struck with
    """
    value, least, most = _USUAL[by]
    said = f"of the area a heat, with a {by.value}"
    return Reckoned(value, "common practice", said, "common practice, no source", least, most)


def heats_needed(section: Section, reach: Section, reduction: Reckoned) -> Reckoned:
    """How many heats it takes to draw a bar from one section down to another, with its range.

    Args:
        section: when it begins
        reach: when it is done; smaller in area
        reduction: share of the area that each heat takes off, above 0 and below 1
    """

    def heats(share: float | None) -> float | None:
        return None if share is None else float(usual_heats(section, reach, share))

    return Reckoned(
        float(usual_heats(section, reach, reduction.value)),
        reduction.basis,
        lambda units: f"each heat takes off as large a share: {units.text(reduction.validity)}",
        reduction.source,
        heats(reduction.most),
        heats(reduction.least),
    )


@record
class Drawn:
    """A piece that was drawn down, as the logbook tells it.

    Raises:
        ValueError: it did not grow thinner, or took no heats.
    """

    before: float
    """Area of its section when it began [m2]."""
    after: float
    """Area of its section when it was done [m2]."""
    heats: int
    """Heats that it took."""
    measured: bool = False
    """Whether the section when it was done was measured; else it is taken as the plan has it."""

    def __post_init__(self) -> None:
        if not 0 < self.after < self.before or self.heats < 1:
            raise ValueError("a piece that was drawn is thinner than before, and took a heat or more")

    @property
    def reduction(self) -> float:
        """Share of the area that each heat took off, all alike."""
        return _share(log(self.before / self.after) / self.heats)


def learned_reduction(drawn: Sequence[Drawn]) -> Reckoned | None:
    """Share of the area that a heat takes off in this shop: each heat counts as much as another.

    The range is that of the pieces; there is none of a single piece.

    Args:
        drawn: what was drawn here

    Returns:
        the share, from 0 to 1; None where nothing was drawn
    """
    if not drawn:
        return None
    heats = sum(piece.heats for piece in drawn)
    value = _share(sum(log(piece.before / piece.after) for piece in drawn) / heats)
    each = [piece.reduction for piece in drawn]
    ends = (min(each), max(each)) if len(each) > 1 else (None, None)
    measured = sum(piece.measured for piece in drawn)
    if measured == len(each):
        sections = "by the sections that were measured"
    elif measured:
        sections = f"{measured} of them measured, if the others came to the section of their plan"
    else:
        sections = "if each came to the section of its plan"
    rests = f"{counted(len(each), 'step')} and {counted(heats, 'heat')}"
    said = f"of the area a heat, from {rests} of the logbook, {sections}"
    return Reckoned(value, "modelled", said, "the logbook", *ends)


def _share(logarithm: float) -> float:
    return 1 - exp(-logarithm)
