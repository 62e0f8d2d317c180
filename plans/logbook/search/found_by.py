"""What one sitting is found by, worked out from its figures, what was measured, and what came of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from plans.logbook.afterwards import LaterMeasurements, Outcome, with_later
from plans.logbook.facts import Facts
from plans.logbook.figures import Fuel, HeatFigures, Loss, SittingFigures
from plans.plan import Plan
from plans.reader import steels_of
from plans.sitting import State


def facts_of(
    plan: Plan | None,
    notes: Iterable[str],
    state: State,
    later: LaterMeasurements | None,
    figures: SittingFigures | None,
    outcome: Outcome | None,
    fuel: Fuel | None,
) -> Facts:
    """What a sitting is found by.

    Args:
        plan: what it followed; None where this version can't read it
        notes: what the smith left
        state: where it stood in the end, with what was measured by hand in it
        later: what was measured since
        figures: its figures; None where they have not been worked out
        outcome: what came of it; None where nothing was said
        fuel: what its fire burnt; None where its shop did not say how much that is in an hour
    """
    heats = () if figures is None else figures.heats
    cost = None if figures is None else figures.cost
    said = outcome or Outcome()
    peaks = [heat.peak for heat in heats if heat.peak is not None]
    welding = [heat.at_welding_heat for heat in heats if heat.at_welding_heat is not None]
    measured = with_later(state, later).measurements
    hardnesses = [one.measured.hardness for one in measured if one.measured.hardness is not None]

    def together(time: Callable[[HeatFigures], float]) -> float | None:
        return None if figures is None else round(sum(map(time, heats)), 3)

    return Facts(
        () if plan is None else steels_of(plan),
        tuple(notes),
        max(peaks, default=None),
        together(lambda heat: heat.in_fire),
        together(lambda heat: heat.soak),
        together(lambda heat: heat.strike),
        together(lambda heat: heat.too_cold),
        _likely(None if cost is None else cost.decarb),
        _likely(None if cost is None else cost.scale),
        None if fuel is None else fuel.mass,
        None if fuel is None else fuel.volume,
        None if figures is None else sum(step.reheats for step in figures.steps),
        round(sum(welding), 3) if welding else None,
        hardnesses[-1] if hardnesses else None,
        said.rating,
        said.warp,
        said.twist_degrees,
    )


def _likely(loss: Loss | None) -> float | None:
    return None if loss is None else loss.value
