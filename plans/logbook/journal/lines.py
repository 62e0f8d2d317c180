"""The lines of a journal: one JSON value each, a checksum, what is told, and its number: `["1a2b3c4d",{...},7]`.

The first line tells the header and has no number; those behind it count from 1, so that a line which stands there twice
is told from two that say the same. An event is an object, as `event_to_record` of `plans.sitting` makes it. A reading
is a list: milliseconds since the sitting began, tenths of a degree Celsius or null, and its fault where it has one; the
header says so under `readings`.

The checksum is CRC-32 as `zlib.crc32` has it, of the bytes between its comma and the last bracket, in eight
hexadecimal digits: one wrong digit in a line, or any other stretch of up to four bytes, never goes unseen. Journals of
the first versions have lines that tell the same without a number, or without checksum and number; those begin with
another character, and both are read still.
"""

from __future__ import annotations

from typing import Any, Final
from zlib import crc32

from plans.logbook import header as headers
from plans.logbook.disk import UNREADABLE, strict_json, to_json
from plans.logbook.header import Header
from plans.reading import Reading
from plans.record_values import HOTTEST, LATEST, count_of, list_of, text_of
from plans.sitting import Entry, event_from_record, event_to_record
from plans.trace import from_tenths, to_tenths

_HOTTEST_TENTHS: Final = round(10 * HOTTEST)
_READINGS: Final = ["milliseconds", "celsius_tenths", "fault"]
_BEGIN: Final = b'["'
"""How a line begins that has a checksum, and none that has none."""
_TOLD: Final = slice(len('["1a2b3c4d",'), -len("]\n"))
"""Where what is told stands in a line that has one, and its number."""
_MOST: Final = 2**48
"""More lines no journal has."""


def header_line(header: Header) -> bytes:
    """The first line of a journal, with its end."""
    return _checked(to_json(headers.to_record(header) | {"readings": _READINGS}))


def entry_line(entry: Entry, number: int) -> bytes:
    """The line of an event or a reading, with its end.

    Args:
        entry: what it tells
        number: how many entries the journal has with it

    Raises:
        ValueError: a time or a temperature is not finite.
    """
    told: Any
    if isinstance(entry, Reading):
        told = [round(entry.at * 1000), None if entry.kelvin is None else to_tenths(entry.kelvin)]
        if entry.fault is not None:
            told.append(entry.fault)
    else:
        told = event_to_record(entry)
    return _checked(b"%s,%d" % (to_json(told), number))


def header_of(line: bytes) -> tuple[Header, bool]:
    """The header that `header_line` made a line of, and whether the line is as it was written, as far as one can tell.

    Raises:
        NewerFormat: a newer heatbook wrote it.
        UNREADABLE: it is none, or its end is missing.
    """
    if not line.endswith(b"\n"):
        raise ValueError("no whole header")
    told = _told(line)
    if told is not None and line.startswith((_BEGIN, b"{")):
        return headers.from_record(_decoded(told)), True
    # Whatever has become of the checksum in front. The version may be what is wrong, too: a newer heatbook's line would
    # be as it was written.
    record = _decoded(line[line.find(b"{") : line.rfind(b"}") + 1])
    return headers.from_record(record | {"heatbook": headers.FORMAT}), False


def is_event(line: bytes) -> bool:
    """Whether a line tells of an event, by how it begins: for whoever passes over readings."""
    return line.startswith(b"{", _TOLD.start if line.startswith(_BEGIN) else 0)


def is_torn(line: bytes) -> bool:
    """Whether a line is the mere beginning of one, as a crash leaves it: nothing had relied on it."""
    text = line.decode("latin-1")
    if not (text.isprintable() and text.startswith(("[", "{"))):
        return False
    try:
        strict_json.raw_decode(text)
    except UNREADABLE:
        return True
    return False  # it is whole, and wrong


def entry_of(line: bytes) -> tuple[Entry, int | None]:
    """The event or reading that `entry_line` made a line of; its end may be missing, where nothing else is.

    Returns:
        the entry, and the number of its line; None where it has none

    Raises:
        UNREADABLE: it is none, or not as it was written.
    """
    told = _told(line)
    if told is None:
        raise ValueError("not as it was written")
    if not line.startswith(_BEGIN):
        return _entry(_decoded(told)), None
    record, *numbers = _decoded(b"[%s]" % told)
    if len(numbers) > 1:
        raise ValueError("no entry")
    return _entry(record), count_of(numbers[0], 1, _MOST) if numbers else None


def _entry(record: object) -> Entry:
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


def _checked(told: bytes) -> bytes:
    return b'["%08x",%s]\n' % (crc32(told), told)


def _told(line: bytes) -> bytes | None:
    """What a line tells, as JSON, with its number behind a comma; None where it is not as it was written."""
    if not line.startswith(_BEGIN):
        return line
    line = line.removesuffix(b"\n") + b"\n"
    told = line[_TOLD]
    return told if _checked(told) == line else None


def _decoded(told: bytes) -> Any:
    return strict_json.decode(told.decode("utf-8"))
