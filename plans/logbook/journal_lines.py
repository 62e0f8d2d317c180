"""The lines of a journal: one JSON value each.

The first line is the header. An event is an object, as `plans.sitting.events.to_record` makes it. A reading is a list:
milliseconds since the sitting began, tenths of a degree Celsius or null, and its fault where it has one; the header
says so under `readings`.
"""

from __future__ import annotations

from typing import Any, Final

from plans.logbook import header as headers
from plans.logbook.header import Header
from plans.logbook.whole_files import strict_json, to_json
from plans.reading import Reading
from plans.record_values import HOTTEST, LATEST, count_of, list_of, text_of
from plans.sitting import Entry, event_from_record, event_to_record
from plans.trace import from_tenths, to_tenths

_HOTTEST_TENTHS: Final = round(10 * HOTTEST)
_READINGS: Final = ["milliseconds", "celsius_tenths", "fault"]


def header_line(header: Header) -> bytes:
    """The first line of a journal, with its end."""
    return to_json(headers.to_record(header) | {"readings": _READINGS}) + b"\n"


def entry_line(entry: Entry) -> bytes:
    """The line of an event or a reading, with its end.

    Raises:
        ValueError: a time or a temperature is not finite.
    """
    if not isinstance(entry, Reading):
        return to_json(event_to_record(entry)) + b"\n"
    at = round(entry.at * 1000)
    tenths = None if entry.kelvin is None else to_tenths(entry.kelvin)
    return to_json([at, tenths] if entry.fault is None else [at, tenths, entry.fault]) + b"\n"


def header_of(line: bytes) -> Header:
    """The header that `header_line` made a line of.

    Raises:
        NewerFormat: a newer heatbook wrote it.
        UNREADABLE: it is none, or its end is missing.
    """
    if not line.endswith(b"\n"):
        raise ValueError("no whole header")
    return headers.from_record(_decoded(line))


def entry_of(line: bytes) -> Entry:
    """The event or reading that `entry_line` made a line of.

    Raises:
        UNREADABLE: it is none.
    """
    record = _decoded(line)
    if isinstance(record, dict):
        return event_from_record(record)
    at, tenths, *rest = list_of(record)
    if len(rest) > 1:
        raise ValueError("no reading")
    return Reading(
        count_of(at, 0, round(1000 * LATEST)) / 1000,
        None if tenths is None else from_tenths(count_of(tenths, -_HOTTEST_TENTHS, _HOTTEST_TENTHS)),
        text_of(rest[0]) if rest else None,
    )


def _decoded(line: bytes) -> Any:
    return strict_json.decode(line.decode("utf-8"))
