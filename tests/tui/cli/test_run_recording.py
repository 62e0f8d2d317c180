"""A recording goes in, and the log says what was in it."""

from __future__ import annotations

import json
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

PLAN = """
heatbook = 1
title = "Three weld heats"
about = "A billet of 25 mm."

[[bar]]
name = "billet"
steel = "1084"
section = "25 x 25 mm"
length = "120 mm"

[[step]]
title = "Weld"
kind = "weld"
fire = "1290 degC"
heat_to = "1240 degC"
keep_above = "1130 degC"
burn_above = "1320 degC"
soak = "60 s"
heats = 3
section = "25 x 25 mm"
"""

LOWEST = (1150.0, 1080.0, 1150.0)
"""Where each heat's striking ended [degC]; the second one is struck too cold."""
WARMING, SOAKING, FALL = 200.0, 70.0, 5.0
"""Seconds in the fire until 1260 degC, seconds held there, and degC lost a second on the anvil."""


def recording(path: Path, seed: int) -> list[dict[str, float]]:
    """Write three heats at 4 Hz with noise of 2 degC, spikes and gaps; what is in them."""
    chance = random.Random(seed)
    rows = ["seconds,celsius,word"]
    truth = []
    at, celsius = 0.0, 20.0

    def row(word: str = "") -> None:
        nonlocal at
        at += 0.25
        shown = celsius + chance.gauss(0, 2) + (chance.choice([-150, 150]) if chance.random() < 0.005 else 0)
        rows.append(f"{at:.2f},{'' if chance.random() < 0.02 else f'{shown:.1f}'},{word}")

    row("next")
    for heat, lowest in enumerate(LOWEST):
        start, steps = celsius, int(WARMING * 4)
        for index in range(steps):
            celsius = start + (1260 - start) * (index + 1) / steps
            row()
        for _ in range(int(SOAKING * 4)):
            row()
        row("out")
        struck = 0.0
        cold = 0.0
        while celsius > lowest:
            celsius -= FALL / 4
            struck += 0.25
            cold += 0.25 if celsius < 1130 else 0.0
            row()
        row("finish" if heat == 2 else "next")
        above = WARMING * (1260 - 1240) / (1260 - start)
        truth.append(
            {
                "soak_seconds": above + SOAKING,
                "strike_seconds": struck + 0.25,
                "too_cold_seconds": cold,
                "lowest": lowest,
            }
        )
    path.write_text("\n".join(rows) + "\n")
    return truth


@pytest.mark.slow
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_what_went_in_comes_out(ask: Callable[..., Any], tmp_path: Path, seed: int) -> None:
    plan, readings = tmp_path / "billet.toml", tmp_path / "heats.csv"
    plan.write_text(PLAN)
    truth = recording(readings, seed)
    done = ask("run", str(plan), "--readings", str(readings), "--json")
    assert (done.returncode, done.stderr) == (0, "")
    lines = [json.loads(line) for line in done.stdout.splitlines()]
    assert all({"at_seconds", "event"} <= line.keys() for line in lines)
    assert [line["call"] for line in lines if line["event"] == "call" and line["call"] == "too cold"] == ["too cold"]

    shown = json.loads(ask("log", "show", "last", "--json").stdout)
    assert shown["state"] == "finished"
    heats = shown["steps"][0]["heats"]
    assert [heat["heat"] for heat in heats] == [1, 2, 3]
    for heat, true in zip(heats, truth, strict=True):
        assert heat["basis"] == "measured"
        assert heat["in_fire_seconds"] == pytest.approx(WARMING + SOAKING, abs=1)
        assert heat["soak_seconds"] == pytest.approx(true["soak_seconds"], abs=6)
        assert heat["strike_seconds"] == pytest.approx(true["strike_seconds"], abs=0.6)
        assert heat["leaving_celsius"] == pytest.approx(1260, abs=5)
        assert heat["peak_celsius"] == pytest.approx(1260, abs=8)
        assert heat["lowest_struck_celsius"] == pytest.approx(true["lowest"], abs=5)
        assert heat["too_cold_seconds"] == pytest.approx(true["too_cold_seconds"], abs=1.5)
    calls = [(call["call"], call["heat"]) for call in shown["calls"]]
    assert calls == [("soak done", 1), ("soak done", 2), ("too cold", 2), ("soak done", 3)]


def test_a_wrong_row_is_told_before_there_is_a_sitting(ask: Callable[..., Any], tmp_path: Path) -> None:
    readings = tmp_path / "heats.csv"
    readings.write_text("seconds,celsius,word\n0,20,next\n5,30,\n4,31,\n")
    done = ask("run", "normalize", "--readings", str(readings))
    assert done.returncode == 1
    assert "heats.csv" in done.stderr
    assert "4" in done.stderr
    assert "Traceback" not in done.stderr
    assert json.loads(ask("log", "list", "--json").stdout) == []


def test_milliseconds_are_not_taken_for_seconds(ask: Callable[..., Any], tmp_path: Path) -> None:
    readings = tmp_path / "heats.csv"
    readings.write_text("seconds,celsius\n0,20\n2000000000,25\n")
    done = ask("run", "normalize", "--readings", str(readings))
    assert done.returncode == 1
    assert "heats.csv:3" in done.stderr


def test_a_recording_that_is_not_there_leaves_no_sitting(ask: Callable[..., Any]) -> None:
    assert ask("run", "normalize", "--readings", "nowhere.csv").returncode == 1
    assert json.loads(ask("log", "list", "--json").stdout) == []


@pytest.mark.parametrize("words", [{60: "finish"}, {60: "finish", 90: "undo"}], ids=["ended", "end taken back"])
def test_readings_after_the_end_are_kept_too(ask: Callable[..., Any], tmp_path: Path, words: dict[int, str]) -> None:
    readings = tmp_path / "heats.csv"
    rows = [f"{at},{20 + at},{words.get(at, '')}" for at in range(120)]
    readings.write_text("\n".join(["seconds,celsius,word", *rows]) + "\n")
    done = ask("run", "normalize", "--readings", str(readings))
    assert (done.returncode, done.stderr) == (0, "")
    kept = ask("log", "export", "last", "--to", "csv").stdout.splitlines()[1:]
    assert [float(row.split(",")[0]) for row in kept if row.split(",")[1]] == list(range(120))
