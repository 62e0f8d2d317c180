"""What differs between two plans is told, and nothing else."""

from __future__ import annotations

from dataclasses import replace

import pytest

from plans.editing import difference, draft_of, moved, removed, repeated, toml_of, with_keys
from plans.errors import PlanError
from plans.reader import SHELF, made_from
from plans.units import Units

PLAN = (SHELF / "normalize.toml").read_text("utf-8")
LONG = (SHELF / "drawknife.toml").read_text("utf-8")


def told(before: str, after: str, units: Units = Units.METRIC) -> list[str]:
    return list(difference(before, after).lines(units))


@pytest.mark.parametrize("units", [Units.METRIC, Units.INCH])
def test_a_plan_written_anew_in_any_units_is_the_same(units: Units) -> None:
    draft = replace(draft_of(LONG, "one"), made_from=made_from(LONG, "one"))
    again = toml_of(draft, units, "# Another comment")
    assert difference(LONG, again).is_empty
    assert difference(again, LONG).is_empty


def test_a_figure_is_told_in_the_units_that_are_set() -> None:
    after = with_keys(PLAN, {("step", 1, "soak"): "4 min", ("step", 1, "length"): "10 in", ("title",): "Mine"})
    assert told(PLAN, after, Units.INCH) == [
        "title: Normalize three heats -> Mine",
        'step 2 "Normalize three heats": soak: 5 min -> 4 min',
        'step 2 "Normalize three heats": length: 9 13/16 in -> 10 in',
    ]
    assert told(PLAN, after)[2].endswith("length: 250 mm -> 254 mm")


def test_keys_that_come_and_go_are_told() -> None:
    after = with_keys(PLAN, {("step", 1, "air", "for"): "10 min", ("step", 1, "burn_above"): None})
    assert told(PLAN, after) == [
        'step 2 "Normalize three heats": burn_above: 1000 degC, is gone',
        'step 2 "Normalize three heats": air.for: 10 min, is new',
    ]


def test_a_long_text_is_told_from_where_it_differs() -> None:
    after = PLAN.replace("go on with the next heat", "go on with the last heat")
    (line,) = told(PLAN, after)
    assert "next heat" in line.partition(" -> ")[0]
    assert "last heat" in line.partition(" -> ")[2]
    assert len(line) < 190


def test_another_order_is_told_as_a_move() -> None:
    assert told(LONG, moved(LONG, "step", 9, 1)) == ['step 2 "Let it cool and look it over": moved, was step 10']


def test_steps_that_come_and_go_are_told_and_no_more() -> None:
    assert told(PLAN, repeated(PLAN, "step", 1)) == ['step 3 "Normalize three heats, again": is new']
    assert told(PLAN, removed(PLAN, "step", 0)) == ['step 1 "Get blade and fire ready": is gone']


def test_a_step_of_another_title_is_the_same_step() -> None:
    after = with_keys(LONG, {("step", 4, "title"): "To the section"})
    assert told(LONG, after) == ['step 5 "To the section": title: Draw out the blade -> To the section']


def test_a_plan_that_can_t_be_used_is_named() -> None:
    with pytest.raises(PlanError, match=r"^second plan:1: "):
        difference(PLAN, "heatbook = 2")
