"""`heatbook log measured`: figures of a sitting that is over, added, refused, taken back, and as JSON."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from plans.sitting.events import Word
from tests.tui.review.test_afterwards import finished

if TYPE_CHECKING:
    from tests.tui.conftest import Ask


REFUSED = (
    (("w 31.5 x",), "31.5 x"),
    (("w 3 w 4",), "twice"),
    (("hrc 99",), "up to 75"),
    (("l 220", "--step", "4"), "did not come to step 4; it came only to step 1"),
    (("step 1 l 220", "--step", "2"), "says another step"),
    (("--take-back", "1"), "has the number 1; there is: none"),
    (("l 220", "--take-back", "1"), "either measure something or take something back"),
    (("--step", "1"), "write what was measured"),
)


def test_what_can_not_be_changes_nothing(one_sitting: Path, ask: Ask) -> None:
    kept = next((one_sitting / "logbook" / "sittings").glob("*.json"))
    before = kept.read_bytes()
    for words, why in REFUSED:
        answer = ask("log", "measured", "last", *words)
        assert answer.returncode != 0, words
        assert why in answer.stderr, (words, answer.stderr)
        assert kept.read_bytes() == before


@pytest.mark.usefixtures("one_sitting")
def test_options_may_stand_before_and_behind_what_they_are_of(ask: Ask) -> None:
    for order in (
        ["last", "--step", "1", "l 220"],
        ["--step", "1", "last", "l 220"],
        ["last", "l 220", "--step", "1"],
        ["--step", "1", "last", "--json", "l 220"],
    ):
        answer = ask("log", "measured", *order)
        assert (answer.returncode, answer.stderr) == (0, ""), order
        assert "220" in answer.stdout
    assert ask("log", "measured", "last", "--json").stdout.count('"number"') == 4
    for words, wrong in ((("last", "--step", "1", "l 220", "t 3"), "t 3"), (("last", "--stop", "l 220"), "--stop")):
        answer = ask("log", "measured", *words)
        assert (answer.returncode, answer.stdout) == (2, "")
        assert f"unrecognized arguments: {wrong}" in answer.stderr
    usage = "usage: heatbook log measured [-h] [--step N] [--take-back NUMBER] [--json]"
    for asked in (["--help"], [], ["last", "--step"]):
        answer = ask("log", "measured", *asked)
        assert (answer.stdout or answer.stderr).startswith(usage)
        assert "ID [FIGURES]" in answer.stdout + answer.stderr


def test_every_figure_is_kept_shown_and_taken_back(one_sitting: Path, ask: Ask) -> None:
    assert one_sitting
    assert ask("log", "measured", "last").stdout == "nothing was measured by hand\n"
    # 1 1/4 in are 31.75 mm, and 11 oz 311.845 g (the inch and the avoirdupois ounce, 28.349523 g, are exact).
    told = ask("log", "measured", "last", "w 1 1/4 in t 18 l 220 m 11 oz hrc 61 file skates bevel 12 decarb 0.2").stdout
    assert "1  " in told
    ask("log", "measured", "last", "t 17.5")
    later = json.loads(ask("log", "measured", "last", "--take-back", "2", "--json").stdout)["measured_later"]["found"]
    assert {key: value for key, value in later[0].items() if key not in ("added", "taken_back")} == {
        "number": 1,
        "step": 1,
        "width_mm": 31.75,
        "thickness_mm": 18.0,
        "length_mm": 220.0,
        "mass_g": pytest.approx(311.845, abs=0.001),
        "hardness_hrc": 61.0,
        "file": "skates",
        "bevel_mm": 12.0,
        "decarb_mm": 0.2,
    }
    assert [one["taken_back"] is None for one in later] == [True, False]
    for shown in (ask("log", "measured", "last").stdout, ask("log", "show", "last").stdout):
        assert (
            "31.75 x 18 mm, 220 mm long, 312 g, HRC 61, a file skates, bevels 12 mm wide, decarb 0.20 mm deep" in shown
        )
        assert "17.5" not in shown


def test_what_is_far_from_the_plan_is_kept_and_named_with_how_to_take_it_back(home: Path, ask: Ask) -> None:
    finished(home / "logbook", Word.ACKNOWLEDGE, Word.NEXT).close()
    assert ask("log", "measured", "last", "step 2 w 31 t 18").stderr == ""
    told = ask("log", "measured", "last", "step 2 w 310 t 18")
    assert told.returncode == 0
    assert "more section than the plan's 30 x 20 mm" in told.stderr
    back = told.stderr.split(": heatbook ")[1].split()
    assert back[-2:] == ["--take-back", "2"]
    assert "310" not in ask(*back).stdout
