"""The files of the logbook: which are there, reading and writing them, and what to do with those that are damaged."""

from __future__ import annotations

import os
from collections.abc import Callable, Container, Iterator
from contextlib import contextmanager, suppress
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Final, TypeVar

from plans.logbook.copying import check_copied, is_copy_of
from plans.logbook.errors import DamagedError, LogbookError, reason, shown
from plans.logbook.header import NewerFormat
from plans.logbook.lock import Lock
from plans.logbook.names import is_id, longer_ids, second_copy_of
from plans.logbook.summary import Summary
from plans.logbook.turn import Turn
from plans.logbook.whole_files import UNREADABLE, remove, set_aside
from plans.regular import NoOrdinaryFileError
from plans.writing import BESIDE, make_folder

if TYPE_CHECKING:
    from plans.logbook.figures import StepFigures
    from plans.logbook.index_file import Indexed
    from plans.logbook.kept_sitting import KeptSitting
    from plans.logbook.label import Label
    from plans.logbook.outcome import Outcome
    from plans.logbook.sitting_files import Head

_Read = TypeVar("_Read")

Progressing = Callable[[str, int, int], None]
"""Is told of work on many sittings before each of them: what is done, how many are done, and how many there are."""

SITTING: Final = ".json"
"""Ending of the file of a sitting that was put away."""
JOURNAL: Final = ".jsonl"
"""Ending of the file of a sitting that runs, or was cut off."""


