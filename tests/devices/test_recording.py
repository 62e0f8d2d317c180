"""Recordings of other loggers."""

from __future__ import annotations

import itertools
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from devices.errors import DeviceError
from devices.recording import Entry, read_recording
from plans.reading import Reading
from plans.sitting.events import Said, Tick, Word

Read = Callable[[str], list[Entry]]


@pytest.fixture
def read(tmp_path: Path) -> Read:
    def read(text: str) -> list[Entry]:
        path = tmp_path / "fire.csv"
        path.write_bytes(text.encode())
        return list(read_recording(path))

    return read


def at_kelvin(at: float, celsius: float) -> Reading:
    kelvin: Any = pytest.approx(celsius + 273.15)
    return Reading(at, kelvin)


def test_readings_and_words(read: Read) -> None:
    assert read("seconds,celsius,word\n0,20.5,next\n0.25,21,\n0.5,,out\n0.75,,\n1,22,note bright\n") == [
        at_kelvin(0, 20.5),
        Said(0, Word.NEXT),
        at_kelvin(0.25, 21),
        Said(0.5, Word.OUT),
        Reading(0.75, None, "missing"),
        at_kelvin(1, 22),
        Said(1, Word.NOTE, "bright"),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "seconds,celsius\n100,1000.5\n101.5,990\n",
        "\ufeffseconds,celsius\r\n100,1000.5\r\n101.5,990\r\n",
        "celsius,seconds\n1000.5,100\n990,101.5\n",
        " Seconds , CELSIUS \n100, 1000.5\n 101.5,990\n",
        "n,seconds,flow °C,celsius\n1,100,x,1000.5\n2,101.5,y,990\n",
        "seconds;celsius\n100;1000,5\n101,5;990\n",
        "seconds;celsius\n100;1000.5\n101.5;990",
        '"seconds","celsius"\n"100","1000.5"\n"101.5","990"\n',
        "seconds,celsius\n100,1.0005e3\n\n1.015E2,990\n,,\n",
        "seconds,celsius\n100,1000.5,,\n101.5,990,\n",
    ],
)
def test_forms_of_the_same_recording(read: Read, text: str) -> None:
    assert read(text) == [at_kelvin(0, 1000.5), at_kelvin(1.5, 990)]


@pytest.mark.parametrize(
    ("cell", "fault"),
    [
        ("", "missing"),
        ("NaN", "missing"),
        ("null", "missing"),
        ("open", "open"),
        ("---", "---"),
        ("-inf", "-inf"),
        ("9999.9e5", "out of range"),
        ("-300", "out of range"),
        ("\x1b[2J", "?[2J"),
    ],
)
def test_what_stands_for_no_temperature(read: Read, cell: str, fault: str) -> None:
    assert read(f"seconds,celsius\n0,20\n1,{cell}\n")[1:] == [Reading(1, None, fault)]


def test_a_row_may_be_short_and_times_may_be_the_same(read: Read) -> None:
    assert read("seconds,celsius,word\n5,20\n5\n5,,undo\n") == [
        at_kelvin(0, 20),
        Reading(0, None, "missing"),
        Said(0, Word.UNDO),
    ]


def test_a_sitting_that_was_exported_lets_time_pass_where_nothing_was_said(read: Read) -> None:
    head = "seconds,celsius,word,step,heat,phase,call,skin_celsius,middle_celsius\n"
    assert read(
        head + "0,,,1,1,ready,,,\n1,20,,1,1,fire,,20,20\n2,missing,,1,1,fire,,20,20\n3,,out,1,1,fire,,9,9\n"
    ) == [
        Tick(0),
        at_kelvin(1, 20),
        Reading(2, None, "missing"),
        Said(3, Word.OUT),
    ]


