"""The list of a logbook: its sittings in one line each. It needs the index and what journals lie there, no more."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from plans.logbook.errors import LogbookError, reason, shown
from plans.logbook.files import JOURNAL, Progressing
from plans.logbook.names import pick
from plans.logbook.store import Store
from plans.logbook.summary import Progress, Summary, newest_first


class Listed:
    """A logbook as a list. It takes no lock but to mend its index, and imports nothing that a first screen has no use
    for: what reads journals, when there is one.
    """

    def __init__(self, folder: Path) -> None:
        self._store = Store(folder)
        self._turn = self._store.turn
        self._open = self._turn.running

    @property
    def folder(self) -> Path:
        """The folder that the logbook is in."""
        return self._store.folder

    @property
    def messages(self) -> list[str]:
        """What was set aside or could not be read, in plain words; for the caller to show and to clear."""
        return self._store.messages

    def tell_progress(self, tell: Progressing) -> None:
        """Have somebody told of work on many sittings as it goes on, before each of them."""
        self._store.progressing = tell

    def summaries(self) -> list[Summary]:
        """The summaries of all sittings, the newest first.

        Raises:
            LogbookError: the folder can't be read.
        """
        try:
            # In this order: a journal that goes meanwhile has its sitting in the index before.
            journals = self._store.ids(JOURNAL)
            found = self._store.summaries()
        except OSError as error:
            raise LogbookError(f"{shown(self.folder)} can't be read: {reason(error)}") from None
        for name in journals:
            if (summary := self._of_journal(name)) is not None:
                # What was written on it before it was gone on with stays so.
                found[name] = replace(summary, label=found[name].label) if name in found else summary
        return newest_first(found.values())

    def searchable(self) -> list[Summary]:
        """The summaries as `summaries` has them, each with what it is found by where it has been put away.

        Of sittings kept by earlier versions that is read out of their files, once: some milliseconds for each.

        Raises:
            LogbookError: the folder can't be read.
        """
        return self._completed(lambda one: not one.is_searchable)

    def teaching(self) -> list[Summary]:
        """The summaries as `summaries` has them, each with what it teaches where it has been put away.

        Of sittings kept by earlier versions that is read out of their files, once.

        Raises:
            LogbookError: the folder can't be read.
        """
        return self._completed(lambda one: one.teaches is None)

    def _completed(self, lacks: Callable[[Summary], bool]) -> list[Summary]:
        found = self.summaries()
        lacking = {one.id for one in found if lacks(one)}
        if not lacking:
            return found
        return newest_first(self._store.completed({one.id: one for one in found}, lacking).values())

    def cut_off(self) -> list[Summary]:
        """The sittings that a crash left behind and that are not put away yet, the oldest first.

        Of each journal its beginning and its events are read; what can't be read is not among them.
        """
        try:
            names = sorted(self._store.ids(JOURNAL) - set(self._open))
        except OSError:
            return []
        found = (self._of_journal(name) for name in names)
        return [one for one in found if one is not None and one.state is not Progress.RUNNING]

    def resolve(self, text: str) -> str:
        """The id that a person means: the whole of it, a beginning that only one has, or `last`.

        Raises:
            LogbookError: none is meant, or more than one; or the folder can't be read.
        """
        return pick(text, (summary.id for summary in self.summaries()))

    def _of_journal(self, name: str) -> Summary | None:
        """The summary of a sitting that has a journal; None where that can't be read or has gone."""
        from plans.logbook.journal import has_ended, read_header

        path = self._store.path(name, JOURNAL)
        try:
            head, state = read_header(path), self._state(name)
            if state is Progress.UNFINISHED and has_ended(path):
                state = Progress.FINISHED
        except LogbookError as error:
            if path.exists():
                self._store.say(str(error))
            return None
        return Summary(name, head.plan, head.title, head.started, None, state, head.rehearsal, None, None)

    def _state(self, name: str) -> Progress:
        """The state of a sitting that has a journal."""
        running = name in self._open or self._store.lock.taken_elsewhere()
        return Progress.RUNNING if running else Progress.UNFINISHED
