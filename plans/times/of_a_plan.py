"""How long a plan takes: its steps, and all of them together."""

from __future__ import annotations

from plans.plan import Plan
from plans.record import record
from plans.shop import Shop
from plans.times.of_a_step import StepTimes, step_times


@record
class PlanTimes:
    """What a plan takes, as the warm model has it before anything is in the fire."""

    steps: tuple[StepTimes, ...]
    """Each step, in order."""

    @property
    def heats(self) -> int:
        """How often the work goes into the fire, all steps together."""
        return sum(step.heats for step in self.steps)

    @property
    def in_the_fire(self) -> float:
        """All heats of all steps together, of those that are known [s]."""
        return self._in_all("in_the_fire")

    @property
    def air(self) -> float:
        """In the air, all steps together, of what is known [s]."""
        return self._in_all("air")

    @property
    def quench(self) -> float:
        """In the quench, all steps together [s]."""
        return self._in_all("quench")

    @property
    def oven(self) -> float:
        """In the oven, all steps together [s]."""
        return self._in_all("oven")

    @property
    def dip(self) -> float:
        """In the bath, all steps together [s]."""
        return self._in_all("dip")

    @property
    def unknown(self) -> tuple[int, ...]:
        """The numbers, from 0, of the steps whose time in the fire is not known: no section, or never at heat."""
        return tuple(number for number, step in enumerate(self.steps) if step.heats and step.in_the_fire is None)

    def _in_all(self, name: str) -> float:
        return sum(getattr(step, name) or 0.0 for step in self.steps)


def plan_times(plan: Plan, shop: Shop) -> PlanTimes:
    """What a plan takes; quick to ask again after a step was changed.

    Args:
        plan: the plan
        shop: the smith's own figures
    """
    return PlanTimes(tuple(step_times(step, shop) for step in plan.steps))
