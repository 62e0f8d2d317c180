"""The command line as people use it: what the reckoner prints, and a home whose log has a sitting."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tui.cli.main import main

if TYPE_CHECKING:
    from tests.tui.conftest import Ask

Say = Callable[..., list[str]]


@pytest.fixture
def say(capsys: pytest.CaptureFixture[str]) -> Say:
    """The lines that people read: `say("glow", "--at", "1000 degC")`."""

    def ask(*words: str) -> list[str]:
        assert main(["reckon", *words]) == 0
        found = capsys.readouterr()
        assert found.err == ""
        return found.out.splitlines()

    return ask


@pytest.fixture
def one_sitting(home: Path, ask: Ask) -> Path:
    """The home, with one sitting in its log that came to the drawknife's first step."""
    assert ask("run", "drawknife", "--no-screen", input="finish\n").returncode == 0
    return home
