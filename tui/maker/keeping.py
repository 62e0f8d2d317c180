"""Writing a plan down: its name is asked for, and nothing is written over another plan without asking."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Final

from plans.reader import SHELF
from plans.text import plain
from plans.writing import make_folder, write_beside
from tui.maker.asking import LineScreen
from tui.maker.work import Work
from tui.screens import Choice, Host, QuestionScreen

_LONGEST: Final = 50
"""Most characters of a file's name."""
_OTHERS: Final = re.compile(r"[^\w]+")

Told = Callable[[str, bool], None]
"""Called with what became of it, and whether something is wrong."""


class Keeping:
    """Keeps a plan in the smith's own folder.

    Args:
        work: the plan
        written: called with its name each time that it has been written
    """

    def __init__(self, work: Work, written: Callable[[str], None]) -> None:
        self._work, self._written = work, written

    def ask(self, host: Host, told: Told, then: Callable[[], object] = lambda: None) -> None:
        """Ask for a name, and write it.

        Args:
            host: asks
            told: told what became of it
            then: called when it has been written
        """
        folder = host.folders.plans

        def answered(name: str | None) -> None:
            if name is None:
                return
            path = folder / f"{file_name(name)}.toml"
            ships = (SHELF / path.name).exists()
            if path == self._own or not (path.exists() or ships):
                self._write(path, told, then)
                return
            asked = f"A plan called {path.stem} stands on the shelf already."
            lost = "over it: what it was is lost" if path.exists() else "in its place: that one ships with heatbook"
            choices = [Choice("name", "n", "another name"), Choice("over", "o", lost)]

            def over(answer: str | None) -> None:
                if answer == "over":
                    self._write(path, told, then)
                elif answer == "name":
                    self.ask(host, told, then)

            host.push_screen(QuestionScreen(asked, choices), over)

        name = self._own.stem if self._own is not None else file_name(self._work.title)
        host.push_screen(LineScreen("Write it down as", name, f"in {folder}"), answered)

    @property
    def _own(self) -> Path | None:
        """The smith's own file that the plan comes from; None where there is none."""
        file = self._work.file
        return file.path if file is not None and file.own else None

    def _write(self, path: Path, told: Told, then: Callable[[], object]) -> None:
        try:
            make_folder(path.parent)
            write_beside(path, [self._work.text.encode()])
        except OSError as error:
            told(f"{path}: {error.strerror or error}; it is not written down", True)
            return
        self._work.wrote(path)
        self._written(path.stem)
        told(f"written down as {path.stem}: esc to the shelf, where enter begins it", False)
        then()

    def ask_to_leave(self, host: Host, told: Told, leave: Callable[[], object]) -> None:
        """Ask what shall become of a plan that is not written down, and leave it unless it is to stay.

        Args:
            host: asks
            told: told what became of it
            leave: called where it is left
        """

        def answered(answer: str | None) -> None:
            if answer == "write":
                self.ask(host, told, leave)
            elif answer == "leave":
                leave()

        choices = [
            Choice("write", "w", "write it down, then leave"),
            Choice("leave", "l", "leave, and lose it"),
            Choice("stay", "s", "stay here"),
        ]
        host.push_screen(QuestionScreen("The plan is not written down.", choices), answered)


def file_name(title: str) -> str:
    """What the file of a plan is called by its title: small letters, and hyphens for all that is neither letter nor
    digit."""
    bare = re.sub(r"\{[^}]*\}", " ", plain(title)).lower()
    return _OTHERS.sub("-", bare).strip("-")[:_LONGEST].strip("-") or "plan"
