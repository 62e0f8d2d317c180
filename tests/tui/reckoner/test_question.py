"""What is typed into a question: with or without the quotes of a command line; and what stock says where it can't."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

import pytest

from plans.reckoner import ReckonError
from tui.reckoner import questions
from tui.reckoner.question import Question
from tui.reckoner.questions import GROUPS, QUESTIONS

RACK = """
heatbook = 1

[[bar]]
steel = "5160"
section = "25 x 25 mm"
length = "1 m"

[[bar]]
steel = "1084"
section = "{section}"
length = "{length}"
"""


def test_every_question_is_found_by_its_name() -> None:
    folder = Path(questions.__file__).parent
    files = [import_module(f"{questions.__name__}.{path.stem}") for path in folder.glob("[!_]*.py")]
    written = {one.name: one for file in files for one in vars(file).values() if isinstance(one, Question)}
    assert written.keys() == set(QUESTIONS)
    assert all(QUESTIONS[name] is one for name, one in written.items())
    assert [name for names in GROUPS.values() for name in names] == [*QUESTIONS]


@pytest.mark.parametrize(
    "typed", ['"1 1/4 in"', "'1 1/4 in'", "\u201c1 1/4 in\u201d", ' "1 1/4 in" ', '1 1/4"', "1 1/4 in"]
)
def test_quotes_round_a_text_are_none_of_it(typed: str) -> None:
    assert QUESTIONS["weight"].read({"section": "1 x 1 in", "length": typed})["length"] == pytest.approx(0.03175)


@pytest.mark.parametrize(
    ("section", "length", "said"),
    [
        ("25 x 10 mm", "60 mm", "the longest is 60 mm"),
        ("10 x 4 mm", "2 m", "20 x 5 mm"),
        ("25 x 10 mm", "2 m", ""),
    ],
)
def test_a_rack_says_why_no_bar_of_it_will_do(tmp_path: Path, section: str, length: str, said: str) -> None:
    rack = tmp_path / "rack.toml"
    rack.write_text(RACK.format(section=section, length=length))
    typed = {"plan-or-piece": "carving-knife", "rack": str(rack)}
    if not said:
        cut = next(one for one in QUESTIONS["stock"].ask(typed).found if one.key == "rack_cuts").kept
        assert [(one["steel"], one["section"], one["bar_mm"]) for one in cut] == [("1084", "25 x 10 mm", 2000)]
        return
    with pytest.raises(ReckonError) as refused:
        QUESTIONS["stock"].ask(typed)
    assert refused.value.given == "rack"
    assert said in refused.value.why


def test_a_rack_without_the_steel_says_what_it_holds(tmp_path: Path) -> None:
    rack = tmp_path / "rack.toml"
    rack.write_text(RACK.format(section="25 x 10 mm", length="1 m").replace('"1084"', '"O1"'))
    with pytest.raises(ReckonError, match="no 1084 on it; it holds 5160, O1"):
        QUESTIONS["stock"].ask({"plan-or-piece": "carving-knife", "rack": str(rack)})
