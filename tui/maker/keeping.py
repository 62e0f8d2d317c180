"""Writing a plan down: its name is asked for, and nothing is written over without asking that is not known here."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import suppress
from itertools import count
from pathlib import Path
from typing import Final

from plans.errors import PlanError
from plans.reader import MOST_BYTES, SHELF
from plans.text import plain, printable
from plans.toml import TomlError, read_text
from plans.writing import make_folder, write_beside, write_new
from tui.maker.work import Work
from tui.screens import Choice, Host, LineScreen, QuestionScreen

_LONGEST: Final = 50
"""Most characters of a file's name."""
_LONGEST_LINE: Final = 60
"""Most characters of what is typed for one."""
UNSAVED: Final = "-unsaved"
"""What a plan that was not written down when the program ended is kept under ends so, before any number."""
_UNSAVED_NAME: Final = re.compile(rf"(.*){UNSAVED}(-\d+)?")
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
        self._kept = ""
        """What was kept last without having been written down."""

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
            if (path == self._own and not self._is_another(path)) or not (path.exists() or ships):
                self._write(path, told, then)
                return
            if path == self._own:
                asked = f"The file of {path.stem} was changed by somebody else since it was read here."
                lost = "over it: what was changed there is lost"
            else:
                asked = f"A plan called {path.stem} stands on the shelf already."
                lost = "over it: what it was is lost" if path.exists() else "in its place: that one ships with heatbook"
            choices = [Choice("name", "n", "another name"), Choice("over", "o", lost)]

            def over(answer: str | None) -> None:
                if answer == "over":
                    self._write(path, told, then)
                elif answer == "name":
                    self.ask(host, told, then)

            host.push_screen(QuestionScreen(asked, choices), over)

        name = self._name
        line = LineScreen("Write it down as", name, _LONGEST_LINE, hint=f"in {folder}; ", chosen=True)
        host.push_screen(line, answered)

    @property
    def _own(self) -> Path | None:
        """The smith's own file that the plan comes from; None where there is none."""
        file = self._work.file
        return file.path if file is not None and file.own else None

    @property
    def _name(self) -> str:
        """What it would be called: as its file is, and where that is none yet, by its title."""
        if self._own is None:
            return file_name(self._work.title)
        unsaved = _UNSAVED_NAME.fullmatch(self._own.stem)
        return unsaved[1] if unsaved is not None else self._own.stem

    def _is_another(self, path: Path) -> bool:
        """Whether the plan's own file holds something else than was read from it or written to it."""
        try:
            return path.exists() and read_text(path, MOST_BYTES) != self._work.saved
        except TomlError:
            return True

    def _write(self, path: Path, told: Told, then: Callable[[], object]) -> None:
        try:
            make_folder(path.parent)
            write_beside(path, [self._work.text.encode()])
        except OSError as error:
            told(f"{path}: {error.strerror or error}; it is not written down", True)
            return
        before = self._own
        self._work.wrote(path)
        if before is not None and before != path and _UNSAVED_NAME.fullmatch(before.stem) is not None:
            with suppress(OSError):
                before.unlink()  # it is in its place now
        self._written(path.stem)
        told(f"written down as {path.stem}: esc to the shelf, where enter begins it", False)
        then()

    def keep_unsaved(self, folder: Path) -> str:
        """Keep what is not written down under a name of its own, before the program ends without asking.

        Args:
            folder: the smith's own

        Returns:
            what is to be said of it; empty where there was nothing to be kept
        """
        text = self._unsaved_text()
        if not text or text == self._kept:
            return ""
        for number in count(1):
            path = folder / f"{self._name}{UNSAVED}{f'-{number}' if number > 1 else ''}.toml"
            try:
                make_folder(folder)
                write_new(path, [text.encode()])
            except FileExistsError:
                continue
            except OSError as error:
                return printable(f"{path}: {error.strerror or error}; the plan that was being made is lost")
            break
        self._kept = text
        return printable(f"the plan that was being made is kept as {path.stem}: it stands on the shelf")

    def _unsaved_text(self) -> str:
        """The plan as it would be written now, after its answers where it can follow them; empty where nothing of it
        would be lost."""
        work = self._work
        if not work.is_unsaved:
            return ""
        try:
            remade = work.remade()
        except PlanError:
            remade = None
        return remade.text if remade is not None else work.text

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


def kept_unsaved(folder: Path) -> list[str]:
    """What plans are called that were kept without having been written down.

    Args:
        folder: the smith's own
    """
    return sorted(path.stem for path in folder.glob("*.toml") if _UNSAVED_NAME.fullmatch(path.stem))


def file_name(title: str) -> str:
    """What the file of a plan is called by its title: small letters, and hyphens for all that is neither letter nor
    digit."""
    bare = re.sub(r"\{[^}]*\}", " ", plain(title)).lower()
    return _OTHERS.sub("-", bare).strip("-")[:_LONGEST].strip("-") or "plan"
