"""What was exported as CSV runs again through the command line, and gives the same heats and calls."""

from __future__ import annotations

import json
import random
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from plans.logbook.book import Logbook
from plans.logbook.logged_sitting import LoggedSitting
from plans.reader import find_plan
from plans.reading import ProbeOn, Reading
from plans.sitting.events import Said, Tick, Word

Ask = Callable[..., Any]
NEXT, OUT, UNDO, FINISH = Word.NEXT, Word.OUT, Word.UNDO, Word.FINISH
STARTED = datetime(2026, 11, 25, 9, 15, tzinfo=UTC)


class Sat:
    """A sitting of the normalizing plan, logged as it goes; the probe has noise and faults."""

    def __init__(self, home: Path, probe_on: ProbeOn | None) -> None:
        self.logbook = Logbook(home / "logbook")
        self.running = LoggedSitting.begin(self.logbook, find_plan("normalize", None), STARTED, probe_on)
        self.probe_on = probe_on
        self.at = 0.0
        self.chance = random.Random(1)

    def say(self, word: Word, text: str = "") -> Sat:
        self.running.take(Said(self.at, word, text))
        return self

    def go_on(self, seconds: float, begin: float, end: float) -> Sat:
        """So long, while what the probe measures goes from one temperature to another [degC]."""
        for index in range(1, int(seconds * 4) + 1):
            self.at += 0.25
            celsius = begin + (end - begin) * index / (seconds * 4) + self.chance.gauss(0, 2)
            if self.probe_on is None or self.chance.random() < 0.01:
                self.running.take(Tick(self.at))
            elif self.chance.random() < 0.01:
                self.running.take(Reading(self.at, None, "open circuit"))
            else:
                self.running.take(Reading(self.at, celsius + 273.15))
        return self

    def put_away(self) -> str:
        name = self.running.put_away().id
        self.logbook.close()
        return name


def again(ask: Ask, tmp_path: Path, *arguments: str) -> tuple[dict[str, Any], dict[str, Any]]:
    """The newest sitting as it was logged, and as its export gives it in a logbook of its own."""
    rows, elsewhere = tmp_path / "sitting.csv", str(tmp_path / "elsewhere")
    done = ask("log", "export", "last", "--to", "csv", "--out", str(rows))
    assert (done.returncode, done.stderr, done.stdout) == (0, "", f"written to {rows}\n")
    done = ask("run", "normalize", "--readings", str(rows), *arguments, HEATBOOK_HOME=elsewhere)
    assert (done.returncode, done.stderr) == (0, "")
    shown = ask("log", "show", "last", "--json")
    return json.loads(shown.stdout), json.loads(ask("log", "show", "last", "--json", HEATBOOK_HOME=elsewhere).stdout)


def same(one: dict[str, Any], other: dict[str, Any]) -> None:
    assert sum(len(step["heats"]) for step in one["steps"]) >= 2
    assert other["steps"] == one["steps"]
    assert other["calls"] == one["calls"]
    assert other["probe"]["on"] == one["probe"]["on"]


@pytest.mark.slow
def test_a_probe_on_the_work(ask: Ask, home: Path, tmp_path: Path) -> None:
    """The fires end by themselves; a word is taken back; the probe is lost on the way; a heat is added."""
    sat = Sat(home, ProbeOn.WORK).say(NEXT).say(NEXT).go_on(200, 20, 920)
    assert sat.running.sitting.state.phase.value == "soak"
    sat.go_on(320, 920, 920).say(OUT).go_on(4, 920, 880).say(UNDO).say(Word.NOTE, '=1+1, "too" soon').say(OUT)
    sat.at += 20
    sat.go_on(100, 700, 470).say(NEXT).say(Word.REPEAT).say(Word.PAUSE).go_on(30, 470, 400).say(Word.RESUME)
    sat.go_on(150, 400, 860).say(Word.NOTE, "two\nlines").say(OUT).go_on(60, 860, 500).say(Word.BACK).go_on(9, 500, 600)
    sat.say(FINISH).say(Word.NOTE, "good grain")
    sat.put_away()
    one, other = again(ask, tmp_path)
    same(one, other)
    assert {"soak done", "probe lost", "probe back", "cold enough"} <= {call["call"] for call in one["calls"]}
    assert [note["text"] for note in other["notes"]] == ['=1+1, "too" soon', "two lines", "good grain"]


