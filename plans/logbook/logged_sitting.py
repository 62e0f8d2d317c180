"""A sitting that is running, and its log on the disk with it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from tempfile import gettempdir

from plans.logbook.afterwards import Recalled, at_step, not_in_log
from plans.logbook.book import Logbook
from plans.logbook.errors import LogbookError, shown
from plans.logbook.header import Header
from plans.logbook.journal import Journal
from plans.logbook.kept_sitting import WorkedOut
from plans.logbook.log import Log
from plans.logbook.summary import Summary
from plans.phase import FORGING, HOLDING
from plans.plan import Plan
from plans.reader import read_plan
from plans.reading import ProbeOn, Reading
from plans.shop import Shop
from plans.sitting import GRID, Entry, Event, Hands, Said, Sitting, Tick, WentOn, Word, WordError
from plans.trace import Trace

_TRACE_EVERY = 2
"""Grid points between two points of the modelled trace that is kept."""
_LONGEST_BREAK = 8 * 3600.0
"""No set time is longer, and nothing is warm any more [s]."""
MOMENT = 20.0
"""The work may have stayed in the fire or on the anvil for so long; after more the smith is asked where it is [s]."""
_ASK_EVERY = 64
"""Entries between two looks at whether a replay is still wanted."""
_SHORT_BREAK = 300.0
"""The work may have stayed where it was for so long [s]."""


class LoggedSitting:
    """A sitting and its journal: whatever the sitting makes of an entry is logged before anybody hears of it.

    Used by one thread, the one that owns the screen or the loop.
    """

    def __init__(self, logbook: Logbook, journal: Journal, sitting: Sitting) -> None:
        self._logbook = logbook
        self.journal = journal
        self.sitting = sitting
        self.begun_with: list[Event] = []
        """What came of going on with it, or of beginning it further on, for whoever shows it."""
        self._recalled = logbook.recall()
        self._lessons: dict[int, tuple[Recalled, ...]] = {}

    @classmethod
    def begin(
        cls,
        logbook: Logbook,
        plan: Plan,
        started: datetime,
        probe_on: ProbeOn | None = None,
        hands: Hands = Hands(),  # noqa: B008 - frozen
        shop: Shop = Shop(),  # noqa: B008 - frozen
        *,
        profile: str = "",
        port: str = "",
        seed: int | None = None,
        lag: float = 0.0,
    ) -> LoggedSitting:
        """Begin a new sitting, and its journal with it.

        Args:
            logbook: where it is kept
            plan: what is to be done
            started: wall time with its offset
            probe_on: where the probe sits; None without one
            hands: what may end a phase by itself
            shop: the smith's own figures
            profile: how the probe talks
            port: where it is plugged in
            seed: of a rehearsal; None for a real sitting
            lag: how far the probe itself lags: its time constant [s]

        Raises:
            LogbookError: another process writes in this logbook.
        """
        journal = logbook.open_sitting(
            plan,
            started,
            profile=profile,
            port=port,
            probe_on=probe_on,
            rehearsal=seed is not None,
            seed=seed,
            shop=shop,
        )
        running = cls(logbook, journal, Sitting(plan, probe_on, hands, shop, lag))
        for entry in running.sitting.open():
            assert not isinstance(entry, Reading)
            journal.event(entry)
        return running

    @classmethod
    def go_on(
        cls,
        logbook: Logbook,
        name: str,
        now: datetime,
        probe_on: ProbeOn | None = None,
        hands: Hands = Hands(),  # noqa: B008 - frozen
    ) -> LoggedSitting:
        """Go on with an unfinished sitting, from when it was left.

        A break of more than a moment with the work in the fire or on the anvil counts as a pause, after which the smith
        is asked where it is; so does one of nobody knows how long, where the clock stands before the time when it was
        left. Set times, as of an oven, run on; in anything else the sitting's own clock stands over a
        long break. What is warm cools by at most eight hours. What was measured since it was left is said as words.

        Raises:
            LogbookError: it is finished, running, or can't be read.
            PlanError: its plan can't be read by this version.
        """
        kept = logbook.take_up(name)
        header, left_at = kept.header, kept.left_at
        sitting = _replayed(header, kept.log, hands)
        since, wall = header.went_on[-1] if header.went_on else (0.0, header.started)
        away = since + (now - wall).total_seconds() - left_at
        at = left_at + min(max(0.0, away), _LONGEST_BREAK)
        running = cls(logbook, logbook.go_on(kept, now, at), sitting)
        # The last thing that was said or measured may have been long before it was left.
        running.begun_with = running.take(Tick(left_at))
        phase, gone = sitting.state.phase, 0.0 if sitting.state.finished else at - left_at
        unknown = away < -MOMENT and not sitting.state.finished
        stands, is_away = (unknown or gone > MOMENT) and phase in FORGING, gone > _SHORT_BREAK and phase not in HOLDING
        running.begun_with += running.take(
            WentOn(at, probe_on, left_at if stands else None, left_at if is_away else None)
        )
        # A replay knows the log alone: what was measured in the meantime counts from here on as if it were said now.
        for one in not_in_log(kept.measured_later, kept.log.events):
            with suppress(WordError):  # of a step that is not come to any more: it stays where it is kept
                running.begun_with += running.take(Said(at, Word.MEASURED, one.as_word))
        return running

    @property
    def id(self) -> str:
        """Id of the sitting in the logbook."""
        return self.journal.header.id

    @property
    def trouble(self) -> str | None:
        """Why the log can't be written just now, in plain words."""
        return self.journal.trouble

    def take(self, entry: Said | Reading | Tick | WentOn) -> list[Event]:
        """Hand something to the sitting, and log what comes of it.

        Returns:
            the events that came of it

        Raises:
            WordError: a word that means nothing just now; nothing was logged of it.
        """
        events: list[Event] = []
        for item in self.sitting.take(entry):
            if isinstance(item, Reading):
                self.journal.reading(item)
            else:
                self.journal.event(item)
                events.append(item)
        return events

    def lessons(self, step: int) -> tuple[Recalled, ...]:
        """The lessons to be said before a step, from 0, as they were when this was begun or gone on with."""
        if step not in self._lessons:
            self._lessons[step] = at_step(self._recalled, self.sitting.plan, step)
        return self._lessons[step]

    def news(self) -> list[str]:
        """What happened to the files of the logbook since this was asked last, in plain words."""
        news = []
        for said in (self.journal.news, self._logbook.messages):
            while said:
                news.append(said.pop(0))
        return news

    def flush(self) -> None:
        """Put waiting readings on the disk; to be called once a second."""
        self.journal.flush()

    def put_away(self) -> Summary:
        """End the running: fold the journal into the logbook, as finished or, if it is not, to be gone on with.

        Raises:
            LogbookError: it could not be written. The journal is as it was; what of it could not be written either is
                in a copy, and the text says where, or that there is none.
        """
        try:
            return self._logbook.fold(self.journal, lambda *_: _worked_out(self.sitting))
        except LogbookError as error:
            if not self.journal.waiting:
                raise
            raise LogbookError(self._rescued(str(error))) from None

    def drop(self) -> None:
        """End one that was begun and nothing more: nothing is kept of it."""
        self._logbook.drop(self.journal)

    def keep_journal(self) -> str:
        """See to it that the log is on the disk, when it could not be put away for a reason that nobody knows.

        Returns:
            where it is and what becomes of it; or that it is lost, and why
        """
        why = f"sitting {self.id} can't be put away"
        if self.journal.flush():
            return f"{why}; its journal is whole, in {shown(self.journal.path)}, and is put away at the next start"
        return self._rescued(f"{why}, nor its journal be written")

    def _rescued(self, why: str) -> str:
        """Write the whole log where there is room, and say what is to be done with it."""
        for folder in (Path.home, lambda: Path(gettempdir())):
            try:
                copy = self.journal.write_copy(folder())
            except (OSError, RuntimeError):  # nobody knows where the home is, or there is no room either
                continue
            return (
                f"{why.partition(';')[0]}. The whole log is in {shown(copy)}: once that is mended, move it to "
                f"{shown(self.journal.path)} and start heatbook, which puts it away"
            )
        return f"{why.partition(';')[0]}, nor anywhere else; what is not on the disk is lost when heatbook ends"


