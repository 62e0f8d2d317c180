"""`heatbook log`: the sittings that were kept, on the command line."""

from __future__ import annotations

import json
import os
from argparse import ArgumentParser
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from plans.logbook.book import Logbook
from plans.logbook.logged_sitting import LoggedSitting
from plans.logbook.search.figures import FIGURES, TEXTS
from plans.plan import Plan
from plans.reader import find_plan
from plans.reading import ProbeOn, Reading
from plans.sitting.events import Said, Word
from tui.cli.main import main
from tui.cli.parser import build_parser

Heatbook = Callable[..., Any]
Ask = Callable[..., Any]

OLDER, NEWER = "20261125-091500-normalize", "20261126-101500-normalize"


def sit(home: Path, day: int, hour: int, plan: Plan, finish: bool = True) -> str:
    """One heat of 100 s in the fire and 20 s in the air; what it was logged as."""
    logbook = Logbook(home / "logbook")
    running = LoggedSitting.begin(logbook, plan, datetime(2026, 11, day, hour, 15, tzinfo=UTC), ProbeOn.WORK)
    for word in (Word.NEXT, Word.NEXT):
        running.take(Said(0.0, word))
    for count in range(1, 401):
        running.take(Reading(count / 4, 910 + 273.15))
    running.take(Said(100.0, Word.OUT))
    running.take(Said(110.0, Word.NOTE, "scale came off \x1b]0;x\x07 clean"))
    running.take(Said(120.0, Word.FINISH if finish else Word.NEXT))
    name = running.put_away().id
    logbook.close()
    return name


@pytest.fixture
def filled(home: Path) -> Path:
    plan = find_plan("normalize", None)
    assert [sit(home, 25, 9, plan), sit(home, 26, 10, plan, finish=False)] == [OLDER, NEWER]
    return home


def test_an_empty_logbook(ask: Ask, home: Path) -> None:
    done = ask("log", "list")
    assert (done.returncode, done.stderr) == (0, "")
    assert "heatbook demo" in done.stdout
    assert json.loads(ask("log", "list", "--json").stdout) == []
    for words in (("show", "last"), ("export", "last", "--to", "csv")):
        done = ask("log", *words)
        assert (done.returncode, done.stdout) == (1, "")
        assert "no sittings yet" in done.stderr
    assert not home.exists(), "looking makes nothing"


@pytest.mark.usefixtures("filled")
def test_list_the_newest_first(ask: Ask) -> None:
    done = ask("log", "list")
    assert (done.returncode, done.stderr) == (0, "")
    newer, older = done.stdout.splitlines()
    assert newer.startswith(f"{NEWER}  Normalize three heats  (unfinished, 2 min, 1 heat, ")
    assert older.startswith(f"{OLDER}  Normalize three heats  (finished, 2 min, 1 heat, ")


def test_settings_that_can_not_be_used_are_told(ask: Ask, filled: Path) -> None:
    (filled / "heatbook.toml").write_text('units = "stone"\n')
    for words in (["list"], ["show", OLDER], ["export", OLDER, "--to", "csv"]):
        done = ask("log", *words)
        assert (done.returncode, len(done.stderr.splitlines())) == (0, 1)
        assert "heatbook.toml" in done.stderr
        assert "units" in done.stderr


@pytest.mark.usefixtures("filled")
def test_list_as_json(ask: Ask) -> None:
    listed = json.loads(ask("log", "list", "--json").stdout)
    assert [one["id"] for one in listed] == [NEWER, OLDER]
    assert listed[1] == {
        "id": OLDER,
        "plan": "normalize",
        "title": "Normalize three heats",
        "started": "2026-11-25T09:15:00.000+00:00",
        "ended": "2026-11-25T09:17:00.000+00:00",
        "state": "finished",
        "rehearsal": False,
        "heats": 1,
        "calls": listed[1]["calls"],
        "length_seconds": 120.0,
        "outcome_in_short": "",
        "label": {"title": "", "mark": "", "archived": False},
        "found_by": listed[1]["found_by"],
        "damaged": False,
    }
    told = {
        "steels": [],
        "notes": ["scale came off \x1b]0;x\x07 clean"],
        "peak_celsius": 910.0,
        "in_fire_seconds": 100.0,
    }
    assert listed[1]["found_by"].items() >= told.items()


