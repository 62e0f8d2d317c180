"""The logbook: what a program does with sittings, from the first event to the file that is kept."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from datetime import datetime
from pathlib import Path

from plans.logbook.cut_off import piece_together
from plans.logbook.errors import LogbookError, reason, shown
from plans.logbook.header import Header, to_millisecond
from plans.logbook.journal import Journal
from plans.logbook.kept_plan import plan_if_known
from plans.logbook.kept_sitting import KeptSitting, Progress, Summary, WorkedOut, WorkOut
from plans.logbook.log import Log
from plans.logbook.log_check import check_log
from plans.logbook.names import new_id, pick
from plans.logbook.putting_away import put_away, read_with_figures, worked_out, write
from plans.logbook.reading_back import has_ended, read_header
from plans.logbook.recovery import Recovered, Recovery
from plans.logbook.store import JOURNAL, SITTING, Store
from plans.plan import Plan
from plans.reading import ProbeOn
from plans.shop import Shop


class Logbook:
    """The logbook: sittings in a folder, their journals while they run, and an index.

    Making one touches nothing. Reading (`summaries`, `load`) needs no lock and writes
    nothing but what is missing or damaged of what was worked out: the index, and figures. What runs sittings
    (`open_sitting`, `take_up`, `go_on`, `fold`) takes the lock and keeps it until `close`. A program that does calls
    `recover` as well, in a thread of its own: it may take long, and holds nothing else up.
    """

    def __init__(self, folder: Path) -> None:
        self._store = Store(folder)
        self._turn = self._store.turn
        self._open = self._turn.running
        self._recovery: Recovery | None = None

    @property
    def folder(self) -> Path:
        """The folder that the logbook is in."""
        return self._store.folder

    @property
    def messages(self) -> list[str]:
        """What was set aside or could not be read, in plain words; for the caller to show and to clear."""
        return self._store.messages

    def close(self) -> None:
        """Let go of the lock and of every journal; those that were not folded are put away at the next recovery.

        One that goes on, or has not begun yet, ends.
        """
        if self._recovery is not None:
            self._recovery.stop()
        for journal in self._open.values():
            journal.flush()
            journal.close()
        self._open.clear()
        self._turn.give_up()

    def open_sitting(
        self,
        plan: Plan,
        started: datetime,
        *,
        profile: str = "",
        port: str = "",
        probe_on: ProbeOn | None = None,
        rehearsal: bool = False,
        seed: int | None = None,
        shop: Shop = Shop(),  # noqa: B008 - frozen
    ) -> Journal:
        """Begin the journal of a new sitting. A folder that can't be written shows in the journal's `trouble`.

        Args:
            started: wall time with its offset.

        Raises:
            LogbookError: another process writes in this logbook.
        """
        taken = set(self._open)
        # Where the disk can't be written, the journal says what is wrong, and takes the lock when it can.
        with suppress(OSError), self._turn.keep():
            taken |= self._store.ids(SITTING) | self._store.ids(JOURNAL)
        header = Header(
            new_id(plan.name, started, taken),
            plan.name,
            plan.title,
            plan.source,
            to_millisecond(started),
            profile,
            port,
            probe_on,
            rehearsal,
            seed,
            shop=shop,
        )
        return self._begin(header, Log())

    def take_up(self, name: str) -> KeptSitting:
        """An unfinished sitting whole, to be gone on with, be it one that was cut off and is not put away yet.

        Args:
            name: its id, or what `resolve` makes one of.

        Raises:
            LogbookError: it is finished, running, or can't be read; or another process writes in this logbook.
        """
        try:
            with self._turn.keep():
                name = self.resolve(name)
                if name in self._open:
                    raise LogbookError(f"sitting {name} is running already")
                kept = self._of_cut_off(name) if self._store.path(name, JOURNAL).exists() else self._store.read(name)
        except OSError as error:
            raise LogbookError(f"{shown(self.folder)} can't be written: {reason(error)}") from None
        _refuse_finished(kept.header, kept.state)
        return kept

    def go_on(self, kept: KeptSitting, now: datetime, at: float | None = None) -> Journal:
        """Go on with a sitting that was taken up: its journal again. The caller logs a `WentOn`.

        Args:
            kept: what `take_up` gave; its log is the journal's from now on.
            now: wall time with its offset.
            at: seconds since the sitting began that `now` stands for; without it, the time of its last entry.
        """
        return self._begin(kept.header.gone_on(kept.log.last_at if at is None else at, now), kept.log)

    def fold(self, journal: Journal, work_out: WorkOut) -> Summary:
        """End a sitting: its file is written, its line in the index, and the journal goes.

        Quick where `work_out` hands over what a running engine knows; the log comes from memory.

        Raises:
            LogbookError: it could not be written, or not be read back; the journal is as it was, and this can be tried
                again.
        """
        name, log = journal.header.id, journal.log
        try:
            check_log(log, plan_if_known(journal.header))
        except ValueError as error:
            raise LogbookError(
                f"sitting {name} can't be put away, it could not be read back ({error}); its journal is kept, and what "
                "of it is right is put away at the next start"
            ) from None
        worked = worked_out(self._store, journal.header, log, work_out)
        try:
            with self._turn.keep():
                summary = write(self._store, journal.header, log, worked)
                journal.remove()
                for line in journal.news:
                    self._store.say(line)
                self._open.pop(name, None)
        except OSError as error:
            raise LogbookError(
                f"sitting {name} can't be put away in {shown(self.folder)}: {reason(error)}; "
                "what its journal holds is put away at the next start"
            ) from None
        return summary

    def drop(self, journal: Journal) -> None:
        """Take back a sitting that was only begun: its journal goes, and nothing is kept. It does no harm twice."""
        with self._turn.thread:
            with suppress(OSError):
                journal.remove()
            self._open.pop(journal.header.id, None)

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

    def recover(
        self, work_out: WorkOut, tell: Callable[[Recovered], None] = lambda _: None, but: str | None = None
    ) -> list[Recovered]:
        """Put away every journal that a crash left, and return what was put away; see `recovery`."""
        return self.recovery(work_out, tell, but).run()

    def recovery(
        self,
        work_out: WorkOut,
        tell: Callable[[Recovered], None] = lambda _: None,
        but: str | None = None,
        *,
        silent: bool = False,
    ) -> Recovery:
        """The putting away of every journal that a crash left, to be run, in a thread of its own where that may take
        long. Closing the logbook stops it. While one goes on, another has nothing to do.

        Args:
            work_out: works out the figures of one
            tell: told of each that has been put away
            but: id of one that is left as it is, since it will be gone on with at once
            silent: whether what is wrong is not said in `messages`
        """
        recovery = Recovery(self._store.apart() if silent else self._store, work_out, tell, but)
        if self._recovery is None or self._recovery.is_over:
            self._recovery = recovery
        else:
            recovery.stop()
        return recovery

    def wants(self, name: str) -> bool:
        """Whether the recovery that goes on still wants a sitting that was cut off."""
        return self._recovery is not None and self._recovery.wants(name)

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
        found |= {name: summary for name in journals if (summary := self._of_journal(name)) is not None}
        return sorted(found.values(), key=lambda summary: (summary.started, summary.id), reverse=True)

    def _of_journal(self, name: str) -> Summary | None:
        """The summary of a sitting that has a journal; None where that can't be read or has gone."""
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

    def resolve(self, text: str) -> str:
        """The id that a person means: the whole of it, a beginning that only one has, or `last`.

        Raises:
            LogbookError: none is meant, or more than one; or the folder can't be read.
        """
        return pick(text, (summary.id for summary in self.summaries()))

    def load(self, name: str, work_out: WorkOut | None = None) -> KeptSitting:
        """One sitting whole; `name` is its id, or what `resolve` makes one of.

        A sitting that still has its journal is read from there, and has figures only where `work_out` is given.

        Raises:
            LogbookError: there is none, or it can't be read.
        """
        name = self.resolve(name)
        if name in self._open:
            header, log = self._open[name].header, self._open[name].log
        elif not self._store.path(name, JOURNAL).exists():
            return read_with_figures(self._store, name, work_out)
        else:
            try:
                cut = piece_together(self._store, name)
            except LogbookError:
                if self._store.path(name, JOURNAL).exists():
                    raise
                return read_with_figures(self._store, name, work_out)  # it was put away just now
            if cut.damage:
                self._store.say(f"{shown(self._store.path(name, JOURNAL))} {cut.told}")
            header, log = cut.header, cut.log
        worked = WorkedOut(None) if work_out is None else worked_out(self._store, header, log, work_out)
        return KeptSitting(header, log, self._state(name), worked.figures, worked.skin, worked.middle)

    def _state(self, name: str) -> Progress:
        """The state of a sitting that has a journal."""
        running = name in self._open or self._store.lock.taken_elsewhere()
        return Progress.RUNNING if running else Progress.UNFINISHED

    def _begin(self, header: Header, log: Log) -> Journal:
        with self._turn.thread:
            journal = Journal.create(self._store.sittings, header, log, self._store.lock)
            self._open[header.id] = journal
        return journal

    def _of_cut_off(self, name: str) -> KeptSitting:
        """A sitting that was cut off, to be gone on with; one whose journal is damaged is put away first.

        Raises:
            LogbookError: it can't be read, or is finished.
            OSError: it can't be put away.
        """
        cut = piece_together(self._store, name)
        _refuse_finished(cut.header, cut.state)
        if cut.damage or cut.name != name:
            put_away(self._store, name, cut, WorkedOut(None))
            return self._store.read(name if self._store.path(name, SITTING).exists() else cut.name)
        return KeptSitting(cut.header, cut.log, cut.state)


def _refuse_finished(header: Header, state: Progress) -> None:
    if state is Progress.FINISHED:
        raise LogbookError(f"sitting {header.id} is finished; begin a new one of {header.plan}")
