"""The index of the logbook, a TinyDB file: a line for each sitting. Opened anew each time, so nothing stale is kept.

What a corrupt file raises is one of `UNREADABLE` in `plans.logbook.whole_files`.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from tinydb import TinyDB, where

from plans.logbook.atomic_json import AtomicJSONStorage
from plans.logbook.summary import Summary

_INDEX = "sittings"


def read_index(path: Path) -> dict[str, Summary]:
    """The summaries of the index by id; empty where there is no file yet."""
    with TinyDB(path, storage=AtomicJSONStorage) as tables:
        rows = map(Summary.from_record, tables.table(_INDEX).all())
        return {summary.id: summary for summary in rows}


def put_in_index(path: Path, summary: Summary) -> None:
    """Add a summary to the index, or replace the one with its id."""
    with TinyDB(path, storage=AtomicJSONStorage) as tables:
        table = tables.table(_INDEX)
        for row in table.all():
            Summary.from_record(row)  # nothing is added to an index that is damaged
        mine = where("id") == summary.id
        # TinyDB's upsert writes twice where there is nothing to update yet.
        if table.contains(mine):
            table.update(summary.to_record(), mine)
        else:
            table.insert(summary.to_record())


def write_index(path: Path, summaries: Iterable[Summary]) -> None:
    """Replace the whole index in one write, which TinyDB's own tables can't."""
    rows = {str(number): summary.to_record() for number, summary in enumerate(summaries, start=1)}
    AtomicJSONStorage(path).write({_INDEX: rows})
