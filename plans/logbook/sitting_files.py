"""The TinyDB files of the sittings. Opened anew each time, so nothing stale is ever kept.

What a corrupt file raises is one of `UNREADABLE` in `plans.logbook.disk`.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from errno import ENOENT
from os import SEEK_END
from pathlib import Path
from typing import Any

from tinydb import TinyDB

from plans.logbook.afterwards import Label, LaterMeasurements, Outcome, Photographs, SittingLessons
from plans.logbook.disk import UNREADABLE, AtomicJSONStorage, strict_json
from plans.logbook.document import LABEL, SUMMARY, found_in, from_document, label_of, said_of, to_document
from plans.logbook.facts import Facts
from plans.logbook.figures import StepFigures, steps_from_record
from plans.logbook.header import from_record
from plans.logbook.kept_sitting import LESSONS, MEASURED_LATER, OUTCOME, PHOTOGRAPHS, KeptSitting
from plans.logbook.summary import Summary
from plans.logbook.teaching import Teaches
from plans.record import record
from plans.record_values import Record, record_of
from plans.regular import open_regular

Tables = dict[str, dict[str, Any]]
"""What a file holds: its tables, each with its records."""
_SITTING = "sitting"
_BEGINS = f'{{"{_SITTING}":{{"1":{{"{SUMMARY}":'.encode()
"""How the file of a sitting begins that has its summary first."""
_HEAD = 4096
"""Bytes that are read for it to begin with; of a head that is longer, more."""
_SAID = (LESSONS, OUTCOME, MEASURED_LATER, PHOTOGRAPHS)
_LONGEST_KEY = 24
"""So much behind what was read tells whether one of these comes next [characters]."""
_STEPS = b',"figures":{"steps":'
"""What stands before the figures of the steps; never within a text, where quotation marks have a backslash."""
_TAIL = 16384
"""Bytes that are read for them to begin with, from the end; of a longer end, more."""
_ENDS = b"}}}"
"""How the file of a sitting ends that this version wrote whole."""


@record
class Head:
    """What stands first in the file of a sitting."""

    summary: Summary
    """The sitting in one line."""
    outcome: Outcome | None = None
    """What came of it; None where nothing was said."""
    lessons: SittingLessons | None = None
    """Its lessons; None where it has none."""
    measured_later: LaterMeasurements | None = None
    """What was measured by hand when it was over; None where nothing was."""
    photographs: Photographs | None = None
    """The photographs of its work; None where there are none."""
    unread: str = ""
    """Why one of these can't be read; empty where all can."""


def read_summary(path: Path) -> Summary:
    """Read one sitting's summary: from the head of its file, or, as first versions wrote none, from the whole of it.

    Raises:
        FileNotFoundError: there is none.
        NewerFormat: a newer heatbook wrote it.
    """
    return read_head(path).summary


def read_head(path: Path) -> Head:
    """Read what stands first in one sitting's file, without the rest of it where it is as this version writes it.

    Raises:
        FileNotFoundError: there is none.
        NewerFormat: a newer heatbook wrote it.
    """
    size = _HEAD
    while True:
        with open_regular(path) as file:
            head = file.read(size)
        if not head.startswith(_BEGINS):
            break
        # The end may lie within a character, but not within what is read here, which is ASCII.
        with suppress(*UNREADABLE):  # then the rest may be whole
            found = _first_of(head.decode("ascii", "replace"), is_whole=len(head) < size)
            said = said_of(found)
            summary = Summary.from_record(found[SUMMARY])
            return Head(summary, said.outcome, said.lessons, said.measured_later, said.photographs, said.unread)
        if len(head) < size:
            break
        size *= 16
    kept = read_sitting(path)
    return Head(kept.summary, kept.outcome, kept.lessons, kept.measured_later, kept.photographs, kept.unread)


def _first_of(text: str, *, is_whole: bool) -> dict[str, Any]:
    """The keys that stand first, and their values: the summary, and what its smith said afterwards.

    Raises:
        ValueError: the text ends before them.
    """
    found: dict[str, Any] = {}
    found[SUMMARY], end = strict_json.raw_decode(text, len(_BEGINS))
    while name := next((name for name in _SAID if text.startswith(f',"{name}":', end)), None):
        found[name], end = strict_json.raw_decode(text, end + len(name) + 4)
    if not is_whole and end + _LONGEST_KEY > len(text):
        raise ValueError("what comes next has not been read")
    return found


def read_found(path: Path) -> tuple[Facts, Teaches]:
    """Read what a sitting is found by and what it teaches, as of one that an earlier version kept.

    Raises:
        FileNotFoundError: there is none.
        NewerFormat: a newer heatbook wrote it.
    """
    return found_in(_read_document(path))


