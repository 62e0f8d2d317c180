"""`heatbook log lesson` and `log outcome`: what is said comes back in a sitting without a screen."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from tests.tui.conftest import Ask


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, ask: Ask) -> Path:
    """A home whose log has one sitting of the drawknife."""
    monkeypatch.setenv("HEATBOOK_HOME", str(tmp_path))
    assert ask("run", "drawknife", "--no-screen", input="finish\n").returncode == 0
    return tmp_path


def test_a_lesson_comes_back_is_edited_counted_and_retired(home: Path, ask: Ask) -> None:
    assert home
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
    (("lesson", "add", "last", "x", "--step", "1", "--for", "steel", "--steel", "O1"), "starts from"),
    (("lesson", "retire", "last.3"), "has no lessons"),
    (("lesson", "retire", "last"), "a full stop and a number"),
    (("outcome", "last", "--weld", "1=sound"), "is no weld"),
    (("outcome", "last", "--warp", "2 s"), "length"),
    (("outcome", "last", "--rating", "4", "--twist", "bent"), "no twist"),
)


def test_what_can_not_be_said_changes_nothing(home: Path, ask: Ask) -> None:
    kept = next((home / "logbook" / "sittings").glob("*.json"))
    before = kept.read_bytes()
    for words, why in REFUSED:
        answer = ask("log", *words)
        assert answer.returncode != 0, words
        assert why in answer.stderr
        assert kept.read_bytes() == before
