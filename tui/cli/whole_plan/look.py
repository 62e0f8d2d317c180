"""What there is to know of a plan before anything is in the fire."""

from __future__ import annotations

from collections.abc import Sequence

from plans.errors import Fault, PlanError
from plans.maker import Apart, Concern, MakeError, apart_from_maker, doubts_on, proposal_of
from plans.plan import Bar, Plan
from plans.reader import AnswerKeys, made_from, notes_on
from plans.reckoned import Reckoned
from plans.record import record
from plans.shop import Shop
from plans.steel import Grade, SteelError, density_of, find_grade
from plans.stock import PlanVolume, RackBar, StepVolume, through
from plans.times import PlanTimes, hammer_span, plan_times
from plans.units import Units, kelvin
from plans.warmth import Span


@record
class Hammer:
    """The hammer times of a step, until the first is cold, the work or its thin part."""

    first: Span | None
    """That of its first heat; None where nothing is struck, or it can't be worked out."""
    last: Span | None
    """That of its last."""


@record
class Made:
    """What a plan was made from, and how it stands to what the maker proposes for that today."""

    answers: AnswerKeys | None
    """The answers in it; None where they can't be read."""
    apart: Apart | None
    """What differs; None where the answers can't be read, or the maker refuses them."""
    refused: str
    """Why that is so; empty where it is not."""


@record
class PlanLook:
    """All that is told of a plan before it is begun."""

    plan: Plan
    """The plan."""
    masses: tuple[float, ...]
    """What each of its bars weighs [kg]."""
    times: PlanTimes
    """What it takes, step by step."""
    hammer: tuple[Hammer, ...]
    """The hammer times of each step."""
    volume: PlanVolume | None
    """Where its steel goes; None where it says too little for that."""
    notes: tuple[Fault, ...]
    """What is odd in it."""
    concerns: tuple[Concern, ...]
    """What does not add up besides, the serious things first."""
    made: Made | None
    """What it was made from; None where it was written by hand."""

    def volume_of(self, step: int) -> StepVolume | None:
        """The steel of a step, by its number from 0; None where the plan says too little of it."""
        steps = self.volume.steps if self.volume is not None else ()
        return next((one for one in steps if one.step == step), None)

    def aside_before(self, step: StepVolume) -> float:
        """What was set aside or cut off since the step before, or since the bars [m3]; below 0 where some of that is
        taken up again, or comes from nowhere."""
        assert self.volume is not None, "else there is no step of it"
        before = [one.ends for one in self.volume.steps if one.step < step.step]
        return (before[-1] if before else self.volume.stock) - step.begins


def look_at(
    plan: Plan,
    shop: Shop,
    racks: Sequence[Sequence[RackBar]] = ((),),
    reduction: Reckoned | None = None,
) -> PlanLook:
    """Work out all that is told of a plan.

    Args:
        plan: the plan
        shop: the smith's own figures
        racks: the bars that it may have been made from; an empty one for common sizes
        reduction: what a heat takes off in this shop; None for what is usual
    """
    times = plan_times(plan, shop)
    hammer = tuple(Hammer(hammer_span(step, 1, shop), hammer_span(step, step.heats, shop)) for step in plan.steps)
    return PlanLook(
        plan,
        tuple(map(_mass, plan.bars)),
        times,
        hammer,
        through(plan),
        notes_on(plan, plan.name),
        doubts_on(plan, times, proposal_of(plan, Units.METRIC, racks[-1] if racks else (), reduction)),
        _made(plan, racks, reduction),
    )


def _made(plan: Plan, racks: Sequence[Sequence[RackBar]], reduction: Reckoned | None) -> Made | None:
    try:
        answers = made_from(plan.source, plan.name)
    except PlanError as error:
        return Made(None, None, str(error.faults[0]))
    if answers is None:
        return None
    try:
        return Made(answers, apart_from_maker(plan.source, answers, racks, reduction), "")
    except MakeError as error:
        return Made(answers, None, str(error))


def _mass(bar: Bar) -> float:
    return density_of(kelvin(20), _grade(bar.steel)).value * bar.section.area * bar.length


def _grade(steel: str) -> Grade | None:
    try:
        return find_grade(steel)
    except SteelError:
        return None  # then it is as heavy as steel is
