"""How many heats a plan's steps should have, by what came of them in a sitting."""

from __future__ import annotations

from collections.abc import Mapping

from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reader import MOST_HEATS
from plans.sitting.course import heats_planned
from plans.sitting.state import State


def heats_as_done(plan: Plan, state: State, done: Mapping[int, int]) -> dict[int, int]:
    """The steps that took other heats than planned, by their number from 0, with how many it were.

    A step that was left for the next one has as many as were done; one that was passed over says nothing. The step
    that goes on, or that the sitting ended in, may still want more: it counts only where it has more than planned,
    those that were asked for counted in.

    Args:
        plan: what is done
        state: where the sitting stands
        done: how many heats of each step were done
    """
    found = {}
    for number, step in enumerate(plan.steps[: state.step + 1]):
        heats = done.get(number, 0)
        if number == state.step:
            heats = max(heats, heats_planned(plan, state, number), step.heats)
        if heats and any(phase.kind is not PhaseKind.BENCH for phase in step.phases):
            found[number] = min(heats, MOST_HEATS)
    return {number: heats for number, heats in found.items() if heats != plan.steps[number].heats}
