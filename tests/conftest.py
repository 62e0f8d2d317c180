"""Tests are cut off from the machine: a home of their own, no colour variables, and a program to run."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import settings

# A busy machine must not make a property fail.
settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")

Heatbook = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.fixture(scope="session")
def compiled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the programs that tests start keep their bytecode, so that each need not compile everything again."""
    return tmp_path_factory.mktemp("compiled")


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, compiled: Path) -> Path:
    """Where heatbook keeps everything during a test."""
    monkeypatch.delenv("PYTHONDONTWRITEBYTECODE", raising=False)
    monkeypatch.setenv("PYTHONPYCACHEPREFIX", str(compiled))
    folder = tmp_path / "home"
    monkeypatch.setenv("HEATBOOK_HOME", str(folder))
    for name in ("NO_COLOR", "FORCE_COLOR", "COLORTERM", "TEXTUAL", "COLUMNS", "LINES"):
        monkeypatch.delenv(name, raising=False)
    return folder


@pytest.fixture
def heatbook(home: Path) -> Heatbook:
    """Runs the program to its end: `heatbook("log", "list", input="...")`."""

    def run(*arguments: str, input: str = "", **environment: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, "-m", "tui.command", *arguments],
            input=input,
            capture_output=True,
            text=True,
            timeout=120,
            check=False,
            env=os.environ | {"HEATBOOK_HOME": str(home)} | environment,
        )

    return run
