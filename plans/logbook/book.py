"""The logbook: what a program does with sittings, from the first event to the file that is kept."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from threading import Event, RLock

from plans.logbook.cut_off import piece_together
from plans.logbook.errors import DamagedError, LogbookError, StoppedError, reason, shown
from plans.logbook.header import Header, to_millisecond
from plans.logbook.journal import Journal
from plans.logbook.kept_sitting import KeptSitting, Progress, Summary, WorkedOut, WorkOut
from plans.logbook.log import Log
from plans.logbook.names import new_id, pick
from plans.logbook.putting_away import put_away, worked_out, write
from plans.logbook.reading_back import read_header
from plans.logbook.store import JOURNAL, SITTING, Store
from plans.plan import Plan
from plans.reading import ProbeOn
from plans.record import record
from plans.shop import Shop

_MOMENT = 0.2
"""How long it is waited for another thread that writes, when the logbook is closed [s]."""


@record
class Recovered:
    """A sitting that was cut off, and is in the logbook now."""

    summary: Summary
    """The sitting in one line, as it was put away."""
    damage: tuple[str, ...]
    """What of its journal could not be read, in plain words."""


class Logbook:
    """The logbook: sittings in a folder, their journals while they run, and an index.

    Making one touches nothing. Reading (`summaries`, `load`) needs no lock and writes
    nothing but an index that is missing or damaged. What writes
    (`open_sitting`, `go_on`, `fold`, `recover`) takes the lock and keeps it until `close`. A program that runs sittings
    calls `recover` as well, in a thread of its own: it may take long, and holds nothing else up.
    """

    def __init__(self, folder: Path) -> None:
        self._store = Store(folder)
        self._open: dict[str, Journal] = {}
        self._writes = RLock()
        """Held while files of the logbook are written, by whichever thread."""
        self._stays = False
        """Whether the lock is to be kept when there is nothing to recover any more."""
        self._closing = Event()

    @property
    def folder(self) -> Path:
        """The folder that the logbook is in."""
        return self._store.folder

    @property
    def messages(self) -> list[str]:
        """What was set aside or could not be read, in plain words; for the caller to show and to clear."""
        return self._store.messages

    def close(self) -> None:
        """Let go of the lock and of every journal; those that were not folded are, at the next `recover`.

        Where another thread is writing just then, that is not waited for: the lock goes when the program ends.
        """
        self._closing.set()
        for journal in self._open.values():
            journal.flush()
            journal.close()
        self._open.clear()
        self._stays = False
        if self._writes.acquire(timeout=_MOMENT):
            self._store.lock.release()
            self._writes.release()

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
        try:
            self._take_lock()
            taken |= self._store.ids(SITTING) | self._store.ids(JOURNAL)
        except OSError:
            pass  # the journal says what is wrong, and takes the lock when it can
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
        with self._writes:
            try:
                self._take_lock()
                name = self.resolve(name)
                if name in self._open:
                    raise LogbookError(f"sitting {name} is running already")
                kept = self._of_cut_off(name) if self._store.path(name, JOURNAL).exists() else self._store.read(name)
            except OSError as error:
                raise LogbookError(f"{shown(self.folder)} can't be written: {reason(error)}") from None
        if kept.state is Progress.FINISHED:
            raise LogbookError(f"sitting {name} is finished; begin a new one of {kept.header.plan}")
        return kept

    def go_on(self, kept: KeptSitting, now: datetime, at: float | None = None) -> Journal:
        """Go on with a sitting that was taken up: its journal again. The caller logs a `WentOn`.

        Args:
            kept: what `take_up` gave; its log is the journal's from now on.
            now: wall time with its offset.
            at: seconds since the sitting began that `now` stands for; without it, the time of its last entry.
        """
        with self._writes:
            return self._begin(kept.header.gone_on(kept.log.last_at if at is None else at, now), kept.log)

    def fold(self, journal: Journal, work_out: WorkOut) -> Summary:
        """End a sitting: its file is written, its line in the index, and the journal goes.

        Quick where `work_out` hands over what a running engine knows; the log comes from memory.

        Raises:
            LogbookError: it could not be written; the journal is as it was, and this can be tried again.
        """
        worked = worked_out(self._store, journal.header, journal.log, work_out)
        with self._writes:
            try:
                self._take_lock()
                summary = write(self._store, journal.header, journal.log, worked)
                journal.remove()
            except OSError as error:
                raise LogbookError(
                    f"sitting {journal.header.id} can't be put away in {shown(self.folder)}: {reason(error)}; "
                    "what its journal holds is put away at the next start"
                ) from None
            for line in journal.news:
                self._store.say(line)
            self._open.pop(journal.header.id, None)
        return summary

    def drop(self, journal: Journal) -> None:
        """Take back a sitting that was only begun: its journal goes, and nothing is kept. It does no harm twice."""
        with self._writes:
            with suppress(OSError):
                journal.remove()
            self._open.pop(journal.header.id, None)

    def cut_off(self) -> list[Summary]:
        """The sittings that a crash left behind and that are not put away yet, the oldest first.

        Only the beginning of each journal is read; what can't be read is not among them.
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
        """Put away every journal that a crash left, the oldest first. A running sitting's is left alone.

        Nothing is raised for a folder that can't be written, or where another process writes: `messages` says so. The
        lock is let go of again: looking at the log must not keep anybody from the forge. It may run in a thread of its
        own, while the logbook is read and sittings begin; closing the logbook ends it at the next sitting, or where
        `work_out` sees that it `wants` no more and raises a `StoppedError`.

        Args:
            work_out: works out the figures of one
            tell: told of each that has been put away
            but: id of one that is left as it is, since it will be gone on with at once
        """
        self._closing.clear()
        recovered = []
        try:
            for name in self._to_recover():
                if name != but and self.wants(name) and (found := self._recover(name, work_out)) is not None:
                    recovered.append(found)
                    tell(found)
        finally:
            with self._writes:
                if not self._stays:
                    self._store.lock.release()
        return recovered

    def wants(self, name: str) -> bool:
        """Whether a sitting that was cut off is still to be put away: not where it is gone on with, nor on closing."""
        return not self._closing.is_set() and name not in self._open

    def _to_recover(self) -> list[str]:
        with self._writes:
            try:
                self._store.lock.take()
                self._store.sweep()
                return sorted(self._store.ids(JOURNAL) - set(self._open))
            except LogbookError as error:
                self._store.say(str(error))
            except OSError as error:
                self._store.say(f"{shown(self.folder)} can't be written: {reason(error)}")
        return []

    def _take_lock(self) -> None:
        """Take the lock, and keep it until the logbook is closed."""
        self._store.lock.take()
        self._stays = True

    def summaries(self) -> list[Summary]:
        """The summaries of all sittings, the newest first.

        Raises:
            LogbookError: the folder can't be read.
        """
        try:
            # In this order: a journal that goes meanwhile has its sitting in the index before.
            journals = self._store.ids(JOURNAL)
            with self._writes:
                found = self._store.summaries()
        except OSError as error:
            raise LogbookError(f"{shown(self.folder)} can't be read: {reason(error)}") from None
        found |= {name: summary for name in journals if (summary := self._of_journal(name)) is not None}
        return sorted(found.values(), key=lambda summary: (summary.started, summary.id), reverse=True)

    def _of_journal(self, name: str) -> Summary | None:
        """The summary of a sitting that has a journal; None where that can't be read or has gone."""
        path = self._store.path(name, JOURNAL)
        try:
            head = read_header(path)
        except LogbookError as error:
            if path.exists():
                self._store.say(str(error))
            return None
        state = self._state(name)
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
            return self._fitting(self._store.read(name), work_out)
        else:
            try:
                cut = piece_together(self._store, name)
            except LogbookError:
                if self._store.path(name, JOURNAL).exists():
                    raise
                return self._fitting(self._store.read(name), work_out)  # it was put away just now
            if cut.damage:
                self._store.say(f"{shown(self._store.path(name, JOURNAL))} {cut.told}")
            header, log = cut.header, cut.log
        worked = WorkedOut(None) if work_out is None else worked_out(self._store, header, log, work_out)
        return KeptSitting(header, log, self._state(name), worked.figures, worked.skin, worked.middle)

    def _fitting(self, kept: KeptSitting, work_out: WorkOut | None) -> KeptSitting:
        """A sitting that was put away; what its file had of figures that are not of its log is worked out again."""
        if not kept.misfit or work_out is None:
            return kept
        name = kept.header.id
        self._store.say(f"the figures of sitting {name} do not fit its log ({kept.misfit}): they are worked out again")
        worked = worked_out(self._store, kept.header, kept.log, work_out)
        return replace(kept, figures=worked.figures, skin=worked.skin, middle=worked.middle)

    def _state(self, name: str) -> Progress:
        """The state of a sitting that has a journal."""
        lock = self._store.lock
        running = name in self._open or (not lock.held and lock.taken())
        return Progress.RUNNING if running else Progress.UNFINISHED

    def _begin(self, header: Header, log: Log) -> Journal:
        journal = Journal.create(self._store.sittings, header, log, self._store.lock)
        self._open[header.id] = journal
        return journal

    def _of_cut_off(self, name: str) -> KeptSitting:
        """A sitting that was cut off, to be gone on with; one whose journal is damaged is put away first.

        Raises:
            LogbookError: it can't be read.
            OSError: it can't be put away.
        """
        cut = piece_together(self._store, name)
        if cut.damage or cut.name != name:
            put_away(self._store, name, cut, WorkedOut(None))
            return self._store.read(name)
        return KeptSitting(cut.header, cut.log, cut.state)

    def _recover(self, name: str, work_out: WorkOut) -> Recovered | None:
        path = self._store.path(name, JOURNAL)
        try:
            cut = piece_together(self._store, name)
            holds_all = cut.kept is not None and not cut.kept.misfit
            worked = None if holds_all else worked_out(self._store, cut.header, cut.log, work_out)
            with self._writes:
                if not self.wants(name) or not cut.is_still(path):
                    return None
                return Recovered(put_away(self._store, name, cut, worked), cut.damage)
        except StoppedError:
            pass
        except DamagedError as error:
            self._store.say(self._store.set_aside(path, str(error)))
        except LogbookError as error:
            self._store.say(str(error))
        except OSError as error:
            self._store.say(f"sitting {name} can't be put away: {reason(error)}; its journal is kept")
        except Exception as error:  # whatever is wrong with one, the others are put away and the program begins
            self._store.say(f"sitting {name} can't be put away ({type(error).__name__}: {error}); its journal is kept")
        return None
