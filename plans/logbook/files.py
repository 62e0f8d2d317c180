"""The files of the logbook: where they lie, whose turn it is to write, and what is said of what is wrong with them."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Final, TypeVar

from plans.logbook.disk import UNREADABLE, Lock, check_copied, is_copy_of, remove, set_aside
from plans.logbook.errors import DamagedError, LogbookError, reason, shown
from plans.logbook.header import NewerFormat
from plans.logbook.names import is_id, longer_ids, second_copy_of
from plans.logbook.turn import Turn
from plans.writing import BESIDE

_Read = TypeVar("_Read")

Progressing = Callable[[str, int, int], None]
"""Is told of work on many sittings before each of them: what is done, how many are done, and how many there are."""

SITTING: Final = ".json"
"""Ending of the file of a sitting that was put away."""
JOURNAL: Final = ".jsonl"
"""Ending of the file of a sitting that runs, or was cut off."""


class Files:
    """The folder of a logbook. Mends and sets aside only where its lock is held; otherwise it says what it found."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.sittings = folder / "sittings"
        self.index_file = folder / "index.json"
        self.lessons = folder / "lessons.json"
        self.lock = Lock(folder / "lock")
        self.turn = Turn(self.lock)
        self.messages: list[str] = []
        self.progressing: Progressing = lambda *_: None

    def path(self, name: str, ending: str) -> Path:
        """The file of the sitting with this id that has this ending; it need not be there."""
        return self.sittings / (name + ending)

    def photographs(self, name: str) -> Path:
        """The folder of the copies of a sitting's photographs; it need not be there."""
        return self.sittings / name

    def ids(self, ending: str) -> set[str]:
        """The ids of all sittings that have a file with this ending; files with other names are nobody's business, nor
        are second copies.

        Raises:
            OSError: the folder can't be read.
        """
        return self._ids_and_copies(self._listed(), ending)[0]

    def _listed(self) -> list[str]:
        """The names of all files in the folder of sittings; none where it is not there yet."""
        try:
            return os.listdir(self.sittings)  # noqa: PTH208 - a thousand paths take a while to make
        except FileNotFoundError:
            return []

    def _ids_and_copies(self, listed: Iterable[str], ending: str) -> tuple[set[str], dict[str, str]]:
        """The ids among files, and beside them those under which second copies lie, each with the id of its sitting."""
        names = [name.removesuffix(ending) for name in listed if name.endswith(ending)]
        found = {name for name in names if is_id(name)}
        longer = longer_ids(found) if ending in (SITTING, JOURNAL) else ()
        copies = {name: one for name, one in longer if is_copy_of(self.path(name, ending), one)}
        return found - set(copies), copies

    def on_disk(self) -> dict[str, os.stat_result]:
        """What the system says of the file of each sitting that has one, by id, in order.

        Raises:
            OSError: the folder can't be read.
        """
        try:
            with os.scandir(self.sittings) as entries:
                files = {entry.name: entry for entry in entries if entry.name.endswith(SITTING)}
        except FileNotFoundError:
            return {}
        found = {}
        for name in sorted(self._ids_and_copies(files, SITTING)[0]):
            with suppress(FileNotFoundError):  # it went just now
                try:
                    found[name] = files[name + SITTING].stat()
                except OSError:  # a link to what is not
                    found[name] = files[name + SITTING].stat(follow_symlinks=False)
        return found

    def tell_of_others(self) -> None:
        """Say what a folder that is shared between machines shows of another: its lock, and second copies of a file."""
        if elsewhere := self.lock.elsewhere:
            self.say(elsewhere)
        ids: set[str] = set()
        copies: dict[str, str] = {}
        listed = self._listed()
        for ending in (SITTING, JOURNAL):
            found, copied = self._ids_and_copies(listed, ending)
            ids |= found
            copies |= {name + ending: one for name, one in copied.items()}
        for name in listed:
            if name.endswith((SITTING, JOURNAL)) and (one := second_copy_of(name)) in ids:
                copies[name] = one
        for name, one in sorted(copies.items()):
            self.say(
                f"{shown(self.sittings / name)} is left alone: it is a second copy of sitting {one}, as a "
                "synchronizer makes where two machines wrote it; keep the one that you want under the "
                "sitting's own name, and move the other away"
            )

    @contextmanager
    def writing(self) -> Iterator[None]:
        """Have the turn to write for as long as this lasts, and say in plain words what the disk refuses.

        Raises:
            LogbookError: another heatbook writes, or the folder can't be written.
        """
        try:
            with self.turn.borrow():
                yield
        except OSError as error:
            raise LogbookError(f"{shown(self.folder)} can't be written: {reason(error)}") from None

    def read_of(self, name: str, read: Callable[[Path], _Read], *, aside: bool = True) -> _Read:
        """Read something of a sitting that was put away; what is raised is as in `read`.

        Args:
            name: its id
            read: reads it, of the file
            aside: whether a damaged one is set aside, where that may be done
        """
        path = self.path(name, SITTING)
        try:
            return read(path)
        except NewerFormat:
            raise LogbookError(f"{shown(path)} was written by a newer heatbook; read it with that one") from None
        except OSError as error:
            raise LogbookError(f"{shown(path)} can't be read: {reason(error)}") from None
        except UNREADABLE:
            check_copied(path)
            text = f"{shown(path)} can't be read, it is damaged"
            text = self.set_aside(path, text) if aside else text
            raise DamagedError(f"{text}; if you have a copy, put that in its place") from None

    def sweep(self) -> None:
        """Remove what was being written when the program was killed: those files were never finished.

        Raises:
            OSError: one could not be removed.
        """
        for whole in (self.index_file, self.lessons):
            if (left := whole.with_name(whole.name + BESIDE)).exists():
                remove(left)
        for ending in (SITTING, JOURNAL):
            for name in self.ids(ending + BESIDE):
                remove(self.path(name, ending + BESIDE))
        folders = [self.photographs(name) for name in self.ids("") if self.photographs(name).is_dir()]
        if folders:
            from plans.logbook.photo_files import sweep_copies

            for folder in folders:
                sweep_copies(folder)

    def set_aside(self, path: Path, text: str) -> str:
        """Set a damaged file aside where that may be done; returns what to say about it: the text, and where it is."""
        if not self.lock.held:
            return text
        try:
            aside = set_aside(path)
        except OSError as error:
            return f"{text}; it can't be set aside: {reason(error)}"
        return f"{text}; the damaged file is kept as {shown(aside.name)}"

    def say(self, message: str) -> None:
        """Keep a message for the caller to show; the same one is kept only once."""
        if message not in self.messages:
            self.messages.append(message)
