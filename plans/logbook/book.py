"""The logbook: what a program does with sittings, from the first event to the file that is kept."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from plans.logbook.errors import LogbookError, reason, shown
from plans.logbook.files import JOURNAL, SITTING
from plans.logbook.header import Header, to_millisecond
from plans.logbook.keeping import Keeping
from plans.logbook.names import new_id
from plans.logbook.recovery import Recovered, Recovery
from plans.logbook.summary import Progress, Summary
from plans.shop import Shop

if TYPE_CHECKING:
    from plans.logbook.afterwards import Outcome, Recalled
    from plans.logbook.archive import CheckShop, Packed, Unpacked
    from plans.logbook.figures import StepFigures
    from plans.logbook.journal import Journal
    from plans.logbook.kept_sitting import KeptSitting, WorkOut
    from plans.logbook.log import Log
    from plans.plan import Plan
    from plans.reading import ProbeOn


class Logbook(Keeping):
    """The logbook: sittings in a folder, their journals while they run, and an index.

    Making one touches nothing. Reading (`summaries`, `load`) needs no lock and writes
    nothing but what is missing or damaged of what was worked out: the index, and figures. What runs sittings
    (`open_sitting`, `take_up`, `go_on`, `fold`) takes the lock and keeps it until `close`. A program that does calls
    `recover` as well, in a thread of its own: it may take long, and holds nothing else up.

    What each of these needs is imported when it is first called: a shelf only asks for the list.
    """

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        self._recovery: Recovery | None = None

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
        return self._begin(header)

    def take_up(self, name: str) -> KeptSitting:
        """An unfinished sitting whole, to be gone on with, be it one that was cut off and is not put away yet.

        Args:
            name: its id, or what `resolve` makes one of.

        Raises:
            LogbookError: it is finished, running, or can't be read; or another process writes in this logbook.
        """
        from plans.logbook.whole_sittings import take_up

        try:
            with self._turn.keep():
                name = self.resolve(name)
                if name in self._open:
                    raise LogbookError(f"sitting {name} is running already")
                return take_up(self._store, name)
        except OSError as error:
            raise LogbookError(f"{shown(self.folder)} can't be written: {reason(error)}") from None

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
        from plans.logbook.whole_sittings import fold

        return fold(self._store, journal, work_out)

    def drop(self, journal: Journal) -> None:
        """Take back a sitting that was only begun: its journal goes, and nothing is kept. It does no harm twice."""
        with self._turn.thread:
            with suppress(OSError):
                journal.remove()
            self._open.pop(journal.header.id, None)

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

    def load(self, name: str, work_out: WorkOut | None = None) -> KeptSitting:
        """One sitting whole; `name` is its id, or what `resolve` makes one of.

        A sitting that still has its journal is read from there, and has figures only where `work_out` is given.

        Raises:
            LogbookError: there is none, or it can't be read.
        """
        from plans.logbook.whole_sittings import of_log, read_whole

        name = self.resolve(name)
        if (running := self._open.get(name)) is not None:
            return of_log(self._store, running.header, running.log, Progress.RUNNING, work_out)
        return read_whole(self._store, name, self._state(name), work_out)

    def steps_done(self, name: str) -> tuple[Outcome | None, tuple[StepFigures, ...]]:
        """What came of a sitting that was put away, and the figures of its steps; its log and traces are not read.

        Args:
            name: its id

        Returns:
            the outcome, None where nothing was said; and every step that was come to, in order

        Raises:
            LogbookError: there is none, or it can't be read.
        """
        return self._store.steps_done(name)

    def recall(self) -> tuple[Recalled, ...]:
        """Every lesson of the logbook, those no longer said among them; what is wrong with them is in `messages`."""
        from plans.logbook.recalling import recall

        return recall(self._store)

    def amend(self, name: str, change: Callable[[KeptSitting], KeptSitting]) -> KeptSitting:
        """Change what is said of a sitting that is over: its outcome, its lessons; nothing of its log.

        Args:
            name: its id, or what `resolve` makes one of
            change: makes the sitting as it is to be of the one that is kept; it may refuse by a `LogbookError`

        Returns:
            the sitting as it is kept now

        Raises:
            LogbookError: there is none, it is running, can't be read or written, or another heatbook writes.
        """
        from plans.logbook.amending import amend

        return amend(self._store, self.resolve(name), change)

    def photographs(self, name: str) -> Path:
        """The folder of the copies of a sitting's photographs; it need not be there.

        Args:
            name: its id
        """
        return self._store.photographs(name)

    def add_photograph(
        self, name: str, given: str, *, step: int | None = None, note: str = "", copied: bool = False, now: datetime
    ) -> KeptSitting:
        """Add a photograph to a sitting that is over; see `photographing.add_photograph`.

        Args:
            name: its id, or what `resolve` makes one of
            given: the photograph's file, as it was typed
        """
        from plans.logbook.photo_files import read_picture
        from plans.logbook.photographing import add_photograph

        name, picture = self.resolve(name), read_picture(given)
        return add_photograph(self._store, name, picture, step=step, note=note, copied=copied, now=now)

    def pack(self, plans: Path, shop: Path, to: Path) -> Packed:
        """Write this logbook, the smith's own plans and the shop file into a new archive; see `packing.pack`."""
        from plans.logbook.archive import pack

        return pack(self._store, plans, shop, to)

    def unpack(self, plans: Path, shop: Path, path: Path, check_shop: CheckShop) -> Unpacked:
        """Take what an archive holds into this logbook and beside it; see `taking_in.unpack`."""
        from plans.logbook.archive import unpack

        return unpack(self._store, plans, shop, path, check_shop)

    def take_in(self, name: str, data: bytes) -> bool:
        """Take the file of one sitting in; see `taking_in.take_in`."""
        from plans.logbook.archive import take_in

        return take_in(self._store, name, data)

    def _begin(self, header: Header, log: Log | None = None) -> Journal:
        from plans.logbook.journal import Journal

        with self._turn.thread:
            journal = Journal.create(self._store.sittings, header, log, self._store.lock)
            self._open[header.id] = journal
        return journal
