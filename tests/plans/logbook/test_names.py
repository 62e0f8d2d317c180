from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest
from hypothesis import given, strategies as st

from plans.logbook.errors import LogbookError, shown
from plans.logbook.names import is_id, new_id, pick

IDS = ["20261126-080000-knife", "20261125-091502-drawknife-2", "20261125-091502-drawknife", "20250101-000000-knife"]


def test_an_id_is_the_local_time_and_the_plan(started: datetime) -> None:
    assert new_id("drawknife", started, ()) == "20261125-091502-drawknife"
    assert new_id("Messer für Anna", started, ()) == "20261125-091502-messer-fur-anna"
    assert new_id("刃", started, ()) == "20261125-091502-plan"


def test_an_id_that_is_taken_gets_a_number(started: datetime) -> None:
    taken = {"20261125-091502-drawknife", "20261125-091502-drawknife-2"}
    assert new_id("drawknife", started, taken) == "20261125-091502-drawknife-3"


@given(st.text(st.characters(exclude_categories=()), max_size=200))
def test_every_plan_gives_an_id_that_is_safe(name: str) -> None:
    made = new_id(name, datetime(2026, 1, 2, 3, 4, 5), ())
    assert is_id(made)
    assert Path(made).name == made


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("last", "20261126-080000-knife"),
        ("20250101-000000-knife", "20250101-000000-knife"),
        ("2025", "20250101-000000-knife"),
        ("20261126", "20261126-080000-knife"),
        ("20261125-091502-drawknife", "20261125-091502-drawknife"),
        ("20261125-091502-drawknife-", "20261125-091502-drawknife-2"),
    ],
)
def test_what_a_person_types(text: str, meant: str) -> None:
    assert pick(text, IDS) == meant


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("2026", "can mean 3 sittings"),
        ("2024", "no sitting '2024'"),
        ("", "no id of a sitting"),
        ("../../etc/passwd", "no id of a sitting"),
        ("20261126-080000-knife/..", "no id of a sitting"),
        ("2025\x1b[2J", r"'2025\?\[2J' is no id"),
    ],
)
def test_what_nobody_can_mean(text: str, says: str) -> None:
    with pytest.raises(LogbookError, match=says):
        pick(text, IDS)


def test_an_empty_logbook_says_so() -> None:
    with pytest.raises(LogbookError, match="no sittings yet"):
        pick("last", [])


def test_a_path_can_always_be_printed() -> None:
    assert shown(Path("/a/b\udcff\x07é")) == "/a/b??é"
