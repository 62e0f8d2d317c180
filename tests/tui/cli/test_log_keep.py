"""`heatbook log list --where`, `rename`, `mark`, `archive`, `delete` and `restore`."""

from __future__ import annotations

import shlex
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import plans

Ask = Callable[..., Any]
NAME = "20261125-091500-normalize"
KEPT = Path(plans.__file__).parents[1] / "tests" / "plans" / "logbook" / "kept" / "format-1.json"
LISTED = f"{NAME}  Normalize three heats  (finished, 2 min, 1 heat, 2 calls)\n"


@pytest.fixture(autouse=True)
def kept(home: Path) -> Path:
    """A logbook of one sitting: 100 s in the fire, 910 degC at the hottest."""
    path = home / "logbook" / "sittings" / f"{NAME}.json"
    path.parent.mkdir(parents=True)
    return Path(shutil.copy(KEPT, path))


@pytest.fixture
def done(ask: Ask) -> Callable[..., str]:
    """What a command printed that did what it was asked to."""

    def done(*words: str) -> str:
        answer = ask("log", *words)
        assert (answer.returncode, answer.stderr) == (0, "")
        return str(answer.stdout)

    return done


@pytest.mark.parametrize(
    ("where", "listed"),
    [
        (["peak > 900 degC, normalize"], LISTED),
        (["peak > 900 degC", "in fire < 2 min"], LISTED),
        (["note:", "clean"], LISTED),
        (["peak > 1675 degF"], "No sitting is like that.\n"),  # 910 degC is 1670 degF
    ],
)
def test_sittings_are_found(done: Callable[..., str], where: list[str], listed: str) -> None:
    assert done("list", "--where", *where) == listed


def test_what_is_said_of_a_rehearsal_leads_to_it_again(ask: Ask, kept: Path, home: Path) -> None:
    kept.parent.parent.rename(home / "rehearsals")
    found = ask("log", "mark", "last", "--rehearsals", "shed").stdout.partition("find it: heatbook ")[2]
    assert ask(*shlex.split(found)).stdout.startswith(NAME)
    back = ask("log", "--rehearsals", "delete", "last").stdout.partition("till then: heatbook ")[2]
    assert ask(*shlex.split(back)).stdout == f"{NAME} is back\n"
    for words in (["--rehearsals", "lesson", "list"], ["lesson", "--rehearsals", "list"], ["lesson", "list"]):
        assert ask("log", *words).stdout.startswith("no lessons yet")


def test_what_can_not_be_understood_is_said(ask: Ask) -> None:
    answer = ask("log", "list", "--where", "normalize peak > 900")
    assert (answer.returncode, answer.stdout) == (1, "")
    assert answer.stderr.startswith('heatbook: "peak > 900": the unit is missing')


def test_a_sitting_is_labelled_archived_deleted_and_brought_back(done: Callable[..., str], kept: Path) -> None:
    assert done("rename", "last", "A blade for the shed") == f"{NAME} is called: A blade for the shed\n"
    assert "is marked gift" in done("mark", "last", "gift")
    assert done("show", "last").startswith(f"{NAME}  A blade for the shed\n")
    done("archive", "last")
    assert done("list") == "All are archived: --archived\n"
    archived = f"{NAME}  A blade for the shed  (finished, 2 min, 1 heat, 2 calls, marked gift, archived)\n"
    assert done("list", "--archived", "--where", "mark: gift") == archived
    done("lesson", "add", "last", "hotter", "--step", "2")
    done("lesson", "retire", done("lesson", "add", "last", "colder", "--step", "2").split()[0])
    told = done("delete", "last")
    assert "is deleted, and 1 lesson with it, which an archived one keeps" in told
    assert f"heatbook log restore {NAME}" in told
    assert not kept.exists()
    assert done("list", "--deleted") == archived
    assert done("lesson", "list").startswith("no lessons yet")
    assert done("restore", "last") == f"{NAME} is back\n"
    assert done("lesson", "list").count("hotter") == 1
    done("archive", "--back", NAME)
    done("rename", NAME)
    done("mark", NAME)
    assert done("list") == LISTED


def test_one_that_is_not_there_keeps_the_others_from_being_deleted(ask: Ask, kept: Path) -> None:
    answer = ask("log", "delete", "last", "2020")
    assert (answer.returncode, answer.stdout) == (1, "")
    assert "there is no sitting '2020'; `heatbook log list` shows them" in answer.stderr
    assert kept.exists()
