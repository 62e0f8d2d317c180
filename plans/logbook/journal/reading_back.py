"""Reading a journal, whatever became of it: a crash, a power cut, a disk that fails, an editor."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from io import BufferedReader
from pathlib import Path
from typing import Final, NamedTuple

from plans.logbook.disk import UNREADABLE
from plans.logbook.errors import DamagedError, LogbookError, reason, shown
from plans.logbook.header import Header, NewerFormat, check_years
from plans.logbook.journal.in_order import FAR, Times
from plans.logbook.journal.line_numbers import LineNumbers
from plans.logbook.journal.lines import entry_of, header_of, is_event, is_torn
from plans.logbook.journal.log_check import check_event
from plans.logbook.kept_plan import plan_if_known
from plans.logbook.log import Log
from plans.reading import Reading
from plans.regular import open_regular
from plans.sitting import Event, folded

_STAMP: Final = re.compile(r"\d{8}-\d{6}(?=-)")
"""How the id of a sitting begins: with the local time at which that did."""


class Found(NamedTuple):
    """What was found in the file of a journal."""

    header: Header
    """First line of the journal: what was known of the sitting when it began."""
    log: Log
    """Every entry that could be read, in order."""
    damage: tuple[str, ...]
    """What could not be read or can't be, in plain words. The beginning of a last line, as a crash leaves it, is none:
    nothing had relied on it."""
    file: tuple[int, ...]
    """Which file it was: see `signature`."""


def read_journal(path: Path, instead: Header | None = None) -> Found:
    """Read a journal. Left out are a torn last line, damaged lines, those that stand there once more, and entries that
    can't have been when they say. Lines that stand in another order are put in the one in which they were written.

    Args:
        path: of its file
        instead: the header of this sitting as it was put away before, to go by where the first line is damaged; None
            where it never was

    Raises:
        DamagedError: it has no header that can be read, and there is none to go by.
        LogbookError: it can't be opened, or was written by a newer heatbook.
    """
    log, damaged = Log(), set[int]()
    with _opened(path) as file:
        header, wrong = _header(file, path, instead)
        times, lines, numbers, plan = Times(header), [], LineNumbers(), plan_if_known(header)
        for number, line in enumerate(file, start=2):
            try:
                entry, told_as = entry_of(line)
                if not isinstance(entry, Reading):
                    check_event(entry, plan)
                log.append(entry)
            except UNREADABLE:
                if not is_torn(line):
                    damaged.add(number)
                continue
            times.append(entry)
            lines.append(number)
            numbers.append(told_as)
        about = os.fstat(file.fileno())
    again = _told((lines[index] for index in numbers.again), "came twice")
    late = _told((lines[index] for index in numbers.late), "came out of turn")
    if not numbers.in_turn:
        order, entries = numbers.order, list(log)
        log, lines, times = Log(entries[index] for index in order), [lines[index] for index in order], Times(header)
        for entry in log:
            times.append(entry)
    misplaced = times.misplaced(_written(about))
    if misplaced:
        log = Log(entry for index, entry in enumerate(log) if index not in misplaced)
    unread = _told(sorted(damaged), "can't be read")
    odd = _told(sorted(lines[index] for index in misplaced), "can't have been when the time there says")
    return Found(header, log, (*wrong, *unread, *again, *late, *odd), signature(about))


def read_header(path: Path) -> Header:
    """Read only the first line of a journal: what was known of the sitting when it began.

    Raises:
        DamagedError, LogbookError: as `read_journal`.
    """
    with _opened(path) as file:
        return _header(file, path, None)[0]


def signature(about: os.stat_result) -> tuple[int, ...]:
    """Which file it is and when it was written: for whoever wants to know whether it is still the same."""
    return about.st_ino, about.st_size, about.st_mtime_ns


def stamp_of(name: str) -> str | None:
    """The local time in the id of a sitting, as `20261125-091502`; None where it has been renamed."""
    found = _STAMP.match(name)
    return found and found[0]


def stamped(moment: datetime) -> str:
    """A moment as `stamp_of` gives it."""
    return f"{moment:%Y%m%d-%H%M%S}"


@contextmanager
def _opened(path: Path) -> Iterator[BufferedReader]:
    try:
        with open_regular(path) as file:
            yield file
    except NewerFormat:
        raise LogbookError(f"{shown(path)} was written by a newer heatbook; read it with that one") from None
    except OSError as error:
        raise LogbookError(f"{shown(path)} can't be read: {reason(error)}") from None


def _header(file: BufferedReader, path: Path, instead: Header | None) -> tuple[Header, list[str]]:
    """The header, and what is wrong with it."""
    try:
        header, as_written = header_of(file.readline())
    except UNREADABLE:
        if instead is None:
            raise DamagedError(f"{shown(path)} can't be read: its first line is damaged") from None
        return instead, ["line 1 can't be read, and what was put away of this sitting before stands for it"]
    wrong = []
    before = instead if instead is not None and instead.id == header.id else None
    began = _by_name(header, path.stem) if before is None else before.started
    if stamped(began) != stamped(header.started):
        wrong.append(f"line 1 says that it began at {header.started:%Y-%m-%d %H:%M:%S}, which is wrong")
        header = replace(header, started=began)
    latest = _written(os.fstat(file.fileno())) + timedelta(seconds=FAR)
    if header.started <= latest and any(moment > latest for _, moment in header.went_on):
        wrong.append("line 1 says that it was gone on with at a time that was still to come")
        header = replace(header, went_on=tuple(gap for gap in header.went_on if gap[1] <= latest))
    if before is not None and header.went_on[: len(before.went_on)] != before.went_on:
        last = max((at for at, _ in before.went_on), default=0.0)
        behind = (gap for gap in header.went_on if gap[0] > last)
        header = replace(header, went_on=(*before.went_on, *behind))
    if not as_written:
        # It stands all the same: without it there is no sitting, and most of it is the text of the plan.
        wrong.append("line 1 is not as it was written, so what it says of the plan or the probe may be wrong")
    try:
        check_years(header)
    except ValueError as error:
        raise DamagedError(f"{shown(path)} can't be read: its first line is damaged ({error})") from None
    return header, wrong


def _by_name(header: Header, name: str) -> datetime:
    """When a sitting began: what its header says where its id or the name of its file agrees, else by the id."""
    stamp = stamp_of(header.id)
    if stamp is None or stamped(header.started) in (stamp, stamp_of(name)):
        return header.started
    try:
        return datetime.strptime(stamp, "%Y%m%d-%H%M%S").replace(tzinfo=header.started.tzinfo)
    except ValueError:
        return header.started


def _written(about: os.stat_result) -> datetime:
    return datetime.fromtimestamp(about.st_mtime, UTC)


def _told(lines: Iterable[int], what: str) -> tuple[str, ...]:
    named = [f"line {number}" for number in lines]
    if not named:
        return ()
    some = ", ".join(named[:5]) + (f" and {len(named) - 5} more" if len(named) > 5 else "")
    return (f"{some} {what}",)


def has_ended(path: Path) -> bool:
    """Whether the sitting of a journal came to its end: only its events are looked at, so that a list can ask.

    Raises:
        LogbookError: it can't be opened.
    """
    events, numbers = list[Event](), LineNumbers()
    with _opened(path) as file:
        for line in file:
            if is_event(line):
                with suppress(*UNREADABLE):
                    entry, number = entry_of(line)
                    if not isinstance(entry, Reading):
                        events.append(entry)
                        numbers.append(number)
    try:
        return folded(events[index] for index in numbers.order).finished
    except UNREADABLE:
        return False
