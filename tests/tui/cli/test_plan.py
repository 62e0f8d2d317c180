"""`heatbook plan`: what is at hand, what is wrong with a file, a copy to make one's own."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from plans.reader import SHELF

Heatbook = Callable[..., Any]
Ask = Callable[..., Any]

GOOD = """heatbook = 1
title = "Look it over"

[[step]]
title = "Look"
kind = "bench"
"""
BROKEN = GOOD.replace('kind = "bench"', 'kind = "brench"\nheats = -1\ncolour = "red"')


@pytest.fixture
def own(home: Path) -> Path:
    """The smith's own folder of plans, with a good one and one that can't be used."""
    folder = home / "plans"
    folder.mkdir(parents=True)
    (folder / "look.toml").write_text(GOOD)
    (folder / "spoiled.toml").write_text(BROKEN)
    return folder


def test_list_shows_what_ships(heatbook: Heatbook) -> None:
    done = heatbook("plan", "list")
    assert (done.returncode, done.stderr) == (0, "")
    groups = [line for line in done.stdout.splitlines() if not line.startswith("  ")]
    assert groups[0] == "Welded blades and billets"
    assert "Heat treatment" in groups
    names = [line.split()[0] for line in done.stdout.splitlines() if line.startswith("  ")]
    assert sorted(names) == sorted(path.stem for path in SHELF.glob("*.toml"))
    assert "(own)" not in done.stdout


def test_list_finds_those_that_have_all_words(ask: Ask, own: Path) -> None:
    group, *plans = ask("plan", "list", "--find", "15N20", "FOLDED").stdout.splitlines()
    assert group == "Welded blades and billets"
    assert "  kitchen-billet     Folded billet for a kitchen knife" in plans
    assert not any("drawknife" in plan for plan in plans)
    found = json.loads(ask("plan", "list", "--json", "--find", "finish look").stdout)
    assert str(own / "look.toml") in [plan["path"] for plan in found]
    none = ask("plan", "list", "--find", "no such words")
    assert (none.returncode, none.stdout) == (1, "")
    assert "no such words" in none.stderr
    assert ask("plan", "list", "--json", "--find", "no such words").stdout == "[]\n"


def test_list_shows_what_is_ones_own_and_what_cannot_be_used(ask: Ask, own: Path) -> None:
    lines = ask("plan", "list").stdout.splitlines()
    finish = lines[lines.index("Finish") + 1 : lines.index("Can't be used")]
    assert "  look               Look it over (own)" in finish
    assert lines[-2] == "Can't be used"
    assert any(line.startswith("  spoiled ") and f"plan check {own / 'spoiled.toml'}" in line for line in lines)


def test_ones_own_stands_in_for_one_that_ships(ask: Ask, own: Path) -> None:
    (own / "normalize.toml").write_text(GOOD)
    listed = {plan["name"]: plan for plan in json.loads(ask("plan", "list", "--json").stdout)}
    assert (listed["normalize"]["title"], listed["normalize"]["own"]) == ("Look it over", True)
    assert listed["drawknife"]["own"] is False


def test_list_as_json(ask: Ask, own: Path) -> None:
    listed = {plan["name"]: plan for plan in json.loads(ask("plan", "list", "--json").stdout)}
    assert listed["look"] == {
        "name": "look",
        "title": "Look it over",
        "about": "",
        "group": "finish",
        "heats": 0,
        "fire_seconds": 0,
        "steps": [{"title": "Look", "kind": "bench", "heats": 1}],
        "good": True,
        "faults": [],
        "path": str(own / "look.toml"),
        "own": True,
    }
    assert (listed["spoiled"]["good"], listed["spoiled"]["title"]) == (False, None)
    assert {fault["key"] for fault in listed["spoiled"]["faults"]} >= {"kind", "colour"}
    knife = listed["drawknife"]
    assert knife["group"] == "welded blades and billets"
    # welding heats of 20 mm and many more of 8 to 20 mm: common practice has 2 to 5 min each, no source
    assert knife["heats"] > 20
    assert knife["heats"] * 2 * 60 < knife["fire_seconds"] < knife["heats"] * 5 * 60


@pytest.mark.parametrize("name", ["drawknife", "kitchen-billet", "normalize"])
def test_check_of_what_ships(ask: Ask, name: str) -> None:
    done = ask("plan", "check", str(SHELF / f"{name}.toml"))
    assert (done.returncode, done.stderr) == (0, "")
    first, heading, *steps = done.stdout.splitlines()
    assert first.endswith(": good")
    assert heading.split() == ["step", "kind", "planned"]
    assert [line.split()[0] for line in steps] == [str(number) for number in range(1, len(steps) + 1)]
    record = json.loads(ask("plan", "check", str(SHELF / f"{name}.toml"), "--json").stdout)
    assert (record["name"], record["good"], len(record["steps"])) == (name, True, len(steps))


def test_check_says_file_and_line_of_every_fault(heatbook: Heatbook, own: Path) -> None:
    path = own / "spoiled.toml"
    done = heatbook("plan", "check", str(path))
    assert (done.returncode, done.stdout) == (1, "")
    found = [line.removeprefix(f"{path}:").split(":")[0] for line in done.stderr.splitlines()]
    assert {"6", "8"} <= set(found), "kind and colour, each on its line, with nothing before the path"
    assert 'step 1 "Look": kind' in done.stderr


def test_check_says_it_as_json_too(ask: Ask, own: Path) -> None:
    done = ask("plan", "check", str(own / "spoiled.toml"), "--json")
    assert (done.returncode, done.stderr) == (1, "")
    record = json.loads(done.stdout)
    assert (record["good"], record["steps"]) == (False, None)
    fault = next(fault for fault in record["faults"] if fault["key"] == "colour")
    assert (fault["line"], fault["where"]) == (8, 'step 1 "Look"')
    assert fault["what"]
    assert fault["hint"]


ODD = (
    GOOD
    + """
