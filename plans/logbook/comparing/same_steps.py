"""Which steps of several sittings are the same one."""

from __future__ import annotations

from collections.abc import Sequence

from plans.logbook.figures import StepFigures
from plans.logbook.kept_plan import plan_if_known
from plans.logbook.kept_sitting import KeptSitting
from plans.plan import StepKind
from plans.record import record


@record
class SameStep:
    """One step of several sittings."""

    title: str
    """Its title in their plans."""
    kind: StepKind
    """What kind of work it is."""
    steps: tuple[StepFigures | None, ...]
    """It in each sitting; None where that has not come to it, or has no such step."""

    @property
    def numbers(self) -> tuple[int | None, ...]:
        """Its number in each sitting, from 0."""
        return tuple(None if step is None else step.step for step in self.steps)


def same_steps(sittings: Sequence[KeptSitting]) -> list[SameStep]:
    """The steps of sittings that belong beside one another; those of the first sitting come first.

    Steps are the same that have the same title and kind, wherever they stand: the second one that a plan has of a kind
    and title is beside the second one of the other plans.
    """
    named = [_named(kept) for kept in sittings]
    names = dict.fromkeys(name for steps in named for name in steps)
    return [SameStep(*name[:2], tuple(steps.get(name) for steps in named)) for name in names]


def _named(kept: KeptSitting) -> dict[tuple[str, StepKind, int], StepFigures]:
    """The steps of a sitting by title and kind, and how many like it its plan has before."""
    steps = () if kept.figures is None else kept.figures.steps
    plan = plan_if_known(kept.header)
    # One that was passed over counts too: in the same plan each step is beside itself.
    planned = {step.step: (step.title, step.kind) for step in steps}
    planned |= {} if plan is None else {number: (step.title, step.kind) for number, step in enumerate(plan.steps)}
    found = {}
    for step in steps:
        before = sum(number < step.step and name == (step.title, step.kind) for number, name in planned.items())
        found[step.title, step.kind, before] = step
    return found
