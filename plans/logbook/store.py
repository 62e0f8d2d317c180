"""The sittings of the logbook, one by one: read, written, named anew, and entered in the index."""

from __future__ import annotations

from collections.abc import Callable, Container
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from plans.logbook.disk import UNREADABLE, check_copied, set_aside
from plans.logbook.errors import shown
from plans.logbook.files import SITTING, Files
from plans.logbook.index import Index
from plans.logbook.summary import Summary
from plans.writing import make_folder

if TYPE_CHECKING:
    from plans.logbook.afterwards import Label, Outcome
    from plans.logbook.figures import StepFigures
    from plans.logbook.kept_sitting import KeptSitting
    from plans.logbook.sitting_files import Head


class Store(Files):
    """The files of a logbook, and the sittings in them."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        self._index = Index(self)

    def apart(self) -> Store:
        """A store of these files, with this lock and turn, and with messages of its own."""
        store = Store(self.folder)
        store.lock, store.turn = self.lock, self.turn
        return store

    def summaries(self) -> dict[str, Summary]:
        """The summaries of all sittings with a file, by id; see `Index.summaries`."""
        return self._index.summaries()

    def enter(self, summary: Summary) -> None:
        """Write the line of a sitting in the index; see `Index.enter`."""
        self._index.enter(summary)

    def completed(self, found: dict[str, Summary], lacking: Container[str]) -> dict[str, Summary]:
        """The summaries with what they are found by and what they teach; see `Index.completed`."""
        return self._index.completed(found, lacking)

    def read(self, name: str) -> KeptSitting:
        """Read one sitting that was put away.

        Raises:
            DamagedError: it can't be understood; it was set aside where that may be done.
            CopyingError: it is still being copied, as by a synchronizer; it is left alone.
            LogbookError: it can't be opened, or was written by a newer heatbook.
        """
        from plans.logbook.sitting_files import read_sitting

        kept = self.read_of(name, read_sitting)
        if kept.label is None:
            self.say(f"title and mark of sitting {name} can't be read; all else of it is whole")
        return replace(kept, header=replace(kept.header, id=name))

    def read_summary(self, name: str) -> Summary:
        """Read the summary of one sitting that was put away; what is raised is as in `read`."""
        from plans.logbook.sitting_files import read_summary

        return replace(self.read_of(name, read_summary), id=name)

    def read_head(self, name: str) -> Head:
        """Read what stands first in the file of one sitting that was put away; a damaged one stays where it lies, what
        else is raised is as in `read`."""
        from plans.logbook.sitting_files import read_head

        return self.read_of(name, read_head, aside=False)

    def check_end(self, name: str) -> None:
        """Refuse one sitting whose file was cut short; what is raised is as in `read_head`."""
        from plans.logbook.sitting_files import check_end

        self.read_of(name, check_end, aside=False)

    def steps_done(self, name: str) -> tuple[Outcome | None, tuple[StepFigures, ...]]:
        """Read outcome and steps of one sitting that was put away, no more; what is raised is as in `read`."""
        from plans.logbook.sitting_files import read_head, read_steps

        head, steps = self.read_of(name, lambda path: (read_head(path), read_steps(path)))
        if head.unread:
            self.say(f"what was said of sitting {name} can't be read: {head.unread}")
        return head.outcome, steps

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

        before, summary, tables = self.read_of(name, lambda path: labelled(path, change))
        write_tables(self.path(name, SITTING), tables)
        summary = replace(summary, id=name)
        self.enter(summary)
        return before, summary
