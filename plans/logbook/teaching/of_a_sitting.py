"""What one sitting teaches of its shop, worked out from its figures, what was measured, and what came of it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from plans.blows import Blows
from plans.logbook.afterwards import LaterMeasurements, Outcome, with_later
from plans.logbook.figures import Factor, SittingFigures, StepFigures
from plans.logbook.teaching.losses import spread_beside, steel_lost
from plans.logbook.teaching.teaches import FactorTaught, SteelLost, StepDrawn, Teaches, WeldSoaked
from plans.phase import PhaseKind
from plans.plan import Plan, Step, StepKind
from plans.shapes import Section
from plans.shop import LEAST_CONTACT, LEAST_FACTOR, MOST_CONTACT, MOST_FACTOR
from plans.sitting import State, plan_as_measured, sections_measured
from plans.units import Units

_MISTYPED: Final = 2.0
"""No smith comes out with so many times the section that he planned, nor with so small a part of it."""


def teaches_of(
    plan: Plan | None,
    state: State,
    later: LaterMeasurements | None,
    figures: SittingFigures | None,
    outcome: Outcome | None,
) -> Teaches:
    """What a sitting teaches; nothing where it can't be known: without a plan or figures.

    Args:
        plan: what it followed; None where this version can't read it
        state: where it stood in the end, with what was measured by hand in it
        later: what was measured since; it tells nothing of scale, as the grinder may have been at the work
        figures: its figures; None where they have not been worked out
        outcome: what came of it; None where nothing was said
    """
    if plan is None or figures is None:
        return Teaches()
    learned = figures.learned
    # The first versions fitted one factor to air and anvil alike, which is neither.
    told_apart = learned is not None and learned.contact is not None
    whole = with_later(state, later)
    return Teaches(
        _factor_of(learned.cooling, LEAST_FACTOR, MOST_FACTOR) if learned is not None and told_apart else None,
        _factor_of(learned.contact, LEAST_CONTACT, MOST_CONTACT) if learned is not None else None,
        tuple(steps_drawn(plan, whole, figures)),
        tuple(_welds_soaked(plan, figures, outcome)),
        tuple(map(_lost_as_kept, steel_lost(plan, state, figures))),
        tuple(round(wider, 5) for wider in spread_beside(plan, whole)),
    )


def steps_drawn(plan: Plan, state: State, figures: SittingFigures) -> Iterator[StepDrawn]:
    """Each step whose section before and after is known, with the heats it took: as measured, else as planned."""
    planned, measured, plan = plan, sections_measured(plan, state), plan_as_measured(plan, state)
    for shown in _known(plan, figures):
        step = plan.steps[shown.step]
        after = measured.get(shown.step, step.reach)
        if step.kind not in (StepKind.DRAW, StepKind.FORGE) or step.section is None or after is None:
            continue
        tool, areas = (step.blows or Blows()).by, (_kept(step.section.area), _kept(after.area))
        # Of a step that was ended before its last heat nobody knows how far it came, unless that was measured.
        came_to_it = shown.step in measured or shown.done >= step.heats
        its = planned.steps[shown.step]
        as_planned = _is_like(areas[0], its.section) and _is_like(areas[1], its.reach)
        if shown.done and came_to_it and as_planned and 0 < areas[1] < areas[0]:
            yield StepDrawn(step.kind, tool, *areas, shown.done, shown.step in measured)


def _welds_soaked(plan: Plan, figures: SittingFigures, outcome: Outcome | None) -> Iterator[WeldSoaked]:
    for shown in _known(plan, figures) if outcome is not None else ():
        step, weld = plan.steps[shown.step], outcome.weld(shown.step) if outcome is not None else None
        soaks = [heat.soak for heat in shown.heats if heat.is_done]
        if step.kind is StepKind.WELD and weld is not None and step.section is not None and soaks and _soaks(step):
            yield WeldSoaked(Units.METRIC.section(step.section, exact=True), min(soaks), bool(weld.flaws))


def _is_like(area: float, planned: Section | None) -> bool:
    """Whether an area may be what a plan has there: where it is twice or half as large a figure was mistyped."""
    return planned is None or 1 / _MISTYPED <= area / planned.area <= _MISTYPED


def _kept(area: float) -> float:
    """An area as it is kept: to a thousandth of a square millimetre."""
    return round(area * 1e6, 3) / 1e6


def _lost_as_kept(lost: SteelLost) -> SteelLost:
    """Volumes as they are kept: to a hundredth of a cubic millimetre."""
    return SteelLost(lost.heats, *(round(volume * 1e9, 2) / 1e9 for volume in (lost.before, lost.after)))


def _known(plan: Plan, figures: SittingFigures) -> Iterator[StepFigures]:
    return (shown for shown in figures.steps if shown.step < len(plan.steps))


def _soaks(step: Step) -> bool:
    return any(phase.kind is PhaseKind.SOAK for phase in step.phases)


def _factor_of(factor: Factor | None, least: float, most: float) -> FactorTaught | None:
    if factor is None or factor.value is None or not least <= factor.value <= most:
        return None
    return FactorTaught(factor.value, factor.spread, factor.stays)
