"""What the program hears, from outside: the tool beside this file plays to it, and its log is held against the truth.

The tool prints the whole table when it is run by hand; here stand a few of its cells with what is aimed at.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

_TOOL = Path(__file__).parent / "played"
_ROOT = _TOOL.parents[1].parent
_QUICK = 3.0
"""A probe that speaks no oftener than this pays for its median of five with seconds [Hz]."""


@pytest.fixture(scope="module")
def played(compiled: Path) -> list[dict[str, Any]]:
    """The cells that were played, on a port in real time and, meanwhile, from recordings."""
    environment = os.environ | {"PYTHONPYCACHEPREFIX": str(compiled)}
    running = [
        subprocess.Popen(
            [sys.executable, str(_TOOL), "--quick", "--json", *more],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            cwd=_ROOT,
            env=environment,
        )
        for more in (["--port"], [])
    ]
    cells = []
    for process in running:
        out, err = process.communicate()
        assert (process.returncode, err) == (0, "")
        cells += json.loads(out)
    return cells


def scores(played: list[dict[str, Any]], scene: str, what: str) -> list[tuple[dict[str, Any], dict[str, Any]]]:
    found = [(cell, cell["scores"][what]) for cell in played if cell["scene"] == scene]
    assert found
    return found


@pytest.mark.parametrize("scene", ["weld", "normalize"])
@pytest.mark.parametrize("what", ["in", "out", "at heat"])
def test_every_heat_is_found_and_none_that_was_not(played: list[dict[str, Any]], scene: str, what: str) -> None:
    for cell, score in scores(played, scene, what):
        assert (score["found"], score["false"]) == (score["true"], 0), cell
        assert score["true"] >= 1


@pytest.mark.parametrize(("what", "within"), [("in", 12.0), ("out", 6.0)])
def test_a_heat_is_told_soon_and_dated_well(played: list[dict[str, Any]], what: str, within: float) -> None:
    for cell, score in scores(played, "weld", what):
        assert max(score["delays"]) <= within, cell
        assert max(map(abs, score["dating"])) <= 5, cell


@pytest.mark.parametrize(("scene", "what"), [("held", "out"), ("lying", "in"), ("held", "too cold")])
def test_eight_hours_of_nothing_are_nothing(played: list[dict[str, Any]], scene: str, what: str) -> None:
    for cell, score in scores(played, scene, what):
        assert score["hours"] >= 8
        assert score["false"] == 0, cell


def test_too_cold_is_told_soon(played: list[dict[str, Any]]) -> None:
    for cell, score in scores(played, "weld", "too cold"):
        assert (score["found"], score["false"]) == (score["true"], 0), cell
        if cell["faults"]["hertz"] > _QUICK and not cell["faults"]["lag"]:
            assert max(score["delays"]) <= 4, cell


def test_a_skin_just_above_the_limit_is_seldom_called_too_cold(played: list[dict[str, Any]]) -> None:
    for cell, score in scores(played, "hover", "too cold"):
        assert score["false"] < 0.3 * score["hours"], cell


def test_the_arrest_is_found(played: list[dict[str, Any]]) -> None:
    found = [score for _, score in scores(played, "normalize", "arrest")]
    assert sum(score["found"] for score in found) > 0.95 * sum(score["true"] for score in found)
    assert sum(score["false"] for score in found) == 0
