"""Which steps of several sittings are the same one."""

from __future__ import annotations

from collections.abc import Sequence

from plans.editing import Name, in_order
from plans.logbook.figures import StepFigures
from plans.logbook.kept_plan import plan_if_known
from plans.logbook.kept_sitting import KeptSitting
from plans.plan import StepKind
from plans.record import record


@record
class SameStep:
    """One step of several sittings."""

    title: str
    """Its title in the plan of the first that has come to it."""
    kind: StepKind
    """What kind of work it is."""
    steps: tuple[StepFigures | None, ...]
    """It in each sitting; None where that has not come to it, or has no such step."""

    @property
    def numbers(self) -> tuple[int | None, ...]:
        """Its number in each sitting, from 0."""
        return tuple(None if step is None else step.step for step in self.steps)

    @property
    def titles(self) -> tuple[str, ...]:
        """Its title in each sitting; the first one's where one has no such step."""
        return tuple(self.title if step is None else step.title for step in self.steps)


def same_steps(sittings: Sequence[KeptSitting]) -> list[SameStep]:
    """The steps of sittings that belong beside one another, in the order of the work.

    No two of them cross: steps of the same title and kind are the same in their order as far as it goes; of what is
    left between two such, steps of the same kind are, in their order.
    """
    rows: _Rows = []
    for place, kept in enumerate(sittings):
        rows = _with(rows, place, _names(kept))
    done = [{step.step: step for step in (() if kept.figures is None else kept.figures.steps)} for kept in sittings]
    found = []
    for _, numbers in rows:
        steps = tuple(of_one.get(numbers.get(place, -1)) for place, of_one in enumerate(done))
        if (first := next((step for step in steps if step is not None), None)) is not None:
            found.append(SameStep(first.title, first.kind, steps))
    return found


_Rows = list[tuple[Name, dict[int, int]]]
"""Steps in order, each with its number in each sitting that has it, by the place of the sitting."""


def _with(rows: _Rows, place: int, names: dict[int, Name]) -> _Rows:
    """Rows with the steps of one more sitting, those that none has yet between those that they stand between."""
    numbers = list(names)
    theirs = in_order([name for name, _ in rows], list(names.values()))
    joined: _Rows = []
    come_to = 0
    for row, (name, known) in enumerate(rows):
        if row in theirs:
            joined += [(names[number], {place: number}) for number in numbers[come_to : theirs[row]]]
            come_to = theirs[row] + 1
            known = known | {place: numbers[theirs[row]]}
        joined.append((name, known))
    return [*joined, *((names[number], {place: number}) for number in numbers[come_to:])]


def _names(kept: KeptSitting) -> dict[int, Name]:
    """What the steps of a sitting are told by, by their numbers; those that were passed over too, where it is known."""
    plan = plan_if_known(kept.header)
    names = {} if plan is None else {number: Name(step.title, step.kind) for number, step in enumerate(plan.steps)}
    steps = () if kept.figures is None else kept.figures.steps
    return dict(sorted((names | {step.step: Name(step.title, step.kind) for step in steps}).items()))
