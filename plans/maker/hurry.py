"""Steps in which there is hardly time to strike, by the warm model, said before anything is in the fire."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from plans.maker.why import Concern
from plans.plan import Plan, Step, StepKind
from plans.record import record
from plans.times import PlanTimes
from plans.units import Units

SHORT: Final = 10.0
"""A heat with less hammer time than this is a hurry [s]: common practice, no source."""
SHORT_WELD: Final = 4.0
"""The same of a welding heat, whose few light blows are done in 3 to 6 s [s]: common practice, no source."""


def hurried(plan: Plan, times: PlanTimes) -> tuple[Concern, ...]:
    """What to say of the steps whose last heat leaves little time to strike, the work or its thin part, whichever is
    cold first; nothing is serious in that.

    Steps of which the same is to be said are told in one: ten lines that are alike would bury what is worse.

    Args:
        plan: the plan
        times: what it takes
    """
    found: dict[str, list[_Short]] = {}
    for number, (step, taken) in enumerate(zip(plan.steps, times.steps, strict=True), 1):
        seconds = taken.last.first_cold
        if seconds is None or seconds >= (SHORT_WELD if _is_weld(step) else SHORT):
            continue
        short = _Short(number, step, seconds, step.thin_name if seconds == taken.last.thin_hammer else "")
        found.setdefault(_mend("", short), []).append(short)
    return tuple(_concern(alike) for alike in found.values())


@record
class _Short:
    """A step that is a hurry."""

    number: int
    """Its number, from 1."""
    step: Step
    """The step."""
    seconds: float
    """What is left to strike [s]."""
    thin: str
    """What its thin part is called, where that is cold first; else empty."""


def _concern(alike: Sequence[_Short]) -> Concern:
    first = alike[0]
    place = f" the {first.thin}" if first.thin else ""
    if len(alike) == 1:
        cold = first.step.keep_above

        def one(units: Units) -> str:
            limit = "" if cold is None else f" until it is down to {units.temperature(cold)}"
            return f'"{first.step.title}" leaves about {first.seconds:.0f} s to strike{place}{limit}'

        return Concern("", one, _mend(f"step {first.number}", first))
    numbers = [str(short.number) for short in alike]
    steps = f"steps {', '.join(numbers[:-1])} and {numbers[-1]}"
    least, most = (f"{edge(short.seconds for short in alike):.0f}" for edge in (min, max))
    time = least if least == most else f"{least} to {most}"
    return Concern("", f"{steps} leave about {time} s to strike{place}", _mend(steps, first))


def _is_weld(step: Step) -> bool:
    """Whether a step is done at welding heat."""
    return step.kind is StepKind.WELD or step.flux_at is not None


def _mend(where: str, short: _Short) -> str:
    step, thin = short.step, short.thin
    if _is_weld(step):
        return f"weld one end at a time in {where}, start from thicker pieces, or bring the anvil to the fire"
    first = f"strike the {thin} first" if thin else "be at the anvil before it is out"
    thicker = "" if thin or step.reach is None else ", or stop at a thicker section"
    return f"plan one heat more for {where}, and {first}{thicker}"
