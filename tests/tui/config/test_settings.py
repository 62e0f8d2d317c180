"""The smith's settings: what is read, and what is said of a file that is wrong."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from plans.reading import ProbeOn
from plans.sitting.saying import Volume
from plans.units import Units
from plans.warmth import HeatNames
from tui.config.settings import PedalSetting, ProbeSetting, Settings
from tui.config.settings_reader import read_settings


def read(folder: Path, text: str) -> tuple[Settings, list[str]]:
    path = folder / "heatbook.toml"
    path.write_text(text)
    return read_settings(path)


def test_no_file_is_as_good_as_an_empty_one(tmp_path: Path) -> None:
    assert read_settings(tmp_path / "none.toml") == (Settings(), [])
    assert read(tmp_path, "") == (Settings(), [])


def test_all_that_can_be_set(tmp_path: Path) -> None:
    text = """
units = "inch"
heat_names = "taylor"
blocks = true
bell = false
mute = true
talk = "few"
repeat_for = "90 s"
speech = "espeak-ng -v en -s 150"

[pedal]
key = "f5"
line = "dsr"
power = "dtr"
port = "/dev/ttyUSB1"

[probe]
port = "/dev/ttyUSB0"
profile = "labelled"
on = "fire"

[keys]
next = "enter"
undo = "backspace"
"""
    settings, wrong = read(tmp_path, text)
    assert wrong == []
    assert settings == Settings(
        keys={
            "next": "enter,f5",
            "undo": "backspace",
            "finished.review": "space,f5",
            "shelf.begin": "enter,space,f5",
            "log.open": "enter,space,f5",
        },
        units=Units.INCH,
        heat_names=HeatNames.TAYLOR,
        blocks=True,
        bell=False,
        mute=True,
        talk=Volume.FEW,
        repeat_for=90.0,
        speech="espeak-ng -v en -s 150",
        pedal=PedalSetting("f5", "dsr", "dtr", "/dev/ttyUSB1"),
        probe=ProbeSetting("/dev/ttyUSB0", "labelled", ProbeOn.FIRE),
    )


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ('units = "imperial"', ':2: units is \'imperial\'; write "metric" or "inch"'),
        ('heat_names = "howe"', ':2: heat_names is \'howe\'; write "chapman", "taylor" or "stirling"'),
        ("mute = 1", ":2: mute is 1; write true or false"),
        ("bell = 0", ":2: bell is 0; write true or false"),
        ("repeat_for = 300", ":2: repeat_for is a bare number; write a time in quotes, with its unit"),
        ('repeat_for = "25 h"', ':2: repeat_for is \'25 h\'; write a time from "0 s", for never, to "24 h"'),
        ("talk = 3", ':2: talk is 3; write "few", "normal", "all" or "nothing"'),
        ("speech = 3", ":2: speech is 3; write a command"),
        ("pedal = 3", ":2: pedal is no table; write [pedal]"),
        ('pedal.foot = "x"', ":2: pedal has no foot; there are key, line, power, port"),
        ('pedal.line = "rts"', ":2: line is 'rts'; write one of cts, dsr"),
        ('pedal.power = "cts"', ":2: power is 'cts'; write one of rts, dtr, none"),
        ("pedal.key = 5", ":2: key is 5; write a text"),
        ('pedal.key = "ctrl+c"', ":2: the pedal can't have the key ctrl+c; it is kept for the terminal"),
        ('pedal.key = "u"', ":2: the pedal sends u, which is the key of undo; move that one"),
        ('pedal.port = "/dev/ttyUSB1"', ":2: the pedal has a port, but no line that its switch closes"),
        ('colour = "red"', ":2: there is no setting colour; there are "),
        ('keys = "x"', ":2: keys is no table"),
        ('keys.nxt = "x"', ":2: there is no action nxt; there are help,"),
        ("keys.next = 5", ":2: next is 5; write a key"),
        ('keys.next = ""', ":2: next is ''; write a key"),
        ('keys.next = "ctrl+c"', ":2: next can't have the key ctrl+c; it is kept for the terminal"),
        ('keys.next = "u"', ":2: next and undo would share the key u; choose another"),
        ('keys.next = "question_mark"', ":2: next and help would share the key question_mark; choose another"),
        ("probe = 1", ":2: probe names no port"),
        ('probe = {port = " "}', ":2: port is empty; leave [probe] out, or name a port"),
        ('probe = {port = "x", on = "anvil"}', ':2: on is \'anvil\'; write "work" or "fire"'),
        ('probe = {port = "x", speed = 9600}', ":2: probe has no speed; there are port, profile, on"),
    ],
)
def test_what_is_wrong_is_told_with_its_place_and_the_rest_holds(tmp_path: Path, line: str, told: str) -> None:
    settings, wrong = read(tmp_path, f"blocks = true\n{line}\n")
    assert len(wrong) == 1
    assert told in wrong[0]
    assert settings.blocks
    assert settings.keys == {}
    assert settings.units is Units.METRIC
    assert settings.mute is False


def test_keys_may_change_places(tmp_path: Path) -> None:
    settings, wrong = read(tmp_path, '[keys]\nundo = "n"\nnote = "u"\n')
    assert wrong == []
    assert settings.keys == {"undo": "n", "note": "u"}


@pytest.mark.parametrize("content", [b"units = ", b"\xff\xfe", b"[" * 5000, b"#" * 200_000])
def test_a_file_that_can_not_be_read_leaves_what_ships(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "heatbook.toml"
    path.write_bytes(content)
    settings, wrong = read_settings(path)
    assert settings == Settings()
    assert len(wrong) == 1
    assert "going by the settings that ship" in wrong[0]


def test_a_folder_in_its_place(tmp_path: Path) -> None:
    settings, wrong = read_settings(tmp_path)
    assert settings == Settings()
    assert "can't be read" in wrong[0]


def test_a_pipe_in_its_place_is_not_waited_for(tmp_path: Path) -> None:
    path = tmp_path / "heatbook.toml"
    os.mkfifo(path)
    settings, (wrong,) = read_settings(path)
    assert settings == Settings()
    assert wrong == f"{path}: can't be read: it is a pipe, no ordinary file; going by the settings that ship"


def test_syntax_is_told_with_its_line(tmp_path: Path) -> None:
    (wrong,) = read(tmp_path, "mute = true\nunits = \n")[1]
    assert "heatbook.toml:2: this is no TOML" in wrong


def test_a_slip_of_the_pen_is_told_what_was_meant(tmp_path: Path) -> None:
    assert ":1: there is no setting unit; perhaps units" in read(tmp_path, "unit = 'inch'\n")[1][0]