class Store:
    """The folder of a logbook. Mends and sets aside only where its lock is held; otherwise it says what it found.

    TinyDB is imported when a file of its is first needed, not with this module.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.sittings = folder / "sittings"
        self.index = folder / "index.json"
        self.lessons = folder / "lessons.json"
        self.lock = Lock(folder / "lock")
        self.turn = Turn(self.lock)
        self.messages: list[str] = []
        self.progressing: Progressing = lambda *_: None

    def apart(self) -> Store:
        """A store of these files, with this lock and turn, and with messages of its own."""
        store = Store(self.folder)
        store.lock, store.turn = self.lock, self.turn
        return store

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
        return self._ids_and_copies(ending)[0]

    def _ids_and_copies(self, ending: str) -> tuple[set[str], dict[str, str]]:
        """The ids, and beside them those under which second copies lie, each with the id of its sitting."""
        try:
            names = [path.name.removesuffix(ending) for path in self.sittings.iterdir() if path.name.endswith(ending)]
        except FileNotFoundError:
            return set(), {}
        found = {name for name in names if is_id(name)}
        longer = longer_ids(found) if ending in (SITTING, JOURNAL) else ()
        copies = {name: one for name, one in longer if is_copy_of(self.path(name, ending), one)}
        return found - set(copies), copies

    def files(self) -> dict[str, os.stat_result]:
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
        for name in sorted(self.ids(SITTING)):
            with suppress(KeyError, FileNotFoundError):  # it came or went just now
                try:
                    found[name] = files[name + SITTING].stat()
                except OSError:  # a link to what is not
                    found[name] = files[name + SITTING].stat(follow_symlinks=False)
        return found

    def summaries(self) -> dict[str, Summary]:
        """The summaries of all sittings with a file, by id.

        The index only saves reading those; where the two differ, or it is damaged, it is mended. Whoever only looks
        takes the lock for that, and for nothing else: else every look would read all sittings, and say why, until
        somebody writes. Of each file the size alone is looked at; where that is not as the index has it, something
        has befallen the file, and its beginning and its end are read.

        Raises:
            OSError: the folder or the index can't be opened.
        """
        self._tell_of_others()
        index = self._read_index()
        found: dict[str, Indexed] = {}
        for name, about in self.files().items():
            known = (index or {}).get(name)
            if known is not None and known.size == about.st_size:
                found[name] = known
            elif (looked_at := self._look_at(name, known, about.st_size)) is not None:
                found[name] = looked_at
        if index != found:
            try:
                with self.turn.borrow():
                    self._mend_index(index, found)
            except (LogbookError, OSError):  # another heatbook writes, or nobody may
                self._mend_index(index, found)
        return {name: one.summary for name, one in found.items()}

    def _look_at(self, name: str, known: Indexed | None, size: int) -> Indexed | None:
        """What the index is to have of a sitting whose file is new to it, or has another size than it knew; None where
        that can't be told. What is wrong with the file is said, and it stays where it lies."""
        from plans.logbook.index_file import Indexed
        from plans.logbook.sitting_files import check_end, read_summary

        def read(path: Path) -> Summary:
            check_end(path)
            return read_summary(path) if known is None or known.size is not None else known.summary

        try:
            return Indexed(replace(self._read(name, read, aside=False), id=name), size)
        except LogbookError as error:
            is_damaged = isinstance(error, DamagedError)
            if known is not None:
                self.say(str(error))
                return Indexed(replace(known.summary, damaged=True), size) if is_damaged else known
            try:
                summary = self.read_summary(name)  # its beginning may be whole
            except LogbookError as none:
                self.say(str(none))
                return None
            self.say(str(error))
            return Indexed(replace(summary, damaged=is_damaged), size if is_damaged else None)

    def _tell_of_others(self) -> None:
        """Say what a folder that is shared between machines shows of another: its lock, and second copies of a file."""
        if elsewhere := self.lock.elsewhere:
            self.say(elsewhere)
        ids: set[str] = set()
        copies: dict[str, str] = {}
        for ending in (SITTING, JOURNAL):
            found, copied = self._ids_and_copies(ending)
            ids |= found
            copies |= {name + ending: one for name, one in copied.items()}
        with suppress(FileNotFoundError):
            for name in os.listdir(self.sittings):  # noqa: PTH208 - a thousand paths take a while to make
                if name.endswith((SITTING, JOURNAL)) and (one := second_copy_of(name)) in ids:
                    copies[name] = one
        for name, one in sorted(copies.items()):
            self.say(
                f"{shown(self.sittings / name)} is left alone: it is a second copy of sitting {one}, as a "
                "synchronizer makes where two machines wrote it; keep the one that you want under the "
                "sitting's own name, and move the other away"
            )

    def _read_index(self) -> dict[str, Indexed] | None:
        """What the index has, by id; empty where there is none yet, None where it can't be understood."""
        from plans.logbook.index_file import read_index

        try:
            return read_index(self.index)
        except (*UNREADABLE, NoOrdinaryFileError):
            return None

    def _mend_index(self, index: dict[str, Indexed] | None, found: dict[str, Indexed]) -> None:
        """Write the index anew, with the lock held; without it, only a damaged one is spoken of."""
        if self._read_index() != index:
            return  # somebody else has written it meanwhile
        if index is None:
            again = "it is made again from the sittings" if self.lock.held else "every sitting was read instead"
            self.say(self.set_aside(self.index, f"{shown(self.index)} can't be read; {again}"))
        if self.lock.held and (index is not None or not self.index.exists()):
            self._write_index(found)

    def _write_index(self, found: dict[str, Indexed]) -> None:
        from plans.logbook.index_file import write_index

        try:
            write_index(self.index, found.values())
        except OSError as error:
            self.say(f"{shown(self.index)} can't be written: {reason(error)}")

    def read(self, name: str) -> KeptSitting:
        """Read one sitting that was put away.

        Raises:
            DamagedError: it can't be understood; it was set aside where that may be done.
            CopyingError: it is still being copied, as by a synchronizer; it is left alone.
            LogbookError: it can't be opened, or was written by a newer heatbook.
        """
        from plans.logbook.sitting_files import read_sitting

        kept = self._read(name, read_sitting)
        if kept.label is None:
            self.say(f"title and mark of sitting {name} can't be read; all else of it is whole")
        return replace(kept, header=replace(kept.header, id=name))

    def read_summary(self, name: str) -> Summary:
        """Read the summary of one sitting that was put away; what is raised is as in `read`."""
        from plans.logbook.sitting_files import read_summary

        return replace(self._read(name, read_summary), id=name)

    def read_head(self, name: str) -> Head:
        """Read what stands first in the file of one sitting that was put away; a damaged one stays where it lies, what
        else is raised is as in `read`."""
        from plans.logbook.sitting_files import read_head

        return self._read(name, read_head, aside=False)

    def check_end(self, name: str) -> None:
        """Refuse one sitting whose file was cut short; what is raised is as in `read_head`."""
        from plans.logbook.sitting_files import check_end

        self._read(name, check_end, aside=False)

    def completed(self, found: dict[str, Summary], lacking: Container[str]) -> dict[str, Summary]:
        """The summaries, some of them with what they are found by and what they teach, where they have a file; what was
        read for that is in the index next time, where that may be written.

        Args:
            found: the summaries by id
            lacking: the ids of those that lack one of these
        """
        from plans.logbook.sitting_files import read_found

        read = {}
        wanted = [name for name in sorted(self.ids(SITTING) & found.keys()) if name in lacking]
        for done, name in enumerate(wanted):
            self.progressing("reading once what an earlier version kept", done, len(wanted))
            with suppress(LogbookError):  # a list says what is wrong with it, once it is looked at
                read[name] = self._read(name, read_found)
        if not read:
            return found
        found = found | {
            name: replace(found[name], facts=facts, teaches=teaches) for name, (facts, teaches) in read.items()
        }
        with suppress(LogbookError, OSError), self.turn.borrow():  # another heatbook writes, or nobody may
            index = self._read_index() or {}
            for name, one in index.items():
                index[name] = replace(one, summary=found.get(name, one.summary))
            self._write_index(index)
        return found

    def steps_done(self, name: str) -> tuple[Outcome | None, tuple[StepFigures, ...]]:
        """Read outcome and steps of one sitting that was put away, no more; what is raised is as in `read`."""
        from plans.logbook.sitting_files import read_head, read_steps

        head, steps = self._read(name, lambda path: (read_head(path), read_steps(path)))
        if head.unread:
            self.say(f"what was said of sitting {name} can't be read: {head.unread}")
        return head.outcome, steps

    def _read(self, name: str, read: Callable[[Path], _Read], *, aside: bool = True) -> _Read:
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

    def write(self, kept: KeptSitting) -> Summary:
        """Write a sitting and its line in the index, which is returned; a damaged file that is in the way is set aside.

        Raises:
            CopyingError: the file that is in the way is still being copied.
            OSError: one of them could not be written.
        """
        from plans.logbook.sitting_files import put_sitting

        path = self.path(kept.header.id, SITTING)
        make_folder(self.sittings)
        try:
            kept = put_sitting(path, kept)
        except UNREADABLE:
            check_copied(path)
            aside = set_aside(path)
            self.say(f"{shown(path)} was damaged and is written anew; the damaged file is kept as {shown(aside.name)}")
            kept = put_sitting(path, kept)
        summary = kept.summary
        self.enter(summary)
        return summary

    def relabel(self, name: str, change: Callable[[Label], Label]) -> tuple[Label, Summary]:
        """Write another label on a sitting that was put away, and nothing else.

        Args:
            name: its id
            change: makes the new label of the one that it has; what it raises is raised

        Returns:
            the label that it had, and its line in the index now

        Raises:
            LogbookError: as in `read`.
            OSError: it could not be written.
        """
        from plans.logbook.sitting_files import labelled, write_tables

        before, summary, tables = self._read(name, lambda path: labelled(path, change))
        write_tables(self.path(name, SITTING), tables)
        summary = replace(summary, id=name)
        self.enter(summary)
        return before, summary

    def enter(self, summary: Summary) -> None:
        """Write the line of a sitting in the index.

        Raises:
            OSError: it could not be written.
        """
        from plans.logbook.index_file import Indexed, put_in_index

        size = self.path(summary.id, SITTING).stat().st_size
        try:
            put_in_index(self.index, Indexed(summary, size))
        except (*UNREADABLE, NoOrdinaryFileError):
            self.summaries()

    def sweep(self) -> None:
        """Remove what was being written when the program was killed: those files were never finished.

        Raises:
            OSError: one could not be removed.
        """
        for whole in (self.index, self.lessons):
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
