"""The lessons of all sittings in one file beside the index, so that nobody need open a thousand for those of a step.

A row for each sitting that was looked at, those without lessons too; it holds as long as the sitting's file has the
size and the time that it had. A checksum goes with them: a letter that is changed would be another lesson, and nobody
would know. What a corrupt file raises is one of `UNREADABLE` in `plans.logbook.disk`.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final
from zlib import crc32

from plans.logbook.afterwards import SittingLessons, lessons_from_record, lessons_record
from plans.logbook.disk import AtomicJSONStorage, to_json
from plans.record import record
from plans.record_values import Record, list_of, record_of, text_of

_LESSONS: Final = "lessons"
_CHECK: Final = "check"

Signature = tuple[int, int]
"""Size of a sitting's file, and when it was written [ns]."""


@record
class LookedAt:
    """What was found in the file of one sitting."""

    signature: Signature
    """The file as it was then."""
    lessons: SittingLessons | None
    """Its lessons; None where it has none."""


def read_lessons(path: Path) -> dict[str, LookedAt]:
    """What was found in each sitting's file, by the sitting's id; empty where there is no file yet."""
    tables = AtomicJSONStorage(path).read()
    if tables is None:
        return {}
    rows = record_of(tables[_LESSONS])
    if tables[_CHECK] != _check(rows):
        raise ValueError("it is not what was written")
    return {text_of(row["sitting"]): _looked_at(row) for row in rows.values()}


def write_lessons(path: Path, found: Mapping[str, LookedAt]) -> None:
    """Replace the whole file in one write.

    Raises:
        OSError: it could not be written.
    """
    rows = {str(number): _row(name, one) for number, (name, one) in enumerate(found.items(), start=1)}
    AtomicJSONStorage(path).write({_LESSONS: rows, _CHECK: _check(rows)})


def _check(rows: Record) -> Record:
    return {"1": {"crc32": crc32(to_json(rows))}}


def _row(name: str, one: LookedAt) -> dict[str, Any]:
    return {"sitting": name, "file": list(one.signature)} | ({} if one.lessons is None else lessons_record(one.lessons))


def _looked_at(row: dict[str, Any]) -> LookedAt:
    size, written = (int(number) for number in list_of(row["file"]))
    return LookedAt((size, written), lessons_from_record(row) if "schema" in row else None)