def test_no_probe_at_all(ask: Ask, home: Path, tmp_path: Path) -> None:
    """The recording has no readings: nothing is called lost that never was there."""
    sat = Sat(home, None).say(NEXT).say(NEXT).go_on(700, 0, 0).say(OUT).go_on(200, 0, 0).say(NEXT).go_on(400, 0, 0)
    sat.say(FINISH)
    sat.put_away()
    one, other = again(ask, tmp_path)
    same(one, other)
    assert [call["call"] for call in one["calls"]][:2] == ["soak done", "cold enough"]


@pytest.mark.slow
def test_a_probe_in_the_fire(ask: Ask, home: Path, tmp_path: Path) -> None:
    sat = Sat(home, ProbeOn.FIRE).say(NEXT).say(NEXT).go_on(600, 900, 950).say(OUT).go_on(200, 950, 900).say(NEXT)
    sat.go_on(60, 900, 880).say(FINISH)
    sat.put_away()
    same(*again(ask, tmp_path, "--probe-on", "fire"))


def test_a_sitting_that_was_left_and_gone_on_with(ask: Ask, home: Path, tmp_path: Path) -> None:
    sat = Sat(home, None).say(NEXT).say(NEXT).go_on(300, 0, 0)
    name = sat.put_away()
    sat.running = LoggedSitting.go_on(sat.logbook, name, STARTED + timedelta(hours=1))
    sat.at = sat.running.sitting.now
    sat.say(OUT).say(NEXT).go_on(250, 0, 0).say(OUT).go_on(20, 0, 0).say(NEXT).go_on(33, 0, 0)
    sat.put_away()
    one, other = again(ask, tmp_path)
    ends = [told["steps"][1]["heats"][1].pop("end") for told in (one, other)]
    assert ends == ["under way", "cut off"], "a recording is over with its last row"
    same(one, other)
    assert (one["state"], other["state"]) == ("unfinished", "finished")


def test_readings_that_never_were_any_are_of_a_probe_all_the_same(ask: Ask, home: Path, tmp_path: Path) -> None:
    sat = Sat(home, ProbeOn.WORK).say(NEXT).say(NEXT)
    for _ in range(200):
        sat.at += 0.25
        sat.running.take(Reading(sat.at, None, "open circuit"))
    sat.say(OUT).go_on(1, 500, 400).say(FINISH)
    sat.put_away()
    one, other = again(ask, tmp_path)
    assert other["calls"] == one["calls"]
    assert other["calls"][0]["call"] == "probe lost"


@pytest.mark.parametrize("form", ["csv", "json", "html"])
def test_what_stands_there_already_stays_as_it_is(ask: Ask, home: Path, tmp_path: Path, form: str) -> None:
    Sat(home, None).say(NEXT).say(FINISH).put_away()
    out = tmp_path / f"mine.{form}"
    out.write_text("mine")
    done = ask("log", "export", "last", "--to", form, "--out", str(out))
    assert (done.returncode, done.stdout) == (2, "")
    assert str(out) in done.stderr
    assert "name another" in done.stderr
    assert out.read_text() == "mine"
    away = tmp_path / "nowhere" / "mine.csv"
    done = ask("log", "export", "last", "--to", form, "--out", str(away))
    assert done.returncode == 2
    assert f"there is no folder {away.parent}" in done.stderr
    assert not away.parent.exists()


def test_forms_on_standard_output(heatbook: Ask, home: Path) -> None:
    name = Sat(home, None).say(NEXT).say(Word.NOTE, "späte Glut").say(FINISH).put_away()
    assert json.loads(heatbook("log", "export", name, "--to", "json").stdout)["id"] == name
    assert heatbook("log", "export", name, "--to", "csv").stdout.startswith("seconds,celsius,word,")
    page = heatbook("log", "export", name, "--to", "html", PYTHONIOENCODING="latin-1").stdout
    assert "späte Glut" in page, "in the encoding that the page says"
    assert page.endswith("</html>\n")
