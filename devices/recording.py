"""A recording made by any logger, read row by row as if the probe spoke and the smith with it.

The file is CSV with a line of headings first. Two columns count, in any order: `seconds`, the logger's own clock from
any zero, and `celsius` or `fahrenheit`; a third, `word`, may hold what the smith said then. All other columns are
passed over. Between the columns stands a comma, or a semicolon; with semicolons the decimal point may be a comma.

A column `celsius` in which one reading after the other is hotter than any forge is taken for degF, and refused.

A sitting that was exported as CSV is a recording too. It is known by its column `skin_celsius`: rows with neither a
temperature nor a word tell there what came of the others, and only let time pass.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator
from io import TextIOWrapper
from itertools import chain
from pathlib import Path
from typing import TextIO

from devices.errors import DeviceError
from devices.profile import Unit
from devices.text import to_number
from plans.reading import Reading
from plans.record import record
from plans.regular import NoOrdinaryFileError, open_regular
from plans.sitting import Said, Tick, WordError, parse_word
from plans.text import clean
from plans.units import ZERO_CELSIUS, celsius, in_both, kelvin

Entry = Reading | Said | Tick
"""What a row of a recording can mean: a reading, a word of the smith, or only that time passed."""

_LONGEST_LINE = 10_000
_LONGEST_GAP = 86_400.0
"""No sitting has a longer one [s]."""
_HOTTEST = 5000.0 + ZERO_CELSIUS
"""No logger means a temperature above this [K]: it is a sentinel."""
_FORGE = 1500.0
"""No forge makes steel as hot as this: it melts there, or little above [degC]."""
_HOT = kelvin(_FORGE) - 1.0
"""Only from here on need it be looked at whether it is too hot [K]."""
_TOO_MANY = 5
"""So many readings above that, one after the other, are no spikes; a figure that stays the same is a sentinel."""
_LIKE_A_NUMBER = re.compile(r"[-+]?[.,]?[0-9]")
_HEADINGS = "The first line must name the columns: seconds,celsius or seconds,celsius,word; fahrenheit will do as well."
_UNITS = {"celsius": Unit.CELSIUS, "fahrenheit": Unit.FAHRENHEIT}
"""The columns that may hold the temperature, one of them."""


def read_recording(path: Path) -> Iterator[Entry]:
    """What a recording holds, in order, read from the file as it is asked for; times count from its first row [s].

    A row is a reading, or a word, or a reading and then a word. An empty temperature is a reading with the fault
    "missing", unless the row has a word; a word in its place ("open", "err") is a fault of that name. In a sitting that
    heatbook exported, a row with neither is a tick.

    The file is opened and its first row read at once, so that a wrong file is told before anything begins.

    Raises:
        DeviceError: the file can't be read, or a row in it is wrong; the text names file and line. For rows after the
            first this comes from the iterator.
    """
    rows = _rows(path)
    try:
        first = next(rows)
    except StopIteration:
        raise DeviceError(str(path), "there are no rows in it", "Give a recording that has some.") from None
    return chain([first], rows)


@record
class _Columns:
    """Where the columns that count are."""

    delimiter: str
    count: int
    """How many there are in all."""
    seconds: int
    degrees: int
    heading: str
    """Of the column with the temperature."""
    word: int | None
    exported: bool
    """Whether heatbook wrote it: an empty temperature is none that is missing, then."""


def _rows(path: Path) -> Iterator[Entry]:
    try:
        with TextIOWrapper(open_regular(path), encoding="utf-8-sig", errors="replace", newline="") as file:
            yield from _parse(path, file)
    except NoOrdinaryFileError as error:
        do = "Write the recording into a file first: it is read to its end before the sitting begins."
        raise DeviceError(str(path), f"can't be read: {error.strerror}", do) from error
    except OSError as error:
        raise DeviceError(str(path), f"can't be read ({error.strerror})", "Check the path of the recording.") from error


def _parse(path: Path, file: TextIO) -> Iterator[Entry]:
    lines = _lines(path, file)
    columns = _columns(path, next(lines, ""))
    rows = csv.reader(lines, delimiter=columns.delimiter)
    start: float | None = None
    before = 0.0
    hot: list[float] = []
    try:
        for row in rows:
            line = rows.line_num + 1
            if len(row) > columns.count and any(map(str.strip, row[columns.count :])):
                do = "Name all columns in the first line; a decimal comma needs semicolons between the columns."
                raise _wrong(path, line, "there are more columns than headings", do)
            seconds = _number(_cell(row, columns.seconds), columns)
            if seconds is None:
                if not any(map(str.strip, row)):
                    continue
                shown = clean(_cell(row, columns.seconds), 30)
                raise _wrong(path, line, f'seconds is "{shown}", which is no number', "Write seconds as in 12.25.")
            if start is None:
                start = seconds
            elif seconds < before:
                raise _wrong(path, line, f"seconds goes backward, from {before:g} to {seconds:g}", "Sort the rows.")
            elif seconds - before > _LONGEST_GAP:
                do = "Seconds are wanted, not milliseconds; cut the recording in two if the gap is real."
                raise _wrong(path, line, f"seconds jumps by {seconds - before:g}", do)
            before, at = seconds, seconds - start
            degrees = _cell(row, columns.degrees)
            word = "" if columns.word is None else _cell(row, columns.word)
            if degrees or not (word or columns.exported):
                reading = _reading(path, line, degrees, columns, at)
                if reading.kelvin is not None and (hot or reading.kelvin > _HOT):
                    _check_degrees(path, line, columns, celsius(reading.kelvin), hot)
                yield reading
            elif not word:
                yield Tick(at)
            if word:
                yield _said(path, line, word, at)
    except csv.Error as error:
        raise _wrong(path, rows.line_num + 1, clean(str(error)), "Look for a quote that is not closed.") from error


def _lines(path: Path, file: TextIO) -> Iterator[str]:
    """The lines, none of them so long that it fills the memory."""
    number = 0
    while line := file.readline(_LONGEST_LINE):
        number += 1
        if len(line) == _LONGEST_LINE:
            raise _wrong(path, number, "the line is far too long", "Give a CSV file.")
        yield line


def _columns(path: Path, heading: str) -> _Columns:
    delimiter = ";" if ";" in heading else ","
    names = [name.strip().lower() for name in next(csv.reader([heading], delimiter=delimiter), [])]
    if "seconds" not in names:
        raise _wrong(path, 1, "there is no column seconds", _HEADINGS)
    units = [name for name in _UNITS if name in names]
    if not units:
        raise _wrong(path, 1, "there is no column celsius", _HEADINGS)
    if len(units) > 1:
        raise _wrong(path, 1, "there are both a column celsius and a column fahrenheit", "Leave one of them out.")
    for name in ("seconds", *units, "word"):
        if names.count(name) > 1:
            raise _wrong(path, 1, f"there is more than one column {name}", _HEADINGS)
    word = names.index("word") if "word" in names else None
    degrees, exported = names.index(units[0]), "skin_celsius" in names
    return _Columns(delimiter, len(names), names.index("seconds"), degrees, units[0], word, exported)


def _said(path: Path, line: int, word: str, at: float) -> Said:
    try:
        return parse_word(word, at)
    except WordError as error:
        raise _wrong(path, line, str(error), "Mend the word.") from error


def _reading(path: Path, line: int, celsius: str, columns: _Columns, at: float) -> Reading:
    number = _number(celsius, columns)
    if number is None:
        if celsius.lower() in ("", "nan", "-nan", "null", "none"):
            return Reading(at, None, "missing")
        shown = clean(celsius, 30)
        if _LIKE_A_NUMBER.match(celsius):
            do = f"Write {columns.heading} as in 1023.5; a decimal comma needs semicolons between the columns."
            raise _wrong(path, line, f'{columns.heading} is "{shown}", which is no number', do)
        return Reading(at, None, shown)
    kelvin = _UNITS[columns.heading].to_kelvin(number)
    if not 0 <= kelvin <= _HOTTEST:
        return Reading(at, None, "out of range")
    return Reading(at, kelvin)


def _check_degrees(path: Path, line: int, columns: _Columns, degrees: float, hot: list[float]) -> None:
    """Refuse a column in which one reading after the other is hotter than a forge; `hot` has those before [degC]."""
    if columns.exported:
        return
    if degrees <= _FORGE:
        hot.clear()
    elif not hot or degrees != hot[-1]:
        hot.append(degrees)
    if len(hot) < _TOO_MANY:
        return
    is_celsius = columns.heading == "celsius"
    do = "Is the column in degF? Then name it fahrenheit." if is_celsius else "Look up what the column is in."
    raise _wrong(path, line, f"{in_both(kelvin(degrees))} is hotter than any forge", do)


def _cell(row: list[str], index: int) -> str:
    return row[index].strip() if index < len(row) else ""


def _number(text: str, columns: _Columns) -> float | None:
    if columns.delimiter == ";" and "." not in text:
        text = text.replace(",", ".")
    return to_number(text)


def _wrong(path: Path, line: int, what: str, do: str) -> DeviceError:
    return DeviceError(f"{path}:{line}", what, do)
