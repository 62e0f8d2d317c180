"""What hardness a plan's tempers leave, to hold what was measured against; and where a file should skate."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reader import steels_of
from plans.record import record
from plans.steel import Composition, SteelError, find_grade, tempered_hardness

_PLAIN: Final = 0.6
"""With more chromium, molybdenum, tungsten and vanadium the hardness after a temper is not known here [mass %]."""


@record
class HardnessThere:
    """The hardness that the plan has somewhere, modelled."""

    steel: str
    """Grade that it is of: that of the plan's bars with most carbon."""
    value: float
    """What is to be expected, hardened through [HRC]."""
    least: float
    """The low end of what it may be [HRC]."""
    most: float
    """The high end [HRC]."""

    @property
    def said(self) -> str:
        """ "58 to 63"."""
        return f"{self.least:.0f} to {self.most:.0f}"


def hardness_there(plan: Plan, number: int, holds: int) -> HardnessThere | None:
    """What hardness the tempers of a plan leave up to somewhere, by published measurements of plain carbon steel.

    Args:
        plan: that is followed
        number: of the step that the work has come to, from 0
        holds: how many holds of that step are done

    Returns:
        the hardness of the bar with most carbon; None where the plan tempered nothing by then, or where its steel or
        so mild or strong a temper was not measured
    """
    tempers: list[tuple[float, float]] = []
    for step in plan.steps[: number + 1]:
        done = holds if step is plan.steps[number] else step.heats
        for phase in step.phases:
            if phase.kind is PhaseKind.QUENCH:
                tempers.clear()  # hardened anew
            elif phase.kind is PhaseKind.OVEN and phase.at is not None and phase.seconds is not None:
                tempers += [(phase.at, phase.seconds)] * done
    if not tempers:
        return None
    hardest = _richest(steels_of(plan))
    if hardest is None:
        return None
    name, holding = hardest
    if holding.chromium + holding.molybdenum + holding.tungsten + holding.vanadium > _PLAIN:
        return None
    try:
        found = tempered_hardness(holding.carbon, tempers)
    except SteelError:
        return None
    assert found.least is not None
    assert found.most is not None
    return HardnessThere(name, found.value, found.least, found.most)


def is_as_quenched(plan: Plan, number: int) -> bool:
    """Whether a step quenches, and a file should skate off what it leaves."""
    return any(phase.kind is PhaseKind.QUENCH for phase in plan.steps[number].phases)


def richest(plan: Plan) -> tuple[str, Composition] | None:
    """Grade and composition of the bar with most carbon; None where the steel of no bar is known."""
    return _richest([bar.steel for bar in plan.bars])


def _richest(names: Iterable[str]) -> tuple[str, Composition] | None:
    known: list[tuple[str, Composition]] = []
    for name in names:
        try:
            known.append((name, find_grade(name).middle))
        except SteelError:
            continue
    return max(known, key=lambda one: one[1].carbon, default=None)