[[bar]]
name = "bar"
steel = "1085"
section = "30 x 20 mm"
length = "150 mm"

[[step]]
title = "Draw"
kind = "draw"
fire = "1150 degC"
keep_above = "900 degC"
reach = "30 x 10 mm"
reach_length = "451 mm"
"""
)


def test_check_warns_of_what_cannot_be_right_and_notes_what_may_be_meant(ask: Ask, tmp_path: Path) -> None:
    path = tmp_path / "odd.toml"
    path.write_text(ODD)
    done = ask("plan", "check", str(path))
    assert done.returncode == 1
    note, warning = done.stderr.splitlines()
    assert note.startswith(f'{path}:10: note: bar 1 "bar": steel is "1085"')
    assert warning.startswith(f'{path}:20: warning: step 2 "Draw": reach_length is 451 mm')
    assert done.stdout.startswith("Look it over: it can be followed, but something in it is not right\n")
    path.write_text(ODD.replace("451", "295"))
    done = ask("plan", "check", str(path))
    assert (done.returncode, done.stdout.splitlines()[0]) == (0, "Look it over: good")
    assert [line.split(": ")[1] for line in done.stderr.splitlines()] == ["note"]


def test_check_gives_warnings_and_notes_as_json_too(ask: Ask, tmp_path: Path) -> None:
    path = tmp_path / "odd.toml"
    path.write_text(ODD)
    done = ask("plan", "check", str(path), "--json")
    assert (done.returncode, done.stderr) == (1, "")
    record = json.loads(done.stdout)
    assert (record["good"], record["faults"]) == (True, [])
    assert [(one["line"], one["key"]) for one in record["warnings"]] == [(20, "reach_length")]
    assert [(one["line"], one["key"]) for one in record["notes"]] == [(10, "steel")]


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (None, "there is no such file"),
        (b"", "heatbook"),
        (b"title = \n", ":1: "),
        (b"\xff\xfet\x00", "UTF-16"),
        (b'title = "\xff"', "UTF-8"),
        (b'title = "a\x1b[2Jb"\n', ":1: "),
    ],
)
def test_a_file_that_is_no_plan(ask: Ask, tmp_path: Path, content: bytes | None, said: str) -> None:
    path = tmp_path / "odd.toml"
    if content is not None:
        path.write_bytes(content)
    done = ask("plan", "check", str(path))
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.startswith(f"{path}:")
    assert said in done.stderr
    assert "\x1b" not in done.stderr


def test_check_of_a_folder(ask: Ask, tmp_path: Path) -> None:
    done = ask("plan", "check", str(tmp_path))
    assert done.returncode == 1
    assert "folder" in done.stderr


def test_a_copy_is_the_plan_to_the_last_byte_and_can_be_run(heatbook: Heatbook, home: Path) -> None:
    path = home / "plans" / "mine.toml"
    done = heatbook("plan", "copy", "normalize", str(path))
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == f"{path}: now your own\n"
    assert path.read_bytes() == (SHELF / "normalize.toml").read_bytes()
    assert "(own)" in heatbook("plan", "list").stdout
    assert heatbook("run", "mine", "--no-screen", input="finish\n").returncode == 0
    assert json.loads(heatbook("log", "list", "--json").stdout)[0]["plan"] == "mine"


def test_a_copy_elsewhere_says_where_the_shelf_looks(ask: Ask, home: Path, tmp_path: Path) -> None:
    done = ask("plan", "copy", "drawknife", str(tmp_path / "mine.toml"))
    assert done.returncode == 0
    assert str(home / "plans") in done.stdout


def test_a_copy_of_a_file(ask: Ask, tmp_path: Path) -> None:
    one, other = tmp_path / "one.toml", tmp_path / "other.toml"
    shutil.copy(SHELF / "drawknife.toml", one)
    assert ask("plan", "copy", str(one), str(other)).returncode == 0
    assert other.read_bytes() == one.read_bytes()


def test_a_copy_of_a_piece_is_what_stock_reckons_with(ask: Ask, tmp_path: Path) -> None:
    path = tmp_path / "knife.toml"
    assert ask("plan", "copy", "carving-knife", str(path)).returncode == 0
    of_copy, of_piece = (ask("reckon", "stock", one, "--section", "25 x 10 mm") for one in (str(path), "carving-knife"))
    assert of_copy.returncode == 0
    assert of_copy.stdout == of_piece.stdout


def test_a_copy_never_lands_on_a_file(ask: Ask, tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text("years of work")
    done = ask("plan", "copy", "drawknife", str(path))
    assert (done.returncode, done.stdout) == (2, "")
    assert f"{path}: stands there already" in done.stderr
    assert path.read_text() == "years of work"


@pytest.mark.parametrize(
    ("plan", "to", "status", "said"),
    [
        ("drawknive", "mine.toml", 1, "perhaps drawknife"),
        ("drawknife", "mine.txt", 2, ".toml"),
        ("drawknife", "nowhere/mine.toml", 2, "there is no folder"),
        ("../../etc/passwd", "mine.toml", 1, "passwd"),
    ],
)
def test_copies_that_cannot_be(ask: Ask, tmp_path: Path, plan: str, to: str, status: int, said: str) -> None:
    done = ask("plan", "copy", plan, str(tmp_path / to))
    assert (done.returncode, done.stdout) == (status, "")
    assert said in done.stderr
    assert "Traceback" not in done.stderr
    assert not (tmp_path / to).exists()
