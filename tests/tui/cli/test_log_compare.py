"""`heatbook log compare` and `log trends`: figures beside one another, traces from a moment on, what is refused."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import TYPE_CHECKING
from xml.etree import ElementTree

import pytest

from tests.plans.logbook.exports.parsed import Page

if TYPE_CHECKING:
    from tests.tui.conftest import Ask

KNIFE = """
heatbook = 1
title = "A knife"

[[step]]
title = "Close the point"
kind = "weld"
fire = "1290 degC"
heat_to = "1250 degC"
keep_above = "1150 degC"
heats = 1
soak = "20 s"
section = "25 x 10 mm"
"""


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, ask: Ask) -> Path:
    """A home whose log has two sittings: a weld of 20 s in the fire, struck 20 s at 1200, and 40 s at 1140."""
    monkeypatch.setenv("HEATBOOK_HOME", str(tmp_path / "home"))
    plan = tmp_path / "knife.toml"
    plan.write_text(KNIFE)
    for number, (celsius, struck) in enumerate(((1200, 20), (1140, 40))):
        words: dict[float, str] = {0: "acknowledge", 1: "next", 21: "next", 21 + struck: "next", 22 + struck: "finish"}
        # Four readings a second: one that speaks once is too slow for work that is struck.
        quarters = range(4 * (23 + struck))
        rows = [f"{at / 4},{1250 if at <= 84 else celsius},{words.get(at / 4, '')}" for at in quarters]
        recording = tmp_path / f"{number}.csv"
        recording.write_text("seconds,celsius,word\n" + "\n".join(rows) + "\n")
        answer = ask("run", str(plan), "--no-screen", "--readings", str(recording))
        assert answer.returncode == 0, answer.stderr
    return tmp_path


def ids(ask: Ask) -> list[str]:
    """The two sittings, the first that was run first."""
    return [one["id"] for one in reversed(json.loads(ask("log", "list", "--json").stdout))]


def test_two_sittings_stand_beside_one_another(home: Path, ask: Ask) -> None:
    assert home
    answer = ask("log", "compare", *ids(ask), "--from", "out")
    assert answer.returncode == 0, answer.stderr
    assert max(map(len, answer.stdout.splitlines())) <= 80
    lines = [" ".join(line.split()) for line in answer.stdout.splitlines()]
    assert "Close the point (weld)" in lines
    assert lines.count("struck 0:20 0:40 *") == 2  # of all, and of the one step
    assert lines.count("in fire 0:20 0:20") == 2
    assert "0:10 1200 1140" in lines
    assert "0:30 1140" in lines
    found = json.loads(ask("log", "compare", *ids(ask), "--from", "out", "--json").stdout)
    assert [trace["length_seconds"] for trace in found["traces"]] == [20, 40]
    (struck,) = [one for one in found["parts"][1]["figures"] if one["name"] == "struck"]
    assert struck == {"name": "struck", "unit": "seconds", "values": [20, 40], "differs": [False, True]}


def test_what_was_measured_by_hand_stands_beside_one_another(home: Path, ask: Ask) -> None:
    first, other = ids(ask)
    for name, typed in ((first, "t 9.5 l 120 m 205"), (other, "t 9 l 121")):
        assert ask("log", "measured", name, typed).returncode == 0
    answer = ask("log", "compare", first, other)
    assert max(map(len, answer.stdout.splitlines())) <= 80
    lines = [" ".join(line.split()) for line in answer.stdout.splitlines()]
    # Half a millimetre of 9.5 is more than 2 %, one of 121 is less.
    assert "measured thickness, mm 9.5 9 *" in lines
    assert "measured length, mm 120 121" in lines
    assert "measured weight 205 g -" in lines
    found = json.loads(ask("log", "compare", first, other, "--json").stdout)
    figures = {one["name"]: one for one in found["parts"][1]["figures"]}
    assert figures["measured thickness"] == {
        "name": "measured thickness",
        "unit": "mm",
        "values": [9.5, 9.0],
        "differs": [False, True],
    }
    assert (figures["measured weight"]["unit"], figures["measured weight"]["values"]) == ("g", [205, None])
    assert figures["heats"]["values"] == [1, 1]
    page = home / "measured.html"
    assert ask("log", "compare", first, other, "--html", str(page)).returncode == 0
    assert "9 *" in Page(page.read_text()).texts["td"]


def test_a_page_compares(home: Path, ask: Ask) -> None:
    first = ids(ask)[0]
    assert ask("log", "lesson", "add", first, "flux <b>sooner</b>", "--step", "1").returncode == 0
    page = home / "both.html"
    answer = ask("log", "compare", *ids(ask), "--html", str(page), "--title", "Two <knives> & more\x1b")
    assert answer.returncode == 0, answer.stderr
    text = page.read_text()
    found = Page(text)
    assert found.texts["title"][0] == found.texts["h1"][0] == "Two <knives> & more"
    assert "flux <b>sooner</b> (the step “Close the point”)" in found.texts["li"]
    assert found.texts["td"].count("0:40 *") == 2  # struck: of all, and of the one step
    assert not {tag for tag, _ in found.tags} & {"script", "img", "link"}
    (picture,) = re.findall(r"<svg.*?</svg>", text)  # the weld's one heat that was struck; the second was left at once
    drawn = list(ElementTree.fromstring(picture).iter())
    assert {one.text for one in drawn if (one.get("class") or "").startswith("on-it")} == {"A", "B"}
    assert {"curve of-a", "curve of-b"} <= {one.get("class") for one in drawn}, "both were measured"
    again = ask("log", "compare", *ids(ask), "--html", str(page))
    assert again.returncode != 0
    assert "stands there already" in again.stderr


def test_trends_say_how_few_sittings_they_rest_on(home: Path, ask: Ask) -> None:
    assert home
    assert ask("log", "outcome", "last", "--weld", "1=cold-shut").returncode == 0
    answer = ask("log", "trends", "--kind", "weld").stdout
    assert answer.splitlines()[0].startswith("2 sittings with a weld step")
    assert "0 of 1" in answer
    assert "it takes 10 sittings" in answer
    found = json.loads(ask("log", "trends", "--plan", "knife", "--json").stdout)
    assert [one["strike_seconds"] for one in found["sittings"]] == [20, 40]
    assert found["habits"]["sittings"] == 1
    assert found["habits"]["habits"] == []
    assert "no sitting of another" in ask("log", "trends", "--plan", "another").stdout


def test_what_can_not_be_compared_is_said(home: Path, ask: Ask) -> None:
    assert home
    first = ids(ask)[0]
    for words, why in (
        (("compare", "last"), "two to 5"),
        (("compare", "last", "last"), "named twice"),
        (("compare", first, "last", "--from", "quench"), "has no heat like that"),
        (("compare", first, "last", "--step", "1"), "--from"),
        (("trends", "--kind", "knit"), "weld, draw"),
        (("compare", first, "last", "--title", "A"), "--html"),
        (("export", first, "--to", "csv", "--title", "A"), "--to html"),
    ):
        answer = ask("log", *words)
        assert answer.returncode != 0
        assert why in answer.stderr
