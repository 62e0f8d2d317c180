"""A plan on the bench of the maker, without its screen."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from plans.maker import propose
from plans.making import Build, What
from plans.reader import AnswerKeys, PlanFile, read_plan
from plans.shop import Shop
from plans.units import Units
from tests.plans.reader.test_answers_in_a_plan import PLAN, WRONG
from tui.cli.whole_plan import look_at, look_record
from tui.maker.answers import AnswerError
from tui.maker.question_rows import field_of, why_of
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


def test_a_build_that_is_refused_is_not_offered_and_a_piece_that_would_change_it_says_so() -> None:
    proposal = propose(AnswerKeys())
    built = field_of(("build", None), {}, AnswerKeys(what=What.DRAWKNIFE), proposal, {}, Units.METRIC)
    assert ("laminate" in built.words, "core" in built.words, "wrapped edge" in built.words) == (True, False, False)
    answers = AnswerKeys(what=What.WEDGE, build=Build.CORE)
    what = field_of(("what", None), {"what": "wedge", "build": "core"}, answers, proposal, {}, Units.METRIC)
    assert "wedge" in what.words
    assert "a wedge has none" in what.beside
    why = dict(why_of(("build", None), {}, AnswerKeys(what=What.WEDGE), proposal, Units.METRIC))
    assert "a wedge has none" in why["not core"]


def test_what_is_told_of_a_plan_whose_answers_cannot_be_read() -> None:
    plan = read_plan(PLAN + WRONG[0][0], "plan", "plan")
    look = look_at(plan, Shop())
    made = json.loads(json.dumps(look_record(look, Units.METRIC)))["made_from"]
    assert (made["answers"], made["differs"]) == (None, None)
    assert "made_from.length" in made["refused"]
