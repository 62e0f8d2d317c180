"""`heatbook log lesson` and `log outcome`: what is said comes back in a sitting without a screen."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

from plans.reader import find_plan, read_plan_file

if TYPE_CHECKING:
    from tests.tui.conftest import Ask


def test_a_lesson_comes_back_is_edited_counted_and_retired(one_sitting: Path, ask: Ask) -> None:
    assert one_sitting
    kind = ask("log", "lesson", "add", "last", "soak  longer", "--step", "5", "--for", "kind")
    assert kind.returncode == 0, kind.stderr
    name = kind.stdout.split()[0]
    edited = ask("log", "lesson", "edit", name, "soak two minutes").stdout
    assert edited == f"{name}  soak two minutes (every draw step)\n"
    said = ask("run", "chisel-knife", "--no-screen", "--json", input="finish\n").stdout
    events = [json.loads(line) for line in said.splitlines()]
    lessons = [(one["id"], one["text"], one["step"]) for one in events if one["event"] == "lesson"]
    assert lessons == [(name, "soak two minutes", 1)]
    listed = json.loads(ask("log", "lesson", "list", "--json").stdout)
    assert [(one["id"], one["said_in_sittings"]) for one in listed] == [(name, 1)]
    assert "no longer said" in ask("log", "lesson", "retire", name).stdout
    assert "lesson" not in ask("run", "chisel-knife", "--no-screen", input="finish\n").stdout


REFUSED = (
    (("lesson", "add", "last", "x", "--step", "99"), "steps 1 to"),
    (("lesson", "add", "last", "x", "--step", "1", "--for", "steel", "--steel", "O1"), "is of 1018, 1084"),
    (("lesson", "retire", "last.3"), "has no lessons"),
    (("lesson", "retire", "last"), "a full stop and a number"),
    (("outcome", "last", "--weld", "1=sound"), "is no weld"),
    (("outcome", "last", "--warp", "2 s"), "length"),
    (("outcome", "last", "--rating", "4", "--twist", "bent"), "no twist"),
)


def test_what_can_not_be_said_changes_nothing(one_sitting: Path, ask: Ask) -> None:
    kept = next((one_sitting / "logbook" / "sittings").glob("*.json"))
    before = kept.read_bytes()
    for words, why in REFUSED:
        answer = ask("log", *words)
        assert answer.returncode != 0, words
        assert why in answer.stderr
        assert kept.read_bytes() == before


def test_a_lesson_goes_into_a_copy_of_the_plan_and_is_not_said_there_twice(one_sitting: Path, ask: Ask) -> None:
    name = ask("log", "lesson", "add", "last", "flux sooner", "--step", "3", "--for", "kind").stdout.split()[0]
    asked = ask("log", "lesson", "put", name)
    assert asked.returncode == 2
    assert asked.stdout.count("flux sooner") == 2  # both welds, shown before anything is written
    assert not (one_sitting / "plans").exists()
    assert ask("log", "lesson", "put", name, "--yes").returncode == 0
    assert "no lesson belongs" in ask("log", "lesson", "list", "--plan", "drawknife-2").stdout
    assert "flux sooner" in ask("log", "lesson", "list", "--plan", "folded-knife").stdout
    (listed,) = json.loads(ask("log", "lesson", "list", "--json").stdout)
    assert listed["put_into"] == ["drawknife-2"]
    assert ask("log", "lesson", "put", name, "--plan", "drawknife-2", "--back", "--yes").returncode == 0
    assert ask("log", "lesson", "list", "--plan", "drawknife-2").stdout.count("flux sooner") == 2
    assert "put_into" not in json.loads(ask("log", "lesson", "list", "--json").stdout)[0]
    for words, why in (
        (("--step", "99"), "no step 99"),
        (("--plan", "etch"), "belongs to no step"),
        (("--back",), "with --plan"),
        (("--back", "--plan", "etch"), "no plan of your own"),
    ):
        assert why in ask("log", "lesson", "put", name, *words).stderr
    # Where it can't be noted beside the lesson, the plan isn't written either.
    kept = next((one_sitting / "logbook" / "sittings").glob("*.json"))
    kept.write_text(kept.read_text().replace('"heatbook":', '"measured_later":7,"heatbook":', 1))
    before = {path: path.read_bytes() for path in (one_sitting / "plans").iterdir()}
    assert "is not written over" in ask("log", "lesson", "put", name, "--plan", "drawknife-2", "--yes").stderr
    assert {path: path.read_bytes() for path in (one_sitting / "plans").iterdir()} == before


def test_a_lesson_that_is_edited_or_retired_is_followed_into_the_plans_that_say_it(one_sitting: Path, ask: Ask) -> None:
    name = ask("log", "lesson", "add", "last", "flux sooner", "--step", "3").stdout.split()[0]
    assert "stands there already: lesson 1" in ask("log", "lesson", "add", "last", "Flux sooner", "--step", "3").stderr
    assert ask("log", "lesson", "put", name, "--to", "checklist", "--yes").returncode == 0
    told = ask("log", "lesson", "edit", name, "flux at 850 degC").stdout
    again = f"heatbook log lesson put {name} --plan drawknife-2"
    assert f"drawknife-2 says it in its former words; in these: {again}\n" in told
    assert ask(*again.split()[1:], "--yes").returncode == 0
    copy = read_plan_file(one_sitting / "plans" / "drawknife-2.toml").steps[2]
    assert copy.checklist[-1] == "flux at 850 degC", "where the smith had it put"
    assert "flux sooner" not in (copy.instruction, *copy.checklist)
    assert "no lesson belongs" in ask("log", "lesson", "list", "--plan", "drawknife-2").stdout
    told = ask("log", "lesson", "retire", name).stdout
    out = f"heatbook log lesson put {name} --back --plan drawknife-2"
    assert f"drawknife-2 still says it; out of it: {out}\n" in told
    assert ask(*out.split()[1:], "--yes").returncode == 0
    assert read_plan_file(one_sitting / "plans" / "drawknife-2.toml").steps[2].checklist == copy.checklist[:-1]
    assert ask("log", "lesson", "edit", name, "flux early").stdout.count("\n") == 1, "nothing is left to be told"


def test_a_lesson_follows_its_step_and_its_plan_to_other_titles(one_sitting: Path, ask: Ask) -> None:
    for text, *words in (("of the step", "--step", "3"), ("of the plan", "--step", "1", "--for", "plan")):
        assert ask("log", "lesson", "add", "last", text, *words).returncode == 0
    (one_sitting / "plans").mkdir()
    shipped = find_plan("drawknife", None).source
    own = shipped.replace('title = "Set the weld"', 'title = "Let it take"', 1)
    own = own.replace('title = "', 'title = "My ', 1)
    (one_sitting / "plans" / "drawknife.toml").write_text(own)
    listed = json.loads(ask("log", "lesson", "list", "--plan", "drawknife", "--json").stdout)
    assert [one["before_step"] for one in listed if one["text"] == "of the step"] == [3]
    steps = len(read_plan_file(one_sitting / "plans" / "drawknife.toml").steps)
    assert [one["before_step"] for one in listed if one["text"] == "of the plan"] == [*range(1, steps + 1)]
    # Under another name it is another plan, as far as anybody can tell.
    (one_sitting / "plans" / "other.toml").write_text(own)
    assert "no lesson belongs" in ask("log", "lesson", "list", "--plan", "other").stdout
    # Where it is said, it says which step it is of.
    said = ask("run", "drawknife", "--no-screen", input="acknowledge\non\non\nfinish\n").stdout
    assert ", of the step “Set the weld”)" in said


def test_a_list_has_what_came_of_a_sitting_in_a_word(one_sitting: Path, ask: Ask) -> None:
    assert one_sitting
    ask("log", "outcome", "last", "--weld", "3=cold-shut", "--rating", "2")
    assert "(flawed 2/5, " in ask("log", "list").stdout