def read_sitting(path: Path) -> KeptSitting:
    """Read the file of one sitting, and check it whole.

    Raises:
        FileNotFoundError: there is none.
        NewerFormat: a newer heatbook wrote it.
    """
    return from_document(_read_document(path))


def labelled(path: Path, change: Callable[[Label], Label]) -> tuple[Label, Summary, Tables]:
    """Read a sitting's file, and make what it is to hold with another label; all else in it stays as it is.

    Args:
        path: of the file
        change: makes the new label of the one that it has, of an empty one where that can't be read

    Returns:
        the label that it had, the sitting's summary with the new one, and what the file is to hold

    Raises:
        FileNotFoundError: there is none.
        NewerFormat: a newer heatbook wrote it.
    """
    tables = AtomicJSONStorage(path).read()
    if tables is None:
        raise _not_there(path)
    document = record_of(tables[_SITTING]["1"])
    from_record(document)  # whatever its version has under the key of the label
    before = label_of(document) or Label()
    label = change(before)
    summary = replace(read_summary(path), label=label)
    if not summary.is_searchable or summary.teaches is None:
        with suppress(*UNREADABLE):  # whoever opens it is told what is wrong with the rest of it
            facts, teaches = found_in(document)
            summary = replace(summary, facts=facts, teaches=teaches)
    rest = {key: value for key, value in document.items() if key not in (SUMMARY, LABEL)}
    written = {SUMMARY: summary.to_record()} | rest | {LABEL: label.to_record()}
    return before, summary, {_SITTING: {"1": written}} | {name: of for name, of in tables.items() if name != _SITTING}


def write_tables(path: Path, tables: Tables) -> None:
    """Replace the file of a sitting, whole or not at all.

    Raises:
        OSError: it could not be written; the old one is whole.
    """
    AtomicJSONStorage(path).write(tables)


def _not_there(path: Path) -> FileNotFoundError:
    return FileNotFoundError(ENOENT, "it is not there, or a link to what is not", str(path))


def _read_document(path: Path) -> Record:
    with TinyDB(path, storage=AtomicJSONStorage) as tables:
        document = tables.table(_SITTING).get(doc_id=1)
    if document is None:
        if not path.exists():
            raise _not_there(path)
        raise ValueError("no sitting in it")
    if isinstance(document, list):
        raise TypeError("more than one sitting in it")
    return record_of(document)


def read_steps(path: Path) -> tuple[StepFigures, ...]:
    """Read the figures of one sitting's steps, without its log and traces where it is as this version writes it.

    Returns:
        every step that was come to, in order; none where nobody could work them out

    Raises:
        FileNotFoundError: there is none.
        NewerFormat: a newer heatbook wrote it.
    """
    size = _TAIL
    with open_regular(path) as file:
        length = file.seek(0, SEEK_END)
        while size < 4 * length:
            file.seek(max(0, length - size))
            _, found, steps = file.read().rpartition(_STEPS)
            if found:
                with suppress(*UNREADABLE):  # then whoever reads it whole says why
                    return steps_from_record(strict_json.raw_decode(steps.decode("ascii", "replace"))[0])
                break
            size *= 4
    figures = read_sitting(path).figures
    return () if figures is None else figures.steps


def check_end(path: Path) -> None:
    """Look at the end of one sitting's file: a file that was cut short has another. Only where it is not as this
    version writes it, the file is read whole, and raises what that does."""
    with open_regular(path) as file:
        file.seek(max(0, file.seek(0, SEEK_END) - len(_ENDS)))
        ends_well = file.read() == _ENDS
    if not ends_well:
        read_sitting(path)


def put_sitting(path: Path, kept: KeptSitting) -> KeptSitting:
    """Write a sitting in one write; what else is in its file, as of a version that knew more keys, stays there.

    Returns:
        the sitting as it is kept now, with the label that it has
    """
    storage = AtomicJSONStorage(path)
    tables = storage.read() or {}
    table = tables.get(_SITTING, {})
    before = record_of(table.get("1", {}))
    if kept.label is None:  # as of one that was gone on with: it is the same sitting
        kept = replace(kept, label=label_of(before) or Label())
    document = to_document(kept)
    # TinyDB's own update would leave the summary where it stood, or put it last.
    first = {SUMMARY: document[SUMMARY]} | {key: before[key] for key in _SAID if key in before}
    more = {key: value for key, value in before.items() if key not in document}
    storage.write(
        {_SITTING: {"1": first | document | more}} | {name: rows for name, rows in tables.items() if name != _SITTING}
    )
    return kept


def tables_of(kept: KeptSitting) -> Tables:
    """What the file of a sitting holds that nobody has written yet."""
    return {_SITTING: {"1": to_document(kept)}}
