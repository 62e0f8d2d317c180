"""A plan on the bench of the maker, without its screen."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from plans.reader import PlanFile, read_plan
from plans.shop import Shop
from plans.units import Units
from tests.plans.reader.test_answers_in_a_plan import PLAN, WRONG
from tui.cli.whole_plan import look_at, look_record
from tui.maker.answers import AnswerError
from tui.maker.work import Known, Work, make

KNOWN = Known(Units.METRIC, Shop(), (), lambda _: None)


@pytest.mark.parametrize(
    ("answers", "line", "key"), [*WRONG, ('[made_from]\nthickness = "60 mm"\n', None, "thickness")]
)
def test_a_plan_whose_answers_give_none_is_changed_by_hand_and_it_is_said_why(
    tmp_path: Path, answers: str, line: int | None, key: str
) -> None:
    text = PLAN + answers
    work = Work(KNOWN, PlanFile("plan", tmp_path / "plan.toml", True), text)
    said = work.begin()
    assert "changed by hand" in said
    assert key in said
    assert line is None or f"plan.toml:{line}: made_from.{key}" in said
    assert not work.is_answered
    assert work.plan.title == "By hand"
    assert (work.text, work.is_unsaved) == (text, False)


def test_a_brace_that_is_typed_into_the_title_is_refused_there() -> None:
    with pytest.raises(AnswerError, match=r"title holds a \{") as refused:
        make({"title": "Knife {oops"}, KNOWN)
    assert refused.value.answer == "title"


def test_what_is_told_of_a_plan_whose_answers_cannot_be_read() -> None:
    plan = read_plan(PLAN + WRONG[0][0], "plan", "plan")
    look = look_at(plan, Shop())
    made = json.loads(json.dumps(look_record(look, Units.METRIC)))["made_from"]
    assert (made["answers"], made["differs"]) == (None, None)
    assert "made_from.length" in made["refused"]
