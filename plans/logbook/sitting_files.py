"""The TinyDB files of the sittings. Opened anew each time, so nothing stale is ever kept.

What a corrupt file raises is one of `UNREADABLE` in `plans.logbook.whole_files`.
"""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from tinydb import TinyDB

from plans.logbook.atomic_json import AtomicJSONStorage
from plans.logbook.document import SUMMARY, from_document, to_document
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.summary import Summary
from plans.logbook.whole_files import UNREADABLE, strict_json
from plans.record_values import record_of
from plans.regular import open_regular

_SITTING = "sitting"
_BEGINS = f'{{"{_SITTING}":{{"1":{{"{SUMMARY}":'.encode()
"""How the file of a sitting begins that has its summary first."""
_HEAD = 4096
"""Bytes that are read for it; a longer one, of a title without end, is read with the rest."""


def read_summary(path: Path) -> Summary:
    """Read one sitting's summary: from the head of its file, or, as first versions wrote none, from the whole of it.

    Raises:
        FileNotFoundError: there is none.
        NewerFormat: a newer heatbook wrote it.
    """
    with open_regular(path) as file:
        head = file.read(_HEAD)
    if head.startswith(_BEGINS):
        # The end may lie within a character, but not within the summary, which is ASCII.
        with suppress(*UNREADABLE):  # then the rest may be whole
            record, _ = strict_json.raw_decode(head.decode("ascii", "replace"), len(_BEGINS))
            return Summary.from_record(record)
    return read_sitting(path).summary


def read_sitting(path: Path) -> KeptSitting:
    """Read the file of one sitting, and check it whole.

    Raises:
        FileNotFoundError: there is none.
        NewerFormat: a newer heatbook wrote it.
    """
    with TinyDB(path, storage=AtomicJSONStorage) as tables:
        document = tables.table(_SITTING).get(doc_id=1)
    if document is None:
        if not path.exists():
            raise FileNotFoundError(path)
        raise ValueError("no sitting in it")
    if isinstance(document, list):
        raise TypeError("more than one sitting in it")
    return from_document(document)


def put_sitting(path: Path, kept: KeptSitting) -> None:
    """Write a sitting in one write; what else is in its file, as of a version that knew more keys, stays there."""
    storage = AtomicJSONStorage(path)
    tables = storage.read() or {}
    table = tables.get(_SITTING, {})
    document = to_document(kept)
    before = record_of(table.get("1", {}))
    # TinyDB's own update would leave the summary where it stood, or put it last.
    more = {key: value for key, value in before.items() if key not in document}
    storage.write(
        {_SITTING: {"1": document | more}} | {name: rows for name, rows in tables.items() if name != _SITTING}
    )
