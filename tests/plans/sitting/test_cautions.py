"""The cautions of the trade stand where they belong."""

from __future__ import annotations

from dataclasses import replace

import pytest

from plans.plan import Plan, StepKind
from plans.sitting.cautions import first_of_all, for_plan, for_step
from tests.shelf_plans import shelf_plans

HOT = (
    StepKind.WELD,
    StepKind.DRAW,
    StepKind.FORGE,
    StepKind.NORMALIZE,
    StepKind.ANNEAL,
    StepKind.HARDEN,
)
SHELF = {found.name: found.plan for found in shelf_plans(None)}


def about(kind: StepKind, plan: Plan) -> set[str]:
    return {caution.about for caution in for_step(replace(plan.steps[0], kind=kind, cautions=()))}


def test_first_of_all_codes_data_sheets_and_licensed_practice() -> None:
    for said in ("Local codes", "data sheets", "licensed practice", "switches nothing"):
        assert said in first_of_all()


@pytest.mark.parametrize("kind", StepKind)
def test_every_kind_of_step_has_its_cautions(plan: Plan, kind: StepKind) -> None:
    assert about(kind, plan)


@pytest.mark.parametrize("kind", HOT)
def test_whatever_has_a_fire_warns_of_gas_eyes_and_burns(plan: Plan, kind: StepKind) -> None:
    assert {"carbon monoxide", "gas", "eyes", "burns"} <= about(kind, plan)


@pytest.mark.parametrize(
    ("kind", "needed"),
    [
        (StepKind.WELD, {"flux", "coatings", "noise", "press and hammer"}),
        (StepKind.HARDEN, {"oil", "hard and brittle"}),
        (StepKind.TEMPER, {"oven", "burns"}),
        (StepKind.ETCH, {"acid and etchant"}),
        (StepKind.BENCH, {"dust", "wheels and belts", "noise"}),
    ],
)
def test_each_danger_is_told_where_it_is(plan: Plan, kind: StepKind, needed: set[str]) -> None:
    assert needed <= about(kind, plan)


def test_a_bench_has_no_fire_and_no_acid(plan: Plan) -> None:
    assert not about(StepKind.BENCH, plan) & {"carbon monoxide", "gas", "oil", "acid and etchant", "flux"}


def test_a_plans_own_cautions_come_first(plan: Plan) -> None:
    step = replace(plan.steps[0], cautions=("Nickel dust harms.", "Hold it low."))
    found = for_step(step)
    assert [caution.text for caution in found[:2]] == ["Nickel dust harms.", "Hold it low."]
    assert all(not caution.kinds and caution.about == step.title for caution in found[:2])
    assert all(step.kind in caution.kinds for caution in found[2:])


def test_a_plan_says_each_caution_once_the_most_dangerous_first(plan: Plan) -> None:
    plan = replace(plan, steps=(replace(plan.steps[-1], cautions=("Nickel dust harms.",)), *plan.steps))
    found = for_plan(plan)
    assert len(set(found)) == len(found)
    assert set(found) == {caution for step in plan.steps for caution in for_step(step)}
    order = [caution.about for caution in found]
    assert order[:4] == ["carbon monoxide", "gas", "burns", "eyes"]
    assert order.index("oil") < order.index("wheels and belts") < order.index("noise")
    assert found[-1].text == "Nickel dust harms."


@pytest.mark.parametrize("name", SHELF)
def test_each_plan_that_ships_warns_of_all_that_its_steps_do(name: str) -> None:
    plan = SHELF[name]
    assert plan is not None
    found = for_plan(plan)
    for step in plan.steps:
        assert set(for_step(step)) <= set(found)
        assert {*step.cautions} <= {caution.text for caution in found}
    hot = {"carbon monoxide", "gas", "eyes", "burns"} if any(step.targets for step in plan.steps) else set()
    assert {"dust"} | hot <= {caution.about for caution in found}


def test_every_caution_can_be_shown_as_it_stands(plan: Plan) -> None:
    for text in (first_of_all(), *(caution.text for caution in for_plan(plan))):
        assert text.isprintable()
        assert text.endswith((".", "!"))
        assert len(text) <= 320, "short enough to be read"
