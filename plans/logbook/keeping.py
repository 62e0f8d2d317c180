"""What a smith does with sittings that were kept: writes a label on one, deletes one, and takes that back."""

from __future__ import annotations

import os
from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from time import time_ns
from typing import Final

from plans.logbook.afterwards import Label
from plans.logbook.disk import remove
from plans.logbook.errors import LogbookError, reason, shown
from plans.logbook.files import JOURNAL, SITTING
from plans.logbook.header import NewerFormat
from plans.logbook.listed import Listed
from plans.logbook.names import is_id, pick
from plans.logbook.summary import Summary
from plans.record import record
from plans.writing import make_folder, sync_folder

_DELETED: Final = "`heatbook log list --deleted` shows them"


@record
class _Change:
    """Something that was done to a sitting, and how it was before."""

    id: str
    what: str
    """What was done, as it is told when it is taken back."""
    before: Label | None
    """The label that it had; None where it was deleted."""


class Keeping(Listed):
    """A logbook whose sittings can be labelled and deleted; what was done so since it was opened can be taken back.

    What is deleted lies in the folder `trash` of the logbook until a program that had it before its eyes has been left:
    see `empty_trash`. Each of these takes the lock for as
    long as it lasts, and raises LogbookError where another program has it, or the folder can't be written.
    """

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        self._trash = folder / "trash"
        self._opened = time_ns()
        self._changes: list[_Change] = []
        self.changes = 0
        """How many times sittings were labelled, deleted or brought back since this was opened."""

    def relabel(self, name: str, change: Callable[[Label], Label], what: str) -> Summary:
        """Write another label on a sitting, and return how it is listed then.

        Args:
            name: its id, or what `resolve` makes one of
            change: makes the new label of the one that it has; may raise LogbookError
            what: what is done, for `undo` to tell: "archived"

        Raises:
            LogbookError: there is none, it runs or has not been put away yet, or its file can't be read or written.
        """
        name = self._put_away(name)
        with self._store.writing():
            before, summary = self._store.relabel(name, change)
        if summary.label != before:
            self._changes.append(_Change(name, what, before))
            self.changes += 1
        return summary

    def lessons_said_of(self, name: str) -> int:
        """How many lessons of a sitting are said where they belong, and are not any more once it is deleted; 0 where it
        can't be read.

        Args:
            name: its id, or what `resolve` makes one of
        """
        try:
            lessons = self._store.read_head(self._put_away(name)).lessons
        except LogbookError:
            return 0
        return 0 if lessons is None else sum(one.retired is None for one in lessons.written)

    def delete(self, name: str) -> Summary:
        """Take a sitting out of the logbook, into its trash, and return how it was listed.

        Args:
            name: its id, or what `resolve` makes one of

        Raises:
            LogbookError: there is none, it runs or has not been put away yet, or can't be read or moved.
        """
        name = self._put_away(name)
        path, gone = self._store.path(name, SITTING), self._trash / (name + SITTING)
        with self._store.writing():
            # Whole, or it could not be brought back: one that is still being copied is left alone.
            summary = self._store.read(name).summary
            make_folder(self._trash)
            if os.path.lexists(gone):
                raise LogbookError(f"another sitting {name} is deleted already: {shown(gone)}; move that away first")
            path.rename(gone)
            # So that the trash knows which was the last; the system's own stamp may lie behind by a tick.
            os.utime(gone, ns=(now := time_ns(), now))
            self._take_photographs_out(name)
            self._moved()
        self._changes.append(_Change(name, "deleted", None))
        self.changes += 1
        return summary

    def restore(self, name: str) -> Summary:
        """Bring a sitting back that was deleted, and return how it is listed.

        Args:
            name: its id, a beginning of it, or `last`: the one that was deleted last

        Raises:
            LogbookError: there is none, or it can't be moved or read.
        """
        found = [summary.id for summary in self.deleted()]
        if not found:
            raise LogbookError("nothing is deleted that could be brought back")
        name = pick(name, found, _DELETED)
        path, gone = self._store.path(name, SITTING), self._trash / (name + SITTING)
        with self._store.writing():
            if os.path.lexists(path):
                raise LogbookError(f"there is a sitting {name} again: {shown(path)}; {shown(gone)} is left as it is")
            self._bring_photographs_back(name)  # first: killed in between, they only wait for their sitting
            gone.rename(path)
            self._moved()
            self._changes = [one for one in self._changes if (one.id, one.before) != (name, None)]
            self.changes += 1
            return self._store.read_summary(name)

    def deleted(self) -> list[Summary]:
        """The sittings in the trash, the one that was deleted last first; what can't be read is not among them."""
        from plans.logbook.disk import UNREADABLE
        from plans.logbook.sitting_files import read_summary

        found = []
        with suppress(FileNotFoundError, NotADirectoryError):
            for path in self._trash.iterdir():
                if path.suffix == SITTING and is_id(path.stem):
                    with suppress(*UNREADABLE, NewerFormat, OSError):
                        found.append((path.stat().st_mtime_ns, replace(read_summary(path), id=path.stem)))
        return [summary for _, summary in sorted(found, key=lambda one: (one[0], one[1].id), reverse=True)]

    def undo(self) -> tuple[str, Summary] | None:
        """Take back what was done last since this logbook was opened.

        Returns:
            what that was, and how its sitting is listed now; None where there is nothing to take back

        Raises:
            LogbookError: it can't be taken back now; it is tried again at the next call.
        """
        if not self._changes:
            return None
        last = self._changes[-1]
        if last.before is None:
            summary = self.restore(last.id)
        else:
            label = last.before
            with self._store.writing():
                _, summary = self._store.relabel(self._put_away(last.id), lambda _: label)
            self.changes += 1
        self._changes = [one for one in self._changes if one is not last]
        return last.what, summary

    @property
    def can_undo(self) -> bool:
        """Whether there is something to take back."""
        return bool(self._changes)

    def empty_trash(self) -> None:
        """Remove for good what was deleted here, or before this logbook was opened: nobody has missed it.

        What another program has deleted since then stays, as it can still be taken back there; so does all of it where
        that one writes just now.
        """
        if not self._trash.is_dir():
            return
        mine = {one.id for one in self._changes if one.before is None}
        self._changes = [one for one in self._changes if one.before is not None]
        with suppress(LogbookError), self._store.writing():
            for path in list(self._trash.iterdir()):
                name = path.stem
                if path.suffix == SITTING and (name in mine or path.stat().st_mtime_ns < self._opened):
                    self._remove_photographs(name)
                    remove(path)
            if not any(self._trash.iterdir()):
                self._trash.rmdir()

    def _take_photographs_out(self, name: str) -> None:
        """Have the copies of a deleted sitting's photographs go along; those that can't be moved lie where they lay."""
        if not (folder := self._store.photographs(name)).is_dir():
            return
        from plans.logbook.photo_files import move_copies

        try:
            move_copies(folder, self._trash / name)
        except OSError as error:
            self._store.say(f"{shown(folder)} with photographs can't be moved: {reason(error)}; it stays")

    def _bring_photographs_back(self, name: str) -> None:
        if (self._trash / name).is_dir():
            from plans.logbook.photo_files import move_copies

            move_copies(self._trash / name, self._store.photographs(name))

    def _remove_photographs(self, name: str) -> None:
        """Remove the photographs of a sitting that goes for good, wherever its deletion left them."""
        folders = [self._trash / name]
        if not any(os.path.lexists(self._store.path(name, ending)) for ending in (SITTING, JOURNAL)):
            folders.append(self._store.photographs(name))
        for folder in folders:
            if is_id(name) and folder.is_dir():
                from plans.logbook.photo_files import remove_copies

                remove_copies(folder)

    def _put_away(self, name: str) -> str:
        """The id of a sitting that was put away, and does not run.

        Raises:
            LogbookError: it is none, or there is no such sitting.
        """
        name = self.resolve(name)
        if name in self._open or self._store.path(name, JOURNAL).exists():
            why = "runs" if name in self._open or self._store.lock.taken_elsewhere() else "was cut off"
            raise LogbookError(f"sitting {name} {why} and has not been put away yet; end it, or open heatbook once")
        return name

    def _moved(self) -> None:
        """Make it last that a file was moved, and have the index without it, or with it."""
        for folder in (self._store.sittings, self._trash):
            sync_folder(folder)
        self._store.summaries()
