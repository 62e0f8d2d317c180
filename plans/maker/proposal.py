"""What the maker proposes: a plan in the keys of its file, with the reason of every figure and what does not add up."""

from __future__ import annotations

from collections.abc import Mapping

from plans.maker.settled import Settled
from plans.maker.why import Concern, Why
from plans.making import Part
from plans.reader import AnswerKeys, BarKeys, StepKeys
from plans.record import record
from plans.shapes import Blade
from plans.stock import Loss


@record(eq=False)
class ProposedStep:
    """One step as it will stand in the plan's file."""

    part: Part
    """What part of the work it is."""
    keys: StepKeys
    """Its keys."""
    why: Mapping[str, Why]
    """Where its figures come from, by the attribute of `keys`; of a nested table "quench.medium", "oven.at"."""


@record(eq=False)
class Proposal:
    """A plan for what shall be made."""

    answers: AnswerKeys
    """What was answered, its figures as they are written."""
    settled: Settled
    """The same with every answer filled in, each with where it comes from."""
    title: str
    """What the plan is called on the shelf."""
    about: str
    """What comes out of it."""
    bars: tuple[BarKeys, ...]
    """What it starts from; empty where work is there already."""
    bar_whys: tuple[Mapping[str, Why], ...]
    """Where the figures of each bar come from, by the attribute of `BarKeys`."""
    steps: tuple[ProposedStep, ...]
    """Its steps, in order."""
    concerns: tuple[Concern, ...]
    """What does not add up, the serious ones first."""
    finished: Blade | None
    """The finished piece; None where nothing new is made."""
    stock: float
    """Volume of the bars [m3]."""
    losses: tuple[Loss, ...]
    """What the stock goes to besides the finished piece; with it, all of the stock."""
