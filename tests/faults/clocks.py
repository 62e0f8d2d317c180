"""Clocks that are set, and machines that sleep, in every phase of a sitting: nothing is lost, and nothing hangs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from pathlib import Path

from plans.logbook import Logbook, work_out
from plans.logbook.summary import Progress
from plans.reader import read_plan_file
from plans.sitting import Event, Word
from tests.faults.in_time import TooLong, in_time
from tests.faults.told import kept_in
from tui.config.settings import Settings
from tui.running.begin import begin_sitting
from tui.running.requests import RunRequest
from tui.running.running_sitting import RunningSitting
from tui.running.sources import ClockSource

PLAN = Path(__file__).parents[1] / "tui" / "figures.toml"
"""A plan that has every phase."""
LONGEST = 5.0
"""One jump and what comes of it may take so much processor [s]."""
_BETWEEN = 5.0
"""From word to word [s]."""
_HOUR, _DAY = 3600.0, 86400.0


@dataclass(frozen=True, slots=True)
class Jump:
    """What becomes of the clocks at one moment."""

    name: str
    wall: float
    """By so much the wall clock is set on, or back [s]."""
    asleep: float = 0.0
    """So long the machine sleeps, which both clocks count [s]."""


JUMPS = (
    Jump("wall clock an hour back", -_HOUR),
    Jump("wall clock an hour on", _HOUR),
    Jump("wall clock two years back", -730 * _DAY),
    Jump("wall clock two years on", 730 * _DAY),
    Jump("asleep for 8 h", 0.0, 8 * _HOUR),
    Jump("asleep for 30 days", 0.0, 30 * _DAY),
)


@dataclass(slots=True)
class _Clocks:
    """Both clocks of a machine, set by hand."""

    real: float = 1000.0
    wall: datetime = field(default_factory=lambda: datetime(2026, 3, 14, 9, 15, 2, tzinfo=UTC))

    def go_on(self, seconds: float) -> None:
        self.real += seconds
        self.wall += timedelta(seconds=seconds)


def clocks(folder: Path, jump: Jump, every: int = 1) -> Iterator[str | None]:
    """Let a jump come after each word of a sitting through every phase, each time in a logbook of its own.

    Args:
        folder: an empty one
        jump: what becomes of the clocks
        every: after every so many words only

    Yields:
        For each jump what was wrong afterwards, or None.
    """
    for words in range(0, _words_to_the_end(folder / "whole") + 1, every):
        try:
            with in_time(LONGEST):
                phase, wrong = _jumped(folder / str(words), jump, words)
        except (Exception, TooLong) as error:
            yield f"{jump.name}, after {words} words: {type(error).__name__}: {error}"
        else:
            yield f"{jump.name}, in {phase} after {words} words: {'; '.join(wrong)}" if wrong else None


def _words_to_the_end(folder: Path) -> int:
    machine, book = _Clocks(), Logbook(folder)
    running = _begin(machine, book, None)
    words = _follow(machine, running, 500)
    if not running.sitting.state.finished:
        raise RuntimeError("the sitting never ends")
    running.put_away()
    book.close()
    return words


def _follow(machine: _Clocks, running: RunningSitting, most: int) -> int:
    """Say so many words, or as many as it takes to the end; how many it were."""
    running.say(Word.ACKNOWLEDGE)
    for said in range(most):
        if running.sitting.state.finished:
            return said
        machine.go_on(_BETWEEN)
        running.say(Word.NEXT)
    return most


def _jumped(folder: Path, jump: Jump, words: int) -> tuple[str, list[str]]:
    """Say so many words, let the clocks jump, leave, and go on: the phase it came in, and what was wrong."""
    machine, book = _Clocks(), Logbook(folder)
    running = _begin(machine, book, None)
    _follow(machine, running, words)
    phase, finished = running.sitting.state.phase, running.sitting.state.finished
    before = _events(running)
    machine.wall += timedelta(seconds=jump.wall)
    machine.go_on(jump.asleep)
    running.tick()
    if not finished:
        running.say(Word.NOTE, "after it")
    events = _events(running)
    wrong = [] if events[: len(before)] == before else ["the log has lost events"]
    if any(one.at > other.at for one, other in pairwise(events)):
        wrong.append("time ran back in the log")
    running.put_away()
    book.close()
    return phase.value, wrong + _gone_on_wrong(folder, machine, finished)


def _gone_on_wrong(folder: Path, machine: _Clocks, finished: bool) -> list[str]:
    """Start again a minute later, and go on to the end."""
    machine.go_on(60.0)
    book = Logbook(folder)
    left = book.load("last", work_out)
    if finished:
        return [] if left.state is Progress.FINISHED else [f"it is {left.state.value}"]
    running = _begin(machine, book, left.header.id)
    running.tick()
    running.say(Word.FINISH)
    running.put_away()
    kept = book.load("last", work_out)
    book.close()
    told = kept_in(left.log)
    wrong = [] if kept_in(kept.log)[: len(told)] == told else ["gone on with, it has lost events"]
    return wrong + ([] if kept.state is Progress.FINISHED else [f"it is {kept.state.value}"]) + book.messages


def _begin(machine: _Clocks, book: Logbook, go_on: str | None) -> RunningSitting:
    plan = None if go_on else lambda: read_plan_file(PLAN)
    request = RunRequest(lambda _: ClockSource(lambda: machine.real), plan, go_on)
    shop = book.folder / "shop.toml"
    return begin_sitting(request, book, Settings(), shop, lambda _: None, lambda: machine.wall)


def _events(running: RunningSitting) -> list[Event]:
    return list(running.logged.journal.log.events)