def test_any_zero_will_do(read: Read) -> None:
    assert [entry.at for entry in read("seconds,celsius\n-3,20\n-1.5,20\n2,20\n")] == [0, 1.5, 5]


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ("", 1, "seconds"),
        ("seconds,temp\n1,2\n", 1, "celsius"),
        ("1,2\n3,4\n", 1, "seconds"),
        ("seconds,celsius,seconds\n1,2,3\n", 1, "more than one"),
        ("seconds,celsius,word,word\n1,2,,\n", 1, "more than one"),
        ("seconds,celsius\n1,20\n0.9,20\n", 3, "backward"),
        ("seconds,celsius\n\n\n1,20\nabc,20\n", 5, "abc"),
        ("seconds,celsius\n1,20\n,20\n", 3, "seconds"),
        ("seconds,celsius\n1,20\nnan,20\n", 3, "nan"),
        ("seconds,celsius\n1,20\n1e999,20\n", 3, "1e999"),
        ("seconds,celsius\n1,20\n2,20.5C\n", 3, "20.5C"),
        ('seconds,celsius\n1,20\n2,"20,5"\n', 3, "semicolons"),
        ("seconds,celsius\n1,20\n2,20,5\n", 3, "semicolons"),
        ("seconds,celsius,word\n1,20,\n2,20,nxt\n", 3, "nxt"),
        ("seconds,celsius,word\n1,20,\n2,20,note\n", 3, "note"),
        ("seconds,celsius\n1,20\n2," + "9" * 20_000 + "\n", 3, "too long"),
    ],
)
def test_what_is_wrong_is_told_with_its_line(read: Read, tmp_path: Path, text: str, line: int, says: str) -> None:
    with pytest.raises(DeviceError) as caught:
        read(text)
    assert str(caught.value).startswith(f"{tmp_path / 'fire.csv'}:{line}: ")
    assert says in str(caught.value)
    assert str(caught.value).isprintable()


def test_no_rows_no_file_a_folder(read: Read, tmp_path: Path) -> None:
    with pytest.raises(DeviceError, match="no rows"):
        read("seconds,celsius\n")
    with pytest.raises(DeviceError, match=r"absent\.csv: can't be read"):
        read_recording(tmp_path / "absent.csv")
    with pytest.raises(DeviceError, match="can't be read: it is a folder"):
        read_recording(tmp_path)
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(DeviceError, match=r"it is a pipe, no ordinary file\. Write the recording into a file first"):
        read_recording(tmp_path / "pipe")


def test_an_unclosed_quote_ends_in_an_error(read: Read) -> None:
    with pytest.raises(DeviceError, match="quote"):
        read('seconds,celsius\n1,20\n2,"' + "\n3,20" * 50_000)


def test_a_wrong_first_row_is_told_before_anything_is_taken(tmp_path: Path) -> None:
    path = tmp_path / "fire.csv"
    path.write_text("seconds,celsius\nx,20\n")
    with pytest.raises(DeviceError):
        read_recording(path)


def test_rows_are_read_as_they_are_asked_for(tmp_path: Path) -> None:
    path = tmp_path / "fire.csv"
    path.write_text("seconds,celsius\n" + "".join(f"{n},{20 + n}\n" for n in range(10_000)) + "wrong\n")
    assert list(itertools.islice(read_recording(path), 3)) == [at_kelvin(n, 20 + n) for n in range(3)]


def test_a_column_in_fahrenheit(read: Read) -> None:
    """1650 degF are 898.9 degC: (1650 - 32) / 1.8."""
    assert read("seconds,fahrenheit\n0,68\n1,1650\n2,\n") == [
        at_kelvin(0, 20.0),
        at_kelvin(1, 1618 / 1.8),
        Reading(2.0, None, "missing"),
    ]
    with pytest.raises(DeviceError, match=r'3: fahrenheit is "1\.6\.5"'):
        read("seconds,fahrenheit\n0,68\n1,1.6.5\n")
    with pytest.raises(DeviceError, match="both a column celsius and a column fahrenheit"):
        read("seconds,celsius,fahrenheit\n0,20,68\n")


def test_degrees_fahrenheit_in_the_column_celsius_are_refused(read: Read) -> None:
    """A normalizing heat of 900 degC as a logger in degF has it, up to 1652."""
    rows = "".join(f"{at},{min(1652.0, 900.0 + 30 * at):.1f}\n" for at in range(26))
    # 1530 at 21 s is the first above 1500 and the fifth of those stands in line 27.
    said = r"csv:27: 1650 degC \(3002 degF\) is hotter than any forge. Is the column in degF\?"
    with pytest.raises(DeviceError, match=said):
        read("seconds,celsius\n" + rows)


@pytest.mark.parametrize("cells", [["1600", "1610", "1620", "1630", "900"], ["1768"] * 100, ["900", "1700"] * 50])
def test_spikes_and_a_sentinel_are_not_taken_for_degrees_fahrenheit(read: Read, cells: list[str]) -> None:
    assert len(read("seconds,celsius\n" + "".join(f"{at},{cell}\n" for at, cell in enumerate(cells)))) == len(cells)
