"""Answers that can't be read keep no plan from being followed; a plan can't be made of them."""

from __future__ import annotations

from pathlib import Path

import pytest

from plans.errors import FaultKind, PlanError
from plans.reader import made_from, notes_on, read_answer_file, read_plan

PLAN = 'heatbook = 1\ntitle = "By hand"\n[[step]]\ntitle = "Look"\nkind = "bench"\n'

WRONG = [
    ('\n[made_from]\nlength = "banana"\n', 8, "length"),
    ('\n[made_from]\nsteel = "1084"\nlengt = "200 mm"\n', 9, "lengt"),
    ('\n[made_from]\ntitle = "{oops"\n', 8, "title"),
    ('\n[made_from]\nwhat = "spoon"\nfolds = -1\n', 8, "what"),
]


@pytest.mark.parametrize(("answers", "line", "key"), WRONG)
def test_a_plan_whose_answers_are_wrong_is_followed_and_it_is_noted(answers: str, line: int, key: str) -> None:
    plan = read_plan(PLAN + answers, "plan", "p.toml")
    assert plan.title == "By hand"
    note, *_ = notes_on(plan, "p.toml")
    assert (note.kind, note.line) == (FaultKind.NOTE, line)
    assert str(note).startswith(f"p.toml:{line}: note: made_from.{key} ")
    assert "can't be made anew" in note.hint
    with pytest.raises(PlanError, match=rf"^p.toml:{line}: made_from.{key} "):
        made_from(plan.source, "p.toml")


def test_answers_that_are_no_table_are_noted_too() -> None:
    plan = read_plan(PLAN.replace("[[step]]", "made_from = 3\n[[step]]"), "plan", "p.toml")
    assert [(note.kind, note.line) for note in notes_on(plan, "p.toml")] == [(FaultKind.NOTE, 3)]


def test_a_brace_in_the_title_of_answers_is_refused_where_it_stands(tmp_path: Path) -> None:
    path = tmp_path / "answers.toml"
    path.write_text('width = "30 mm"\ntitle = "{oops"\n')
    with pytest.raises(PlanError, match=r"answers.toml:2: title ") as refused:
        read_answer_file(path)
    assert len(refused.value.faults) == 1
