"""What the passing of time brings: asked at every point of the grid, and ahead of a time in which nothing comes in."""

from __future__ import annotations

from dataclasses import replace

from plans.phase import PhaseKind
from plans.sitting import course, due
from plans.sitting.calls import Call
from plans.sitting.course import PlanPoint
from plans.sitting.events import Basis, Begun, Cause, Eased
from plans.sitting.facts import Facts, facts_of
from plans.sitting.running_piece import GRID
from plans.sitting.standing import Standing
from plans.sitting.telling import Telling


class Deciding:
    """Decides what is due as time goes by.

    Args:
        telling: takes down what is decided
    """

    def __init__(self, telling: Telling) -> None:
        self._telling = telling
        self._standing = telling.standing

    def decide(self, at: float, fell_silent: bool) -> None:
        """Decide what a grid point brings.

        Args:
            at: its time [s]
            fell_silent: whether the probe has been silent for too long by now
        """
        state, telling = self._standing.state, self._telling
        if fell_silent:
            telling.miss_probe(at)
        skin = self._standing.skin
        if skin is not None and skin[1] is Basis.MODELLED:
            # While nothing measures it; what is measured was held against the limits as it was heard.
            telling.limits(at, skin[0], Basis.MODELLED)
        if state.paused or state.finished:
            return
        facts = facts_of(self._standing, at)
        if Call.FIRE_COLD in state.alarms and due.fire_is_hot_enough(facts):
            telling.event(Eased(at, Call.FIRE_COLD))
        if due.soaks_by_itself(facts):
            telling.event(Begun(at, state.step, state.heat, PhaseKind.SOAK, Cause.TEMPERATURE))
            return
        if calls := due.calls_due(facts):
            for call in calls:
                telling.call(at, call, facts.skin, facts.basis)
            facts = facts_of(self._standing, at)
        if (point := _next_by_the_clock(self._standing, facts)) is not None:
            telling.begin(at, point, Cause.CLOCK)

    def comes_about(self, number: int) -> bool:
        """Whether anything comes about at a later grid point, if nothing does before it and nothing changes."""
        standing = self._standing
        if standing.state.paused or standing.state.finished:
            return False
        foreseen = standing.warm.foreseen(standing.exposure, number)
        facts = facts_of(standing, number * GRID)
        if foreseen is not None:
            skin = facts.skin if facts.basis is Basis.MEASURED else foreseen[0]
            facts = replace(facts, skin=skin, middle=foreseen[1])
        if due.soaks_by_itself(facts) or due.calls_due(facts) or _next_by_the_clock(standing, facts) is not None:
            return True
        return foreseen is not None and standing.limits.turn_at(foreseen[0])


def _next_by_the_clock(standing: Standing, facts: Facts) -> PlanPoint | None:
    """What begins now without a word, as time is up; None where nothing does."""
    point = course.after(standing.plan, standing.state) if due.grace_is_over(facts) else None
    return point if point is not None and point.step == standing.state.step else None
