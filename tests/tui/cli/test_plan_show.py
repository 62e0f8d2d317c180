"""`heatbook plan show` and `plan diff`: a whole plan before the fire, and what differs between two."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from plans.logbook.book import Logbook
from plans.logbook.logged_sitting import LoggedSitting
from plans.reader import SHELF, read_plan_file
from plans.sitting.events import Said, Word

Ask = Callable[..., Any]

PLAN = """heatbook = 1
title = "Try it"

[[bar]]
name = "bar"
steel = "1084"
section = "20 x 10 mm"
length = "100 mm"

[[step]]
title = "Draw it"
kind = "draw"
fire = "1150 degC"  # as ever
heat_to = "1100 degC"
keep_above = "900 degC"
reach = "20 x 5 mm"
reach_length = "196 mm"
thin = "8 x 3 mm"
thin_length = "40 mm"
thin_name = "tang"

[[step]]
title = "Harden a half"
kind = "harden"
fire = "830 degC"
heat_to = "800 degC"
soak = "2 min"
section = "20 x 5 mm"
length = "98 mm"

[step.quench]
medium = "oil at {55 degC}"
for = "10 s"
within = "3 s"

[[step]]
title = "Temper"
kind = "temper"
heats = 2

[step.oven]
at = "200 degC"
for = "2 h"
"""


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "try.toml"
    path.write_text(PLAN)
    return path


def test_its_steel_is_followed_through_its_steps(ask: Ask, file: Path) -> None:
    """By hand: 2 x 1 x 10 cm is 20 cm3, of steel of 7.85 g/cm3 (EN 1993-1-2) 157 g. 2 x 0.5 x 19.6 cm is 19.6 cm3, so
    that 0.4 are gone: the 2 % that a heat takes to scale. 9.8 cm long is a half of that."""
    found = json.loads(ask("plan", "show", str(file), "--json").stdout)
    assert found["bars"][0]["mass_kg"] == pytest.approx(0.157, rel=0.005)
    drawn, hardened = (step["steel"] for step in found["steps"][:2])
    assert [drawn[key] for key in ("begins_cm3", "ends_cm3", "scale_cm3", "trimmed_cm3")] == [20.0, 19.6, 0.4, 0.0]
    assert (hardened["set_aside_before_cm3"], hardened["begins_cm3"]) == (9.8, 9.8)
    losses = (found["steel"][name] for name in ("out_cm3", "beside_cm3", "scale_cm3", "trimmed_cm3"))
    assert sum(losses) == pytest.approx(found["steel"]["stock_cm3"])
    assert (found["heats"], found["oven_seconds"], found["quench_seconds"]) == (2, 2 * 7200, 10)
    heat = found["steps"][0]["first_heat"]
    assert heat["hammer_least_seconds"] < heat["hammer_seconds"] < heat["hammer_most_seconds"]
    assert found["fire_seconds"] == pytest.approx(sum(step["fire_seconds"] or 0 for step in found["steps"]), abs=0.01)


def test_all_of_it_is_told_to_a_person(ask: Ask, file: Path) -> None:
    said = ask("plan", "show", str(file)).stdout
    for part in (
        "20 x 10 mm, 100 mm long -> 20 x 5 mm, 196 mm long",
        "tang          8 x 3 mm over 40 mm",
        "20.0 cm3 -> 19.6 cm3: 0.400 cm3 to scale",
        "9.80 cm3: 9.80 cm3 set aside or cut off before it",
        "830 degC, to bring the work to 800 degC",
        "oil at 55 degC, for 10 s, within 3 s",
        "200 degC, for 2 h",
        "in the oven   4 h",
    ):
        assert part in said, part
    assert "Made from" not in said


@pytest.mark.parametrize("units", ["metric", "inch"])
def test_it_is_80_columns_wide(ask: Ask, home: Path, file: Path, units: str) -> None:
    home.mkdir(exist_ok=True)
    (home / "heatbook.toml").write_text(f'units = "{units}"\n')
    file.write_text(PLAN.replace('"bar"', f'"{"long" * 15}"').replace("Draw it", "Draw it " * 7))
    for plan in (str(file), str(SHELF / "normalize.toml")):
        lines = ask("plan", "show", plan).stdout.splitlines()
        assert len(lines) > 10
        assert max(map(len, lines)) <= 80


def test_what_was_made_is_held_against_what_the_maker_proposes(ask: Ask, home: Path, tmp_path: Path) -> None:
    answers, path = tmp_path / "answers.toml", tmp_path / "made.toml"
    answers.write_text('what = "bar"\nlength = "150 mm"\n')
    home.mkdir(exist_ok=True)
    (home / "heatbook.toml").write_text('units = "inch"\n')
    assert ask("plan", "make", "--from", str(answers), "--out", str(path)).returncode == 0
    # In whatever units it is looked at then.
    (home / "heatbook.toml").write_text('units = "metric"\n')
    said = ask("plan", "show", str(path)).stdout
    assert said.endswith("today\n  just as it stands here\n")
    assert "150 mm" in said.partition("\nMade from\n")[2]
    text = path.read_text()
    harder = text.replace('keep_above = "1562 degF"', 'keep_above = "1600 degF"')
    assert harder != text
    path.write_text(harder.replace('title = "Normalize"', 'title = "Make it soft"'))
    made = json.loads(ask("plan", "show", str(path), "--json").stdout)["made_from"]
    (step,) = made["differs"]["steps"]
    assert step["keys"] == [{"key": "keep_above", "before": "850 degC", "after": "871 degC"}]
    assert made["worded_otherwise"] == 1
    path.write_text(text.rpartition("[made_from]")[0] + '[made_from]\nthickness = "60 mm"\n')
    refused = ask("plan", "show", str(path))
    assert (refused.returncode, refused.stderr) == (0, "")
    assert "it refuses these answers: thickness: " in refused.stdout


def test_two_plans_are_told_apart_by_the_exit_status_too(ask: Ask, home: Path, file: Path) -> None:
    other = file.with_name("other.toml")
    other.write_text(PLAN.replace("1150 degC", "2102 degF").replace("heats = 2", "heats = 3").replace("# as ever", ""))
    done = ask("plan", "diff", str(file), str(other))
    assert (done.returncode, done.stderr) == (1, "")
    assert done.stdout == 'step 3 "Temper": heats: 2 -> 3\n', "2102 degF is 1150 degC, and a comment no figure"
    found = json.loads(ask("plan", "diff", str(file), str(other), "--json").stdout)
    assert found["steps"] == [
        {
            "before": 3,
            "after": 3,
            "title": "Temper",
            "moved": False,
            "keys": [{"key": "heats", "before": "2", "after": "3"}],
        }
    ]
    alike = ask("plan", "diff", str(file), str(file))
    assert (alike.returncode, alike.stdout) == (0, "")
    for words in ((str(file), "drawknive"), (str(file), str(home / "no.toml")), (str(file), "log:last"), (str(file),)):
        done = ask("plan", "diff", *words)
        assert (done.returncode, done.stdout) == (2, "")
        assert "Traceback" not in done.stderr


def test_the_plan_of_a_sitting_is_the_one_that_it_was_run_by(ask: Ask, home: Path, file: Path) -> None:
    logbook = Logbook(home / "logbook")
    running = LoggedSitting.begin(logbook, read_plan_file(file), datetime(2026, 3, 14, 9, 15, tzinfo=UTC), None)
    running.take(Said(0.0, Word.FINISH))
    name = running.put_away().id
    logbook.close()
    file.write_text(PLAN.replace("heats = 2", "heats = 3"))
    assert ask("plan", "diff", f"log:{name}", str(file)).stdout == 'step 3 "Temper": heats: 2 -> 3\n'
    copy = file.with_name("again.toml")
    assert ask("plan", "copy", "log:last", str(copy)).returncode == 0
    assert copy.read_text() == PLAN
