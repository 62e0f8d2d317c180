"""Steps in which there is hardly time to strike, by the warm model, said before anything is in the fire."""

from __future__ import annotations

from typing import Final

from plans.maker.why import Concern
from plans.plan import Plan
from plans.times import PlanTimes
from plans.units import Units

SHORT: Final = 10.0
"""A heat with less hammer time than this is a hurry [s]: common practice, no source."""


def hurried(plan: Plan, times: PlanTimes) -> tuple[Concern, ...]:
    """What to say of each step whose last heat leaves little time to strike; nothing is serious in that.

    Args:
        plan: the plan
        times: what it takes
    """
    found = []
    for number, (step, taken) in enumerate(zip(plan.steps, times.steps, strict=True), 1):
        seconds = taken.last.hammer
        if seconds is None or seconds >= SHORT:
            continue
        cold = step.keep_above

        def what(units: Units, title: str = step.title, seconds: float = seconds, cold: float | None = cold) -> str:
            limit = "" if cold is None else f" until it is down to {units.temperature(cold)}"
            return f'"{title}" leaves about {seconds:.0f} s to strike{limit}'

        mend = f"plan one heat more for step {number}, be at the anvil before it is out, or stop at a thicker section"
        found.append(Concern("", what, mend))
    return tuple(found)
