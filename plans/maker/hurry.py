"""Steps in which there is hardly time to strike, by the warm model, said before anything is in the fire."""

from __future__ import annotations

from typing import Final

from plans.maker.why import Concern
from plans.plan import Plan, Step, StepKind
from plans.times import PlanTimes
from plans.units import Units

SHORT: Final = 10.0
"""A heat with less hammer time than this is a hurry [s]: common practice, no source."""
SHORT_WELD: Final = 4.0
"""The same of a welding heat, whose few light blows are done in 3 to 6 s [s]: common practice, no source."""


def hurried(plan: Plan, times: PlanTimes) -> tuple[Concern, ...]:
    """What to say of each step whose last heat leaves little time to strike, the work or its thin part, whichever is
    cold first; nothing is serious in that.

    Args:
        plan: the plan
        times: what it takes
    """
    found = []
    for number, (step, taken) in enumerate(zip(plan.steps, times.steps, strict=True), 1):
        seconds = taken.last.first_cold
        if seconds is None or seconds >= (SHORT_WELD if _is_weld(step) else SHORT):
            continue
        thin = step.thin_name if seconds == taken.last.thin_hammer else ""

        def what(units: Units, step: Step = step, seconds: float = seconds, thin: str = thin) -> str:
            limit = "" if step.keep_above is None else f" until it is down to {units.temperature(step.keep_above)}"
            place = f" the {thin}" if thin else ""
            return f'"{step.title}" leaves about {seconds:.0f} s to strike{place}{limit}'

        found.append(Concern("", what, _mend(number, step, thin)))
    return tuple(found)


def _is_weld(step: Step) -> bool:
    """Whether a step is done at welding heat."""
    return step.kind is StepKind.WELD or step.flux_at is not None


def _mend(number: int, step: Step, thin: str) -> str:
    if _is_weld(step):
        return f"weld one end at a time in step {number}, start from thicker pieces, or bring the anvil to the fire"
    first = f"strike the {thin} first" if thin else "be at the anvil before it is out"
    thicker = "" if thin or step.reach is None else ", or stop at a thicker section"
    return f"plan one heat more for step {number}, and {first}{thicker}"
