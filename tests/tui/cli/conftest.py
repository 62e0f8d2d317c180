"""The reckoner's command line as people read it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tui.cli.main import main

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