@pytest.mark.usefixtures("filled")
def test_show_for_people(heatbook: Heatbook) -> None:
    done = heatbook("log", "show", OLDER)
    assert (done.returncode, done.stderr) == (0, "")
    lines = done.stdout.splitlines()
    assert lines[:2] == [f"{OLDER}  Normalize three heats", "2026-11-25 09:15, finished, 2 min"]
    heading, heat = (line.split() for line in lines[lines.index("2 Normalize three heats") + 1 :][:2])
    assert heading[:3] == ["heat", "in", "fire"]
    assert heat[:2] == ["1", "1:40"]
    assert "910 degC" in done.stdout
    assert "      1:50  scale came off ?]0;x? clean" in lines
    assert "\x1b" not in done.stdout


def test_show_in_the_units_that_are_set(ask: Ask, filled: Path) -> None:
    (filled / "heatbook.toml").write_text('units = "inch"\n')
    done = ask("log", "show", OLDER)
    assert (done.returncode, done.stderr) == (0, "")
    # 910 degC * 9/5 + 32 = 1670 degF
    assert "1670 degF" in done.stdout
    assert "degC" not in done.stdout
    assert json.loads(ask("log", "show", OLDER, "--json").stdout)["steps"][1]["heats"][0]["peak_celsius"] == 910.0


@pytest.mark.usefixtures("filled")
def test_show_as_json(ask: Ask) -> None:
    shown = json.loads(ask("log", "show", OLDER, "--json").stdout)
    assert {"id", "plan", "started", "ended", "state", "steps", "calls", "notes"} <= shown.keys()
    assert shown["steps"][1]["kind"] == "normalize"
    heat = shown["steps"][1]["heats"][0]
    assert (heat["heat"], heat["in_fire_seconds"], heat["air_seconds"]) == (1, 100.0, 20.0)
    assert (heat["peak_celsius"], heat["leaving_celsius"], heat["basis"]) == (910.0, 910.0, "measured")
    assert shown["notes"][0] | {"text": ""} == {"at_seconds": 110.0, "text": "", "step": 2, "heat": 1}


@pytest.mark.usefixtures("filled")
@pytest.mark.parametrize(("typed", "meant"), [("last", NEWER), ("20261125", OLDER), (NEWER[:8], NEWER), (OLDER, OLDER)])
def test_a_beginning_that_only_one_has_will_do(ask: Ask, typed: str, meant: str) -> None:
    assert json.loads(ask("log", "show", typed, "--json").stdout)["id"] == meant


@pytest.mark.usefixtures("filled")
@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("2026112", "can mean 2 sittings"),
        ("20251125", "there is no sitting"),
        ("../../../etc/passwd", "is no id"),
        ("..", "is no id"),
        (f"../sittings/{OLDER}", "is no id"),
        (f"{OLDER}.json", "is no id"),
        ("*", "is no id"),
        ("\x1b[2J", "is no id"),
        ("a" * 5000, "is no id"),
    ],
)
def test_ids_that_mean_nothing(ask: Ask, typed: str, said: str) -> None:
    for words in (("show", typed), ("export", typed, "--to", "csv")):
        done = ask("log", *words)
        assert (done.returncode, done.stdout) == (1, "")
        assert said in done.stderr
        assert "Traceback" not in done.stderr
        assert "\x1b" not in done.stderr


def test_of_a_sitting_that_runs_it_is_said_up_to_when_it_is_shown(ask: Ask, home: Path) -> None:
    logbook = Logbook(home / "logbook")
    started = datetime(2026, 11, 25, 9, 15, tzinfo=UTC)
    running = LoggedSitting.begin(logbook, find_plan("normalize", None), started)
    running.take(Said(75.0, Word.NEXT))
    _, when, until, *_ = ask("log", "show", "last").stdout.splitlines()
    assert when == "2026-11-25 09:15, running, 1 min 15 s"
    assert until.startswith("as far as it was logged at 09:16:15; ")
    running.put_away()
    logbook.close()
    assert "as far as" not in ask("log", "show", "last").stdout


