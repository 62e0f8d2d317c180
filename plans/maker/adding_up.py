"""What does not add up in a plan, said alike wherever a plan is looked at: in the maker and on the command line."""

from __future__ import annotations

from collections.abc import Sequence

from plans.errors import PlanError
from plans.maker.errors import MakeError
from plans.maker.hurry import hurried
from plans.maker.proposal import Proposal
from plans.maker.proposing import propose
from plans.maker.why import Concern
from plans.plan import Plan
from plans.reader import made_from
from plans.reckoned import Reckoned
from plans.stock import RackBar
from plans.times import PlanTimes
from plans.units import Units


def doubts_on(plan: Plan, times: PlanTimes, proposal: Proposal | None) -> tuple[Concern, ...]:
    """What does not add up in a plan, besides what `plans.reader.notes_on` finds in its text; the serious ones first.

    Args:
        plan: the plan
        times: what it takes
        proposal: what the answers give that it was made from; None where there are none
    """
    return (*(() if proposal is None else proposal.concerns), *hurried(plan, times))


def proposal_of(
    plan: Plan, units: Units, rack: Sequence[RackBar] = (), reduction: Reckoned | None = None
) -> Proposal | None:
    """What the maker proposes today for the answers that a plan was made from.

    Args:
        plan: the plan
        units: in which its smith works
        rack: the bars that there are; empty for common sizes
        reduction: what a heat takes off in his shop; None for what is usual

    Returns:
        the proposal; None where the plan has no answers, or they give none
    """
    try:
        answers = made_from(plan.source, plan.name)
        return None if answers is None else propose(answers, units, tuple(rack), reduction)
    except (PlanError, MakeError):
        return None
