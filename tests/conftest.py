"""Tests are cut off from the machine: a home of their own, no colour variables, and a program to run."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import redirect_stderr, redirect_stdout
from io import StringIO
from itertools import count
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings

from tui.cli.main import main

# Before numpy is imported by anybody: what it solves here is small, and threads that wait for one another side by side
# with as many processes as there are take ten times as long as it does.
os.environ["OPENBLAS_NUM_THREADS"] = "1"

# A busy machine must not make a property fail. In the suite the same few examples are tried each time, so that it does
# not fail by chance; `python -m tests.faults` looks for new ones, with `--hypothesis-profile thorough`.
settings.register_profile("suite", deadline=None, max_examples=25, derandomize=True)
settings.register_profile("thorough", deadline=None, max_examples=500)
settings.load_profile("suite")

Heatbook = Callable[..., "subprocess.CompletedProcess[str]"]
Reckon = Callable[..., dict[str, Any]]


def pytest_xdist_auto_num_workers() -> int:
    """Two processes a processor: half of what the suite does is to wait for terminals, programs and clocks."""
    return 2 * (os.cpu_count() or 1)


_SLOW_FIXTURES = frozenset({"heatbook", "child", "start", "stage", "terminal", "wheel"})
"""Fixtures that start programs or put screens up."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark as slow what takes a slow fixture."""
    for item in items:
        if _SLOW_FIXTURES & set(getattr(item, "fixturenames", ())):
            item.add_marker(pytest.mark.slow)


@pytest.fixture(scope="session")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder that all processes of this run of the tests share."""
    base = tmp_path_factory.getbasetemp()
    folder = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "shared"
    folder.mkdir(exist_ok=True)
    return folder


@pytest.fixture(scope="session")
def compiled(shared: Path) -> Path:
    """Where the programs that tests start keep their bytecode, so that each need not compile everything again."""
    return Path(sys.pycache_prefix) if sys.pycache_prefix else shared / "compiled"


@pytest.fixture(scope="session")
def aside(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where copies and reports go that are written where there is no room elsewhere: not into the machine's folders."""
    return tmp_path_factory.mktemp("aside")


@pytest.fixture(scope="session")
def homes(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """A home for each test, which is made by whoever needs it.

    Most tests need none, and `tmp_path` looks through those of all tests before to make another.
    """
    base = tmp_path_factory.mktemp("homes")
    return (base / str(number) for number in count())


@pytest.fixture(autouse=True)
def home(homes: Iterator[Path], monkeypatch: pytest.MonkeyPatch, compiled: Path, aside: Path) -> Path:
    """Where heatbook keeps everything during a test."""
    monkeypatch.delenv("PYTHONDONTWRITEBYTECODE", raising=False)
    monkeypatch.setenv("PYTHONPYCACHEPREFIX", str(compiled))
    folder = next(homes)
    monkeypatch.setenv("HEATBOOK_HOME", str(folder))
    for name in ("HOME", "TMPDIR"):
        monkeypatch.setenv(name, str(aside))
    monkeypatch.setattr(tempfile, "tempdir", str(aside))
    for name in ("NO_COLOR", "FORCE_COLOR", "COLORTERM", "TEXTUAL", "COLUMNS", "LINES"):
        monkeypatch.delenv(name, raising=False)
    return folder


@pytest.fixture
def heatbook(home: Path) -> Heatbook:
    """Runs the program to its end: `heatbook("log", "list", input="...")`."""

    def run(*arguments: str, input: str = "", **environment: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, "-m", "tui.cli", *arguments],
            input=input,
            capture_output=True,
            text=True,
            timeout=120,
            check=False,
            env=os.environ | {"HEATBOOK_HOME": str(home)} | environment,
        )

    return run


@pytest.fixture(scope="session")
def reckon() -> Reckon:
    """Asks the command line, in this process: `reckon("glow", "--at", "1000 degC")["name"]`."""

    def ask(*words: str) -> dict[str, Any]:
        out, err = StringIO(), StringIO()
        with redirect_stdout(out), redirect_stderr(err):
            status = main(["reckon", *words, "--json"])
        assert (status, err.getvalue()) == (0, "")
        record: dict[str, Any] = json.loads(out.getvalue())
        return record

    return ask
