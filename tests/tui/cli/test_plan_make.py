"""`heatbook plan make`: from a file of answers to a plan, and what is said of answers that make none."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Ask = Callable[..., Any]

ANSWERS = """what = "single-edged"
length = "150 mm"
steel = "1084"
"""


@pytest.fixture
def answers(tmp_path: Path) -> Path:
    path = tmp_path / "answers.toml"
    path.write_text(ANSWERS)
    return path


def test_what_is_made_can_be_checked_listed_and_made_again(ask: Ask, home: Path, answers: Path) -> None:
    path = home / "plans" / "knife.toml"
    done = ask("plan", "make", "--from", str(answers), "--out", str(path))
    assert (done.returncode, done.stdout) == (0, f"{path}: written; heatbook run {path}\n")
    assert ask("plan", "check", str(path)).returncode == 0
    assert "  knife " in ask("plan", "list").stdout
    assert ask("plan", "make", "--from", str(path)).stdout == path.read_text()
    again = ask("plan", "make", "--from", str(answers), "--out", str(path))
    assert (again.returncode, again.stdout) == (2, "")
    assert f"{path}: stands there already" in again.stderr


def test_json_says_why_and_holds_the_volume(ask: Ask, answers: Path) -> None:
    found = json.loads(ask("plan", "make", "--from", str(answers), "--json").stdout)
    assert found["finished_cm3"] + sum(found["losses_cm3"].values()) == pytest.approx(found["stock_cm3"])
    bars = (bar["length_mm"] * bar["section"]["width_mm"] * bar["section"]["thickness_mm"] for bar in found["bars"])
    assert sum(bars) / 1000 == pytest.approx(found["stock_cm3"])
    assert all(why["basis"] and why["said"] for step in found["steps"] for why in step["why"].values())


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ('what = "single-edged"\nlengt = "150 mm"\n', ":2: lengt is no key that is known here; perhaps length"),
        ('length = "150 mm"\nbuild = "cor"\n', ":2: build is 'cor'; perhaps 'core'"),
        ('length = "150"\n', ":1: length "),
        ("what =\n", ":1: "),
        ('# a contradiction\nwidth = "30 mm"\nthickness = "40 mm"\n', ":3: thickness: 40 mm"),
        ('[made_from]\nwidth = "30 mm"\n\nthickness = "40 mm"\n', ":4: thickness: 40 mm"),
        (
            'heatbook = 1\ntitle = "By hand"\n[[step]]\ntitle = "Look"\nkind = "bench"\n',
            ": this plan was not made from",
        ),
        (None, ": can't be read: there is no such file"),
    ],
)
def test_answers_that_make_no_plan(ask: Ask, answers: Path, content: str | None, said: str) -> None:
    answers.unlink() if content is None else answers.write_text(content)
    out = answers.with_name("plan.toml")
    done = ask("plan", "make", "--from", str(answers), "--out", str(out))
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.startswith(f"heatbook: {answers}{said}")
    assert not out.exists()


def test_answers_that_ask_for_nothing_are_told_of(ask: Ask, answers: Path) -> None:
    answers.write_text("# nothing yet\n")
    done = ask("plan", "make", "--from", str(answers))
    assert done.stdout.startswith("# Made from the answers")
    assert f"{answers}: note: nothing is asked for here; it is the usual blade then" in done.stderr


def test_what_does_not_add_up_is_said_with_the_line_of_its_answer(ask: Ask, answers: Path) -> None:
    answers.write_text(ANSWERS.replace("1084", "a steel nobody knows"))
    done = ask("plan", "make", "--from", str(answers))
    assert done.stdout.startswith("# Made from the answers")
    assert any(line.startswith(f"{answers}:3: ") and ": steel: " in line for line in done.stderr.splitlines())
    found = json.loads(ask("plan", "make", "--from", str(answers), "--json").stdout)["concerns"]
    assert done.returncode == int(any(one["serious"] for one in found))


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        ((), 1, "; without a screen: heatbook plan make --from ANSWERS.toml"),
        (("--json",), 2, "go with --from ANSWERS.toml"),
        (("--from", "{}", "--rack"), 2, "rack.toml: there is no such file; write down there what bars you have"),
        (("--from", "{}", "--out", "plan.txt"), 2, "plan.txt: a plan's file ends in .toml"),
        (("--from", "{}", "--out", "nowhere/plan.toml"), 2, "there is no folder nowhere"),
    ],
)
def test_what_cannot_be_done(ask: Ask, answers: Path, words: tuple[str, ...], status: int, said: str) -> None:
    done = ask("plan", "make", *(word.replace("{}", str(answers)) for word in words))
    assert (done.returncode, done.stdout) == (status, "")
    assert said in done.stderr