def work_out(header: Header, log: Log, go_ahead: Callable[[], None] = lambda: None) -> WorkedOut:
    """Figures and modelled trace of a logged sitting, by replaying it.

    Args:
        header: what is known of it
        log: its entries
        go_ahead: asked now and then whether to go on; raises what this is to end with
    """
    return _worked_out(_replayed(header, log, go_ahead=go_ahead))


def _replayed(
    header: Header,
    log: Log,
    hands: Hands = Hands(),  # noqa: B008 - frozen
    go_ahead: Callable[[], None] = lambda: None,
) -> Sitting:
    plan = read_plan(header.source, header.plan, f"sitting {header.id}, its plan", kept=True)
    sitting = Sitting(plan, header.probe_on, hands, header.shop)
    sitting.replay(_asking(log, go_ahead))
    return sitting


def _asking(log: Log, go_ahead: Callable[[], None]) -> Iterator[Entry]:
    for number, entry in enumerate(log):
        if number % _ASK_EVERY == 0:
            go_ahead()
        yield entry


def _worked_out(sitting: Sitting) -> WorkedOut:
    # What it cost and what it taught is asked at its end; a sitting that begins need not wait for what reckons that.
    from plans.logbook.figures import cost, heat_figures, learn

    skin, middle = Trace(), Trace()
    before = 0
    for number, *kelvins in sitting.warm.points():
        # Of a long time in which nothing came there are few points anyhow.
        if number % _TRACE_EVERY == 0 or number - before > _TRACE_EVERY:
            for trace, kelvin in zip((skin, middle), kelvins, strict=True):
                trace.append(number * GRID, kelvin if kelvin == kelvin else None)
        before = number
    figures = replace(heat_figures(sitting), cost=cost(sitting), learned=learn(sitting), learning_done=True)
    return WorkedOut(figures, skin, middle)
