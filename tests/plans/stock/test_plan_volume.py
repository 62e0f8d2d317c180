"""The steel of a plan through its steps: of those that ship, and of any; what goes in comes out or has a name."""

from __future__ import annotations

from dataclasses import replace
from math import isclose

import pytest
from hypothesis import given, strategies as st

from plans.plan import Plan, Step
from plans.reader import SHELF, read_plan_file
from plans.shapes import Section
from plans.stock import PlanVolume, through

PLANS = [read_plan_file(path) for path in sorted(SHELF.glob("*.toml"))]
BILLET = next(plan for plan in PLANS if plan.name == "kitchen-billet")


def unaccounted(found: PlanVolume) -> float:
    lost = sum(step.scale + step.trimmed for step in found.steps)
    return found.stock + found.more - found.out - found.beside - lost


def test_the_folded_billet_by_hand() -> None:
    # 38 x 4 x 480 + 38 x 3 x 360 = 72,960 + 41,040 = 114,000 mm3 of bars; 40 x 6 x 256 = 61,440 mm3 come out.
    found = through(BILLET)
    assert found is not None
    assert found.stock == pytest.approx(114_000e-9)
    assert found.out == pytest.approx(61_440e-9)
    # The stack of 38 x 25 x 120 mm is all of it; the first draw leaves 40 x 12 x 216 = 103,680 mm3, and of that the
    # trimmed and ground bar keeps 40 x 11 x 200 = 88,000; later 40 x 12 x 167 = 80,160 and 40 x 11 x 160 = 70,400.
    assert found.steps[0].begins == pytest.approx(114_000e-9)
    assert found.beside == pytest.approx((103_680 - 88_000 + 80_160 - 70_400) * 1e-9)
    assert found.more == 0


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.name)
def test_plans_that_ship_add_up(plan: Plan) -> None:
    found = through(plan)
    if found is None:
        assert not plan.bars or all(step.section is None or step.length is None for step in plan.steps)
        return
    assert isclose(unaccounted(found), 0, abs_tol=1e-9 * found.stock)
    assert found.more <= 0.05 * found.stock


SECTIONS = st.builds(lambda wide, thick: Section(max(wide, thick), min(wide, thick)), *(st.floats(0.003, 0.05),) * 2)
LENGTHS = st.floats(0.02, 1.0)
STEPS = st.builds(
    lambda step, section, length, reach, reach_length, heats: replace(
        step, section=section, length=length, reach=reach, reach_length=reach_length, heats=heats
    ),
    st.sampled_from(BILLET.steps),
    st.none() | SECTIONS,
    st.none() | LENGTHS,
    st.none() | SECTIONS,
    st.none() | LENGTHS,
    st.integers(1, 12),
)


@given(st.lists(STEPS, min_size=1, max_size=6))
def test_any_plan_keeps_its_steel(steps: list[Step]) -> None:
    found = through(replace(BILLET, steps=tuple(steps)))
    if found is None:
        return
    assert isclose(unaccounted(found), 0, abs_tol=1e-9 * (found.stock + found.more))
    for step in found.steps:
        assert min(step.scale, step.trimmed, step.welded_on) >= -1e-15
    assert found.beside >= 0
    assert found.more >= 0
