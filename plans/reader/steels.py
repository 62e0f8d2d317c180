"""The steels of a plan: those of its bars, or the one that it hardens."""

from __future__ import annotations

from functools import lru_cache

from plans.errors import PlanError
from plans.making import What
from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reader.answer_file import made_from


def steels_of(plan: Plan) -> tuple[str, ...]:
    """The steels that a plan works, each once, as it calls them.

    A plan for work that is only heat-treated has no bars; where it hardens, its heats are those of the steel in the
    answers that it was made from. One that only normalizes or etches does so with whatever lies in the fire.

    Args:
        plan: the plan

    Returns:
        the steels; none where it names none
    """
    if plan.bars:
        return tuple(dict.fromkeys(bar.steel for bar in plan.bars if bar.steel))
    hardens = any(phase.kind is PhaseKind.QUENCH for step in plan.steps for phase in step.phases)
    return _answered(plan.source, plan.name) if hardens else ()


@lru_cache(maxsize=32)
def _answered(source: str, name: str) -> tuple[str, ...]:
    """The steel of the answers; kept, since a lesson asks for it at every step."""
    try:
        answers = made_from(source, name)
    except PlanError:
        return ()
    return (answers.steel,) if answers is not None and answers.what is What.CYCLES else ()