def test_a_sitting_cut_off_can_be_looked_at(ask: Ask, home: Path) -> None:
    """As after a power cut: the journal is there, and nobody has put it away yet."""
    logbook = Logbook(home / "logbook")
    started = datetime(2026, 11, 25, 9, 15, tzinfo=UTC)
    running = LoggedSitting.begin(logbook, find_plan("normalize", None), started)
    running.take(Said(3.0, Word.NEXT))
    logbook.close()
    shown = json.loads(ask("log", "show", "last", "--json").stdout)
    assert (shown["state"], shown["steps"][0]["title"]) == ("unfinished", "Get blade and fire ready")
    assert "acknowledge" not in ask("log", "export", "last", "--to", "csv").stdout
    assert (home / "logbook" / "sittings" / f"{running.id}.jsonl").exists(), "looking changes nothing"


def test_a_damaged_sitting_is_told_and_the_others_are_shown(ask: Ask, filled: Path) -> None:
    (filled / "logbook" / "sittings" / f"{OLDER}.json").write_text("{")
    done = ask("log", "show", OLDER)
    assert (done.returncode, done.stdout) == (1, "")
    assert OLDER in done.stderr
    assert "Traceback" not in done.stderr
    assert ask("log", "show", NEWER).returncode == 0


def test_a_sitting_that_was_cut_short_is_marked_in_the_list(ask: Ask, filled: Path) -> None:
    path = filled / "logbook" / "sittings" / f"{OLDER}.json"
    whole = path.read_bytes()
    path.write_bytes(whole[:4000])
    os.utime(path, (1e9, 1e9))  # nobody is copying it any more
    told = f"heatbook: {path} can't be read, it is damaged; if you have a copy, put that in its place\n"
    index = (filled / "logbook" / "index.json").read_bytes()
    assert ask("log", "show", OLDER).stderr == told
    (filled / "logbook" / "index.json").write_bytes(index)  # as if nobody had looked yet
    done = ask("log", "list")
    newer, older = done.stdout.splitlines()
    assert older.startswith(f"{OLDER}  Normalize three heats  (damaged, finished, ")
    assert "damaged" not in newer
    assert done.stderr == told
    assert ask("log", "list").stderr == "", "it is told once, and marked each time"
    assert "(damaged, " in ask("log", "list").stdout
    path.write_bytes(whole)
    assert "damaged" not in ask("log", "list").stdout


def test_titles_cannot_move_the_cursor_and_need_no_encoding(heatbook: Heatbook, home: Path) -> None:
    plan = find_plan("normalize", None)
    sit(home, 25, 9, Plan(plan.name, "Bl\x1b[2Jätter", plan.about, plan.bars, plan.steps, plan.source))
    for words in (("list",), ("show", "last")):
        plainly = {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
        for environment, title in (({"PYTHONIOENCODING": "utf-8"}, "Bl?[2Jätter"), (plainly, "Bl?[2J\\xe4tter")):
            done = heatbook("log", *words, **environment)
            assert (done.returncode, done.stderr) == (0, "")
            assert title in done.stdout


def _commands(parser: ArgumentParser) -> Iterator[ArgumentParser]:
    yield parser
    for action in parser._actions:
        if isinstance(action.choices, dict):
            for one in action.choices.values():
                yield from _commands(one)


def test_every_word_of_the_log_has_its_help() -> None:
    parsers = [one for one in _commands(build_parser(["log"])) if one.prog.startswith("heatbook log ")]
    assert len(parsers) > 20
    for parser in parsers:
        words = [action for action in parser._actions if not isinstance(action.choices, dict)]
        assert [action.dest for action in words if not action.help] == [], parser.prog


def test_the_help_names_all_that_can_be_searched_by(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["log", "list", "--help"]) == 0
    told = " ".join(capsys.readouterr().out.split())
    assert [name for name in (*FIGURES, *(f"{text}:" for text in TEXTS)) if name not in told] == []
