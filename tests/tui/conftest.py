"""The program in this process, for what needs no process of its own: quicker by far."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import pytest

from tui.command import main


@dataclass(frozen=True, slots=True)
class Answer:
    """What a command left behind."""

    returncode: int
    stdout: str
    stderr: str


@pytest.fixture
def ask(capsys: pytest.CaptureFixture[str]) -> Callable[..., Answer]:
    """Gives a command to the program: `ask("log", "list")`."""

    def ask(*words: str) -> Answer:
        capsys.readouterr()
        status = main(words)
        said = capsys.readouterr()
        return Answer(status, said.out, said.err)

    return ask
