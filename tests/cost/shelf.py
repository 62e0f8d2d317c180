"""What it costs to say beforehand what a plan takes, and to list the plans at hand."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from time import process_time

from plans.at_hand import list_plans
from plans.plan import Plan, Step
from plans.reader import find_plan
from plans.shop import Shop
from plans.times import plan_times, step_times
from plans.times.of_a_step import _times_of
from plans.warmth import Part, WarmModel, course_of, fire
from tests.cost.row import Row, Timed, by_turns
from tests.shelf_plans import shelf_plans

TURNS = 7
SHOP = Shop()


def rows() -> Iterator[Row]:
    """A plan's times beside the first heat of each of its steps; a glance at plans beside reading them."""
    plan = find_plan("kitchen-billet", None)
    hot = [step for step in plan.steps if step.targets and step.section is not None]
    anew, again, heating = by_turns(
        TURNS,
        _timed(lambda: [step_times(step, SHOP) for step in hot], _times_of.cache_clear),
        _timed(lambda: plan_times(_reworded(plan), SHOP)),
        _timed(lambda: [_heated(step) for step in hot]),
    )
    yield Row("what a plan of ten fires takes", anew, "its first heats, solved as a sitting does", heating, 2.0)
    yield Row("the same after a word was changed", again, "the same", heating, 0.05)
    glance, reading = by_turns(TURNS, _timed(lambda: list_plans(None)), _timed(lambda: shelf_plans(None)))
    yield Row("plans at hand, listed", glance, "read whole", reading, 0.25)


def _reworded(plan: Plan) -> Plan:
    return replace(plan, steps=(replace(plan.steps[0], title="Cut them"), *plan.steps[1:]))


def _heated(step: Step) -> float | None:
    assert step.section is not None
    cold, target = WarmModel(step.section, step.length), step.targets[0]
    return course_of(cold, fire(target.fire)).time_until(Part.SKIN, target.heat_to, falls=False)


def _timed(work: Callable[[], object], before: Callable[[], None] = lambda: None) -> Timed:
    def once(_: int) -> float:
        before()
        begun = process_time()
        work()
        return process_time() - begun

    return once
