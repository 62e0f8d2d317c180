"""The index of the logbook: a line for each sitting, so that a list need read no more; mended where it differs."""

from __future__ import annotations

from collections.abc import Container
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from plans.logbook.disk import UNREADABLE
from plans.logbook.errors import DamagedError, LogbookError, reason, shown
from plans.logbook.files import SITTING, Files
from plans.logbook.summary import Summary
from plans.regular import NoOrdinaryFileError

if TYPE_CHECKING:
    from plans.logbook.index_file import Indexed


class Index:
    """The index of some files. TinyDB is imported when it is first needed, not with this module."""

    def __init__(self, files: Files) -> None:
        self._files = files

    def summaries(self) -> dict[str, Summary]:
        """The summaries of all sittings with a file, by id.

        The index only saves reading those; where the two differ, or it is damaged, it is mended. Whoever only looks
        takes the lock for that, and for nothing else: else every look would read all sittings, and say why, until
        somebody writes. Of each file the size alone is looked at; where that is not as the index has it, something
        has befallen the file, and its beginning and its end are read.

        Raises:
            OSError: the folder or the index can't be opened.
        """
        self._files.tell_of_others()
        index = self._read_index()
        found: dict[str, Indexed] = {}
        for name, about in self._files.on_disk().items():
            known = (index or {}).get(name)
            if known is not None and known.size == about.st_size and not known.summary.damaged:
                found[name] = known
            elif (looked_at := self._look_at(name, known, about.st_size)) is not None:
                found[name] = looked_at
        if index != found:
            try:
                with self._files.turn.borrow():
                    self._mend_index(index, found)
            except (LogbookError, OSError):  # another heatbook writes, or nobody may
                self._mend_index(index, found)
        return {name: one.summary for name, one in found.items()}

    def completed(self, found: dict[str, Summary], lacking: Container[str]) -> dict[str, Summary]:
        """The summaries, some of them with what they are found by and what they teach, where they have a file; what was
        read for that is in the index next time, where that may be written.

        Args:
            found: the summaries by id
            lacking: the ids of those that lack one of these
        """
        from plans.logbook.sitting_files import read_found

        read = {}
        wanted = [name for name in sorted(self._files.ids(SITTING) & found.keys()) if name in lacking]
        for done, name in enumerate(wanted):
            self._files.progressing("reading once what an earlier version kept", done, len(wanted))
            with suppress(LogbookError):  # a list says what is wrong with it, once it is looked at
                read[name] = self._files.read_of(name, read_found)
        if not read:
            return found
        found = found | {
            name: replace(found[name], facts=facts, teaches=teaches) for name, (facts, teaches) in read.items()
        }
        with suppress(LogbookError, OSError), self._files.turn.borrow():  # another heatbook writes, or nobody may
            index = self._read_index() or {}
            for name, one in index.items():
                index[name] = replace(one, summary=found.get(name, one.summary))
            self._write_index(index)
        return found

    def enter(self, summary: Summary) -> None:
        """Write the line of a sitting in the index.

        Raises:
            OSError: it could not be written.
        """
        from plans.logbook.index_file import Indexed, put_in_index

        size = self._files.path(summary.id, SITTING).stat().st_size
        try:
            put_in_index(self._files.index_file, Indexed(summary, size))
        except (*UNREADABLE, NoOrdinaryFileError):
            self.summaries()

    def _look_at(self, name: str, known: Indexed | None, size: int) -> Indexed | None:
        """What the index is to have of a sitting whose file is new to it, or has another size than it knew; None where
        that can't be told. What is wrong with the file is said, and it stays where it lies."""
        from plans.logbook.index_file import Indexed
        from plans.logbook.sitting_files import check_end, read_summary

        def read(path: Path) -> Summary:
            check_end(path)
            return read_summary(path) if known is None or known.size is not None else known.summary

        try:
            return Indexed(replace(self._files.read_of(name, read, aside=False), id=name), size)
        except LogbookError as error:
            is_damaged = isinstance(error, DamagedError)
            if known is not None:
                if not (known.summary.damaged and known.size == size):  # else that was said when it was found
                    self._files.say(str(error))
                return Indexed(replace(known.summary, damaged=True), size) if is_damaged else known
            try:
                summary = replace(self._files.read_of(name, read_summary), id=name)  # its beginning may be whole
            except LogbookError as none:
                self._files.say(str(none))
                return None
            self._files.say(str(error))
            return Indexed(replace(summary, damaged=is_damaged), size if is_damaged else None)

    def _read_index(self) -> dict[str, Indexed] | None:
        """What the index has, by id; empty where there is none yet, None where it can't be understood."""
        from plans.logbook.index_file import read_index

        try:
            return read_index(self._files.index_file)
        except (*UNREADABLE, NoOrdinaryFileError):
            return None

    def _mend_index(self, index: dict[str, Indexed] | None, found: dict[str, Indexed]) -> None:
        """Write the index anew, with the lock held; without it, only a damaged one is spoken of."""
        if self._read_index() != index:
            return  # somebody else has written it meanwhile
        if index is None:
            again = "it is made again from the sittings" if self._files.lock.held else "every sitting was read instead"
            self._files.say(
                self._files.set_aside(self._files.index_file, f"{shown(self._files.index_file)} can't be read; {again}")
            )
        if self._files.lock.held and (index is not None or not self._files.index_file.exists()):
            self._write_index(found)

    def _write_index(self, found: dict[str, Indexed]) -> None:
        from plans.logbook.index_file import write_index

        try:
            write_index(self._files.index_file, found.values())
        except OSError as error:
            self._files.say(f"{shown(self._files.index_file)} can't be written: {reason(error)}")
