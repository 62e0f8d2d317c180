"""How hot the steel must still be when it goes into the quench."""

from __future__ import annotations

from dataclasses import replace

import pytest

from plans.plan import Bar, Plan
from plans.shapes import Section
from plans.sitting.quench import quench_floor
from plans.steel import card_of, find_grade
from plans.units import celsius


def of(plan: Plan, *steels: str) -> float | None:
    """The floor of a plan with a bar of each of these steels."""
    bars = tuple(Bar(steel, steel, Section(0.040, 0.012), 0.2) for steel in steels)
    return quench_floor(replace(plan, bars=bars))


def test_a_steel_with_little_carbon_must_be_above_its_printed_ac3(plan: Plan) -> None:
    """Card C45U (1045), UNI EN ISO 4957: Ac3 780 degC; below it ferrite has formed, which does not harden."""
    floor = of(plan, "1045")
    assert floor is not None
    assert celsius(floor) == pytest.approx(780.0)


@pytest.mark.parametrize("steel", ["1084", "1095", "52100", "5160"])
def test_from_near_the_eutectoid_on_it_is_ac1(plan: Plan, steel: str) -> None:
    """Such a steel is hardened from below its upper critical temperature, where that is Acm, or close above Ac1."""
    card = card_of(find_grade(steel))
    assert card.ac1.best.value is not None
    assert card.upper.best.value is not None
    assert of(plan, steel) == card.ac1.best.value < card.upper.best.value


def test_the_edge_decides_and_not_the_back(plan: Plan) -> None:
    assert of(plan, "1018", "1095") == of(plan, "1095", "1018") == of(plan, "1095") != of(plan, "1018")


def test_a_steel_that_nobody_knows_is_passed_over(plan: Plan) -> None:
    assert of(plan, "an old leaf spring", "1084") == of(plan, "1084")
    assert of(plan, "an old leaf spring") is None
    assert of(plan) is None
