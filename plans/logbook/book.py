"""The logbook: what a program does with sittings, from the first event to the file that is kept."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from plans.logbook.errors import DamagedError, LogbookError, reason, shown
from plans.logbook.header import Header, to_millisecond
from plans.logbook.journal import Journal, read_header, read_journal
from plans.logbook.kept_sitting import KeptSitting, Progress, Summary, WorkedOut, WorkOut, checked
from plans.logbook.log import Log
from plans.logbook.names import new_id, pick
from plans.logbook.store import JOURNAL, SITTING, Store
from plans.logbook.whole_files import remove, set_aside
from plans.plan import Plan
from plans.reading import ProbeOn
from plans.shop import Shop


@dataclass(frozen=True, slots=True)
class Recovered:
    """A sitting that was cut off, and is in the logbook now."""

    summary: Summary
    """The sitting in one line, as it was put away."""
    damage: tuple[str, ...]
    """What of its journal could not be read, in plain words."""


class Logbook:
    """The logbook: sittings in a folder, their journals while they run, and an index.

    Making one touches nothing. Reading (`summaries`, `load`) needs no lock and writes
    nothing but an index that was damaged. What writes
    (`open_sitting`, `go_on`, `fold`, `recover`) takes the lock and keeps it until `close`. A program that runs sittings
    calls `recover` first.
    """

    def __init__(self, folder: Path) -> None:
        self._store = Store(folder)
        self._open: dict[str, Journal] = {}

    @property
    def folder(self) -> Path:
        """The folder that the logbook is in."""
        return self._store.folder

    @property
    def messages(self) -> list[str]:
        """What was set aside or could not be read, in plain words; for the caller to show and to clear."""
        return self._store.messages

    def close(self) -> None:
        """Let go of the lock and of every journal; those that were not folded are, at the next `recover`."""
        for journal in self._open.values():
            journal.flush()
            journal.close()
        self._open.clear()
        self._store.lock.release()

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
            self._store.lock.take()
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

    def go_on(self, name: str, now: datetime, at: float | None = None) -> Journal:
        """Go on with an unfinished sitting: its journal again, with its whole log in it.

        The caller replays `journal.log`, and logs a `WentOn`.

        Args:
            name: its id, or what `resolve` makes one of.
            now: wall time with its offset.
            at: seconds since the sitting began that `now` stands for; without it, the time of its last entry.

        Raises:
            LogbookError: it is finished, running, or can't be read; or another process writes in this logbook.
        """
        try:
            self._store.lock.take()
        except OSError as error:
            raise LogbookError(f"{shown(self.folder)} can't be written: {reason(error)}") from None
        name = self.resolve(name)
        if name in self._open:
            raise LogbookError(f"sitting {name} is running already")
        if self._store.path(name, JOURNAL).exists():
            raise LogbookError(f"sitting {name} was cut off and is not put away yet; start heatbook again to do that")
        kept = self._store.read(name)
        if kept.state is Progress.FINISHED:
            raise LogbookError(f"sitting {name} is finished; begin a new one of {kept.header.plan}")
        return self._begin(kept.header.gone_on(kept.log.last_at if at is None else at, now), kept.log)

    def fold(self, journal: Journal, work_out: WorkOut) -> Summary:
        """End a sitting: its file is written, its line in the index, and the journal goes.

        Quick where `work_out` hands over what a running engine knows; the log comes from memory.

        Raises:
            LogbookError: it could not be written; the journal is as it was, and this can be tried again.
        """
        try:
            self._store.lock.take()
            summary = self._put_away(journal.header, journal.log, work_out, journal.path)
        except OSError as error:
            raise LogbookError(
                f"sitting {journal.header.id} can't be put away in {shown(self.folder)}: {reason(error)}; "
                "what its journal holds is put away at the next start"
            ) from None
        journal.close()
        self._open.pop(journal.header.id, None)
        return summary

    def drop(self, journal: Journal) -> None:
        """Take back a sitting that was only begun: its journal goes, and nothing is kept. It does no harm twice."""
        journal.close()
        self._open.pop(journal.header.id, None)
        with suppress(OSError):
            remove(journal.path)

    def recover(self, work_out: WorkOut) -> list[Recovered]:
        """Put away every journal that a crash left, the oldest first. A running sitting's is left alone.

        Nothing is raised for a folder that can't be written, or where another process writes: `messages` says so. The
        lock is let go of again: looking at the log must not keep anybody from the forge.
        """
        held = self._store.lock.held
        try:
            return self._recover_all(work_out)
        finally:
            if not held:
                self._store.lock.release()

    def _recover_all(self, work_out: WorkOut) -> list[Recovered]:
        try:
            self._store.lock.take()
            self._store.sweep()
            names = sorted(self._store.ids(JOURNAL) - set(self._open))
        except LogbookError as error:
            self._store.say(str(error))
            return []
        except OSError as error:
            self._store.say(f"{shown(self.folder)} can't be written: {reason(error)}")
            return []
        recovered = [self._recover(name, work_out) for name in names]
        return [found for found in recovered if found is not None]

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
            path = self._store.path(name, JOURNAL)
            try:
                head = read_header(path)
            except LogbookError as error:
                if path.exists():
                    self._store.say(str(error))
                continue
            found[name] = Summary(
                name, head.plan, head.title, head.started, None, self._state(name), head.rehearsal, None, None
            )
        return sorted(found.values(), key=lambda summary: (summary.started, summary.id), reverse=True)

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
        path = self._store.path(name, JOURNAL)
        if name in self._open:
            header, log = self._open[name].header, self._open[name].log
        else:
            try:
                header, log, damage = read_journal(path)
            except LogbookError:
                if path.exists():
                    raise
                return self._store.read(name)
            for line in damage:
                self._store.say(line)
        worked = WorkedOut(None) if work_out is None else self._worked_out(header, log, work_out)
        return KeptSitting(replace(header, id=name), log, self._state(name), worked.figures, worked.skin, worked.middle)

    def _state(self, name: str) -> Progress:
        """The state of a sitting that has a journal."""
        lock = self._store.lock
        running = name in self._open or (not lock.held and lock.taken())
        return Progress.RUNNING if running else Progress.UNFINISHED

    def _begin(self, header: Header, log: Log) -> Journal:
        journal = Journal.create(self._store.sittings, header, log, self._store.lock)
        self._open[header.id] = journal
        return journal

    def _recover(self, name: str, work_out: WorkOut) -> Recovered | None:
        path = self._store.path(name, JOURNAL)
        try:
            header, log, damage = read_journal(path)
            kept = self._kept(name)
            if kept is not None and len(kept.log) > len(log):
                # Put away from memory while the journal could not be written, and cut off before it was removed.
                self._store.write(kept)
                remove(path)
                return Recovered(kept.summary, ())
            for line in damage:
                self._store.say(line)
            summary = self._put_away(replace(header, id=name), log, work_out, path, damaged=bool(damage))
        except DamagedError:
            self._store.say(self._store.set_aside(path, "can't be read, its first line is damaged"))
        except LogbookError as error:
            self._store.say(str(error))
        except OSError as error:
            self._store.say(f"sitting {name} can't be put away: {reason(error)}; its journal is kept")
        else:
            return Recovered(summary, damage)
        return None

    def _kept(self, name: str) -> KeptSitting | None:
        """The sitting as far as it was put away before; a damaged file is out of the way then."""
        if not self._store.path(name, SITTING).exists():
            return None
        try:
            return self._store.read(name)
        except DamagedError:
            return None

    def _put_away(self, header: Header, log: Log, work_out: WorkOut, path: Path, *, damaged: bool = False) -> Summary:
        """Write the sitting, enter it in the index, remove the journal. Killed between any two, it is done again."""
        worked = self._worked_out(header, log, work_out)
        state = Progress.FINISHED if log.ended else Progress.UNFINISHED
        kept = KeptSitting(header, log, state, worked.figures, worked.skin, worked.middle)
        self._store.write(kept)
        if damaged:
            set_aside(path)
        else:
            remove(path)
        return kept.summary

    def _worked_out(self, header: Header, log: Log, work_out: WorkOut) -> WorkedOut:
        try:
            return checked(work_out(header, log))
        except Exception as error:  # whatever is wrong with a plan or the engine, the log must be kept
            self._store.say(f"the figures of sitting {header.id} can't be worked out ({error}); its log is kept")
            return WorkedOut(None)
