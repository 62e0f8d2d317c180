"""Profiles: those that ship, the smith's own, and what is told of broken ones."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

import pytest

from devices.decode import Decoder
from devices.errors import DeviceError
from devices.profile import Profile, Unit
from devices.profile_reader import find_profile, profile_names, read_profile

SHIPPED = ["bare-celsius", "bare-fahrenheit", "labelled", "second-column", "stamped"]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    folder = tmp_path / "profiles"
    folder.mkdir()
    return folder


def write(folder: Path, text: str, name: str = "mine") -> Path:
    path = folder / f"{name}.toml"
    path.write_text(text)
    return path


def test_the_profiles_that_ship() -> None:
    assert profile_names() == SHIPPED
    for name in SHIPPED:
        profile = find_profile(name)
        assert profile.name == name
        assert profile.title
        assert Decoder(profile).decode(profile.example.encode()).kelvin is not None


@pytest.mark.parametrize(
    ("name", "line", "celsius"),
    [
        ("bare-celsius", b"1023,5", 1023.5),
        ("bare-fahrenheit", b"2282", 1250),
        ("labelled", b"t: 125.745 C", 125.745),
        ("second-column", b"21.5,1023.5", 1023.5),
        ("second-column", b"21.5, 1023.5, 22.0", 1023.5),
        ("stamped", b"12.25;1023.5", 1023.5),
    ],
)
def test_what_they_read(name: str, line: bytes, celsius: float) -> None:
    assert Decoder(find_profile(name)).decode(line).kelvin == pytest.approx(celsius + 273.15)


def test_every_key_can_be_set(folder: Path) -> None:
    path = write(
        folder,
        """
        title = "A probe of my own"
        kind = "text"
        baud = 19200
        bytesize = 7
        parity = "even"
        stopbits = 2
        unit = "degF"
        pattern = ["T {value}", "T {value} F"]
        decimal_comma = true
        lowest = "0 degC"
        highest = "2500 degF"
        jump = "180 degF"
        silence = "1.5 min"
        skip_first = false
        example = "T 1874,3 F"
        [faults]
        OL = "open circuit"
        "-1" = "no probe"
        """,
    )
    about: Any = pytest.approx
    assert read_profile(path) == Profile(
        name="mine",
        title="A probe of my own",
        unit=Unit.FAHRENHEIT,
        baud=19200,
        bytesize=7,
        parity="even",
        stopbits=2,
        pattern=("T {value}", "T {value} F"),
        decimal_comma=True,
        lowest=273.15,
        highest=about(1644.2611),
        jump=about(100.0),
        faults=(("OL", "open circuit"), ("-1", "no probe")),
        silence=90,
        skip_first=False,
        example="T 1874,3 F",
    )


def test_a_short_profile_has_the_usual_settings(folder: Path) -> None:
    profile = read_profile(write(folder, 'title = "t"\nunit = "K"\n'))
    assert (profile.baud, profile.bytesize, profile.parity, profile.stopbits) == (9600, 8, "none", 1)
    assert (profile.silence, profile.skip_first, profile.decimal_comma) == (5, True, True)


def test_a_decimal_comma_is_taken_only_where_nothing_else_can_be_meant(folder: Path) -> None:
    assert not read_profile(write(folder, 'title = "t"\nunit = "K"\npattern = "{value},{skip}"\n')).decimal_comma


def test_the_smiths_own_folder(folder: Path) -> None:
    path = write(folder, 'title = "Mine"\nunit = "degC"\n', "bench")
    write(folder, 'title = "Better labelled"\nunit = "degC"\n', "labelled")
    assert profile_names(folder) == ["bare-celsius", "bare-fahrenheit", "bench", "labelled", "second-column", "stamped"]
    assert find_profile("bench", folder).title == "Mine"
    assert find_profile("labelled", folder).title == "Better labelled"
    assert find_profile(str(path)) == find_profile("bench", folder)
    assert profile_names(folder / "absent") == SHIPPED


def test_an_unknown_name_is_told_all_names(folder: Path) -> None:
    write(folder, 'title = "Mine"\nunit = "degC"\n', "bench")
    with pytest.raises(DeviceError) as caught:
        find_profile("labeled", folder)
    for name in [*SHIPPED, "bench", "labeled"]:
        assert name in str(caught.value)


@pytest.mark.parametrize(
    ("text", "key", "says"),
    [
        ('unit = "degC"', "title", "missing"),
        ('title = ""\nunit = "degC"', "title", "text in quotes"),
        ('title = 5\nunit = "degC"', "title", "text in quotes"),
        ('title = "a\\u001bb"\nunit = "degC"', "title", "control characters"),
        ('title = "t"', "unit", "missing"),
        ('title = "t"\nunit = "C"', "unit", "degC, degF, K"),
        ('kind = "scpi"', "kind", "text"),
        ("speed = 9600", "speed", "no such key"),
        ('name = "x"', "name", "no such key"),
        ('"\\u001b" = 1', "?", "no such key"),
        ("baud = 0", "baud", "whole number"),
        ('baud = "9600"', "baud", "without quotes"),
        ("baud = true", "baud", "whole number"),
        ("baud = 9600.0", "baud", "whole number"),
        ("bytesize = 9", "bytesize", "from 5 to 8"),
        ('parity = "N"', "parity", "none, even, odd"),
        ("stopbits = 3", "stopbits", "1, 1.5 or 2"),
        ("stopbits = true", "stopbits", "1, 1.5 or 2"),
        ('stopbits = "1"', "stopbits", "without quotes"),
        ('pattern = "t: C"', "pattern", "{value}"),
        ('pattern = "{value"', "pattern", "{"),
        ("pattern = []", "pattern", "empty"),
        ('pattern = ["{value}", "{x}"]', "pattern", "{x}"),
        ("pattern = 5", "pattern", "text in quotes"),
        ('decimal_comma = "yes"', "decimal_comma", "true or false"),
        ("lowest = 20", "lowest", "in quotes"),
        ('lowest = "20"', "lowest", "degC"),
        ('lowest = "20 s"', "lowest", "degC"),
        ('lowest = "-300 degC"', "lowest", "absolute zero"),
        ('lowest = "20 degC"\nhighest = "20 degC"', "highest", "hotter than lowest"),
        ('jump = "0 K"', "jump", "above zero"),
        ('silence = "5"', "silence", "s, min"),
        ("silence = 5", "silence", "in quotes"),
        ('silence = "0 s"', "silence", "half a second"),
        ('silence = "90 min"', "silence", "an hour"),
        ("skip_first = 1", "skip_first", "true or false"),
        ('pattern = "t: {value}"\nexample = "20.5"', "example", "can't read"),
        ('faults = "OL"', "faults", "table"),
        ("[faults]\nOL = 5", "faults", "OL"),
        ('[faults]\n"" = "open"', "faults", "what it means"),
        ('[faults]\nOL = "a\\u001b"', "faults", "OL"),
    ],
)
def test_a_broken_profile_is_told_with_file_line_and_key(folder: Path, text: str, key: str, says: str) -> None:
    whole = text if "unit" in text or "title" in text else f'title = "t"\nunit = "degC"\n{text}'
    path = write(folder, whole)
    with pytest.raises(DeviceError) as caught:
        read_profile(path)
    line = 1 if key == "title" else len(whole.splitlines())
    assert str(caught.value).startswith(f"{path}:{line}: {key}")
    assert says in caught.value.what
    assert str(caught.value).isprintable()


def test_files_that_are_no_profile(folder: Path) -> None:
    with pytest.raises(DeviceError, match=r"absent\.toml: can't be read"):
        read_profile(folder / "absent.toml")
    with pytest.raises(DeviceError, match="can't be read"):
        find_profile(str(write(folder, "") / "below.toml"))
    with pytest.raises(DeviceError, match=r"mine\.toml:2: this is no TOML"):
        read_profile(write(folder, 'title = "t"\nunit = degC\n'))
    with pytest.raises(DeviceError, match="too deep"):
        read_profile(write(folder, "a = " + "[" * 3900))
    with pytest.raises(DeviceError, match=r"mine\.toml:1: the line has more than 4000 characters"):
        read_profile(write(folder, "a = " + "[" * 20_000))
    with pytest.raises(DeviceError, match="too large"):
        read_profile(write(folder, "#" * 200_000))
    (folder / "latin.toml").write_bytes(b'title = "\xb0C"')
    with pytest.raises(DeviceError, match="UTF-8"):
        find_profile(str(folder / "latin.toml"))
    (folder / "wide.toml").write_bytes('title = "t"'.encode("utf-16"))
    with pytest.raises(DeviceError, match="UTF-16"):
        find_profile(str(folder / "wide.toml"))


def test_a_pipe_is_not_waited_for(folder: Path) -> None:
    os.mkfifo(folder / "pipe.toml")
    with pytest.raises(DeviceError, match="can't be read: it is a pipe, no ordinary file"):
        find_profile("pipe", folder)


def test_a_byte_order_mark_and_windows_line_ends_are_read(folder: Path) -> None:
    path = folder / "mine.toml"
    path.write_bytes('\ufefftitle = "t"\r\nunit = "K"\r\n'.encode())
    assert read_profile(path).unit is Unit.KELVIN
    path.write_bytes('\ufefftitle = "t"\r\nunit = "K"\r\nbaud = 1\r\n'.encode())
    with pytest.raises(DeviceError, match=r"mine\.toml:3: baud is 1; write a whole number from 50 to 4000000"):
        read_profile(path)


@pytest.mark.parametrize(
    ("line", "attribute", "value"),
    [
        ('jump = "300 K"', "jump", 300.0),
        ('jump = "90 degC"', "jump", 90.0),
        ('jump = "90 °F"', "jump", 50.0),
        ('lowest = "-20 degC"', "lowest", 253.15),
        ('lowest = "300 K"', "lowest", 300.0),
        ('highest = "2372 degF"', "highest", 1573.15),
        ('silence = "5 s"', "silence", 5.0),
        ('silence = "1 min"', "silence", 60.0),
        ('silence = "1 min 30 s"', "silence", 90.0),
    ],
)
def test_quantities_are_read_as_in_plans(folder: Path, line: str, attribute: str, value: float) -> None:
    profile = read_profile(write(folder, f'title = "t"\nunit = "K"\n{line}\n'))
    assert getattr(profile, attribute) == pytest.approx(value)


def test_spaces_around_a_pattern_and_an_example_count(folder: Path) -> None:
    profile = read_profile(write(folder, 'title = "t"\nunit = "K"\npattern = " {value} x"\nexample = " 900 x"\n'))
    assert (profile.pattern, profile.example) == ((" {value} x",), " 900 x")


def test_the_lag_of_a_probe(folder: Path) -> None:
    start = 'title = "In a sheath"\nunit = "degC"\n'
    assert read_profile(write(folder, start)).lag == 0.0
    assert read_profile(write(folder, start + 'lag = "8 s"\n')).lag == 8.0
    with pytest.raises(DeviceError, match=r"mine.toml:3: lag is 600 s; it must lie between zero and two minutes"):
        read_profile(write(folder, start + 'lag = "10 min"\n'))
