"""The index of the logbook, a TinyDB file: a line for each sitting. Opened anew each time, so nothing stale is kept.

What a corrupt file raises is one of `UNREADABLE` in `plans.logbook.disk`.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Any

from tinydb import TinyDB, where

from plans.logbook.disk import AtomicJSONStorage
from plans.logbook.summary import Summary
from plans.record import record
from plans.record_values import Record, count_of, switch_of

_INDEX = "sittings"
_SIZE, _DAMAGED = "file_bytes", "damaged"
_LARGEST = 1 << 60


@record
class Indexed:
    """What the index has of one sitting."""

    summary: Summary
    """The sitting in one line."""
    size: int | None
    """How large its file was when that was written or looked at; None where nobody has, as in an index of an earlier
    version [bytes]."""


def read_index(path: Path) -> dict[str, Indexed]:
    """What the index has, by id; empty where there is no file yet."""
    with TinyDB(path, storage=AtomicJSONStorage) as tables:
        return {row["id"]: _from_record(row) for row in tables.table(_INDEX).all()}


def put_in_index(path: Path, one: Indexed) -> None:
    """Add a sitting to the index, or replace the one with its id."""
    with TinyDB(path, storage=AtomicJSONStorage) as tables:
        table = tables.table(_INDEX)
        for row in table.all():
            _from_record(row)  # nothing is added to an index that is damaged
        mine = where("id") == one.summary.id
        # TinyDB's upsert writes twice where there is nothing to update yet.
        if table.contains(mine):
            table.update(_to_record(one), mine)
        else:
            table.insert(_to_record(one))


def write_index(path: Path, sittings: Iterable[Indexed]) -> None:
    """Replace the whole index in one write, which TinyDB's own tables can't."""
    rows = {str(number): _to_record(one) for number, one in enumerate(sittings, start=1)}
    AtomicJSONStorage(path).write({_INDEX: rows})


def _to_record(one: Indexed) -> dict[str, Any]:
    return one.summary.to_record() | {_SIZE: one.size, _DAMAGED: one.summary.damaged}


def _from_record(row: Record) -> Indexed:
    summary, size = Summary.from_record(row), row.get(_SIZE)
    if switch_of(row.get(_DAMAGED, False)):
        summary = replace(summary, damaged=True)
    return Indexed(summary, None if size is None else count_of(size, 0, _LARGEST))
