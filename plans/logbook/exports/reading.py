"""A sitting read from its document again, as another heatbook wrote it out: checked as the file of any sitting is."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any, Final

from plans.logbook.archive import read_whole_file
from plans.logbook.disk import UNREADABLE, strict_json, to_json
from plans.logbook.document import from_document
from plans.logbook.errors import LogbookError, reason, shown
from plans.logbook.header import FORMAT, NewerFormat
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.names import is_id
from plans.logbook.sitting_files import read_sitting, tables_of
from plans.logbook.trace_segments import encode
from plans.record_values import HOTTEST, Record, count_of, list_of, record_of, records_of, seconds_of, text_of
from plans.text import clean
from plans.trace import Trace
from plans.units import kelvin

_VERSION: Final = "heatbook_sitting"
_MODELLED: Final = ("skin", "middle")


def read_exported(path: Path) -> tuple[KeptSitting, bytes]:
    """A sitting of another heatbook, in a file of its logbook or written out as JSON.

    Returns:
        the sitting, and what a file of the logbook holds of it

    Raises:
        LogbookError: it can't be read, holds no sitting, or calls it what no sitting is called.
    """
    try:
        data = read_whole_file(path)
        value = record_of(strict_json.decode(data.decode("utf-8")))
        exported = _VERSION in value
        kept = from_exported(value) if exported else read_sitting(path)
        if not is_id(kept.header.id):
            raise LogbookError(
                f"{shown(path)} calls its sitting {clean(kept.header.id)!r}, which is no id of one: it leads "
                "elsewhere, or was changed by hand; nothing of it is taken"
            )
        return kept, to_json(tables_of(kept)) if exported else data
    except NewerFormat:
        raise LogbookError(f"{shown(path)} was written by a newer heatbook; take it in with that one") from None
    except OSError as error:
        raise LogbookError(f"{shown(path)} can't be read: {reason(error)}") from None
    except UNREADABLE:
        raise LogbookError(
            f"{shown(path)} holds no sitting that can be read: it is damaged, not copied whole, or something else"
        ) from None


def from_exported(value: Record) -> KeptSitting:
    """The sitting of a JSON object that `heatbook log export --to json` wrote.

    Temperatures are to the tenth of a degree there, as they are in the logbook.

    Raises:
        NewerFormat: a newer heatbook wrote it.
        ValueError, KeyError, TypeError, AttributeError, OverflowError: it is no sitting.
    """
    if count_of(value[_VERSION], 1, 10**9) > 1:
        raise NewerFormat
    faults = {seconds_of(one["at_seconds"]): text_of(one["fault"]) for one in records_of(value["measured_faults"])}
    return from_document(
        # Whatever else there is has the same key and the same form in the logbook.
        value
        | {
            "heatbook": FORMAT,
            "plan": {"name": value["plan"], "title": value["title"], "source": value["plan_source"]},
            "measured": encode(_trace(value["measured_seconds_celsius"], faults)),
            "modelled": {part: encode(_trace(value[f"modelled_{part}_seconds_celsius"])) for part in _MODELLED},
            "figures": value if "steps" in value else {},
        }
    )


def _trace(points: object, faults: dict[float, str] | None = None) -> Trace:
    trace = Trace()
    for at, celsius in _points(list_of(points)):
        trace.append(at, None if celsius is None else kelvin(celsius), (faults or {}).get(at))
    return trace


def _points(points: Iterable[Any]) -> Iterable[tuple[float, float | None]]:
    for point in points:
        at, celsius = list_of(point)
        if celsius is not None and not abs(float(celsius)) <= HOTTEST:
            raise ValueError("a temperature of the trace is none")
        yield seconds_of(at), None if celsius is None else float(celsius)
