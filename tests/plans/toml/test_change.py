"""Setting one value in a TOML text: what it means then, and that all else in it stays as it was written."""

from __future__ import annotations

import tomllib

import pytest

from plans.toml.change import TomlChangeError, changed, without
from plans.toml.file import parse_toml

NOTED = "Learned today"


def set_key(text: str, *, note: str = "") -> str:
    return changed(parse_toml(text, "mine.toml"), ("pedal", "key"), "f5", note)


def others(text: str) -> list[str]:
    """The lines of a text that have nothing to do with the key."""
    return [line for line in text.splitlines() if line and "key" not in line and "pedal" not in line]


TEXTS = {
    "nothing": "",
    "only a comment": "# mine\n",
    "no line end": "[keys]\nundo = 'x'",
    "other tables": "mute = true # at night\n\n# keys\n[keys]\nundo = 'x'\n[[list]]\n[[list]]\na = 1\n",
    "a table": "# top\n[pedal] # mine\n# the switch\nline = 'cts'\n\n# My keys\n[keys]\nundo = 'x'\n",
    "an empty table": "[pedal]\n[keys]\n",
    "the key": "[pedal]\nline = 'cts'\nkey = 'a'  # old\n\n[keys]\n",
    "a key in quotes": "[\"pedal\"]\n'key' = 'a'\n",
    "an inline table": "pedal = { line = 'cts' } # mine\nmute = true\n",
    "an empty inline table": "pedal = {}\n",
    "an empty inline table behind dots": "pedal . sub = {}\nmute = true\n",
    "a key in an inline table": "pedal = { key = 'a', line = 'cts' }\n",
    "dotted keys": "pedal.line = 'cts' # mine\n# at night\nmute = true\n",
    "a dotted key": "pedal.line = 'cts'\npedal . key = 'a'\nmute = true\n",
    "a table below": "[pedal.sub]\nx = 1\n",
    "a table in two places": "[pedal]\nline = 'cts'\n[keys]\nundo = 'x'\n[pedal.sub]\nx = 1\n",
    "windows line ends": "# mine\r\n[pedal]\r\nline = 'cts'\r\n\r\n[keys]\r\nundo = 'x'\r\n",
    "indented": "\t[pedal]\n\t\tline = 'cts'\n\t\tkey = 'a'\n",
    "a byte order mark": "\ufeff[pedal]\nline = 'cts'\n",
}


@pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS)
def test_the_value_is_set_and_nothing_else_changes(text: str) -> None:
    after = set_key(text)
    wanted = tomllib.loads(text.removeprefix("\ufeff"))
    wanted.setdefault("pedal", {})["key"] = "f5"
    assert tomllib.loads(after) == wanted
    assert others(after) == others(text)
    assert ("\r\n" in after) == ("\r\n" in text)
    assert after.count("\n") == after.count("\r\n") or "\r\n" not in text
    for comment in ("# mine", "# top", "# the switch", "# My keys", "# at night", "# keys"):
        assert (comment in after) == (comment in text)
    assert set_key(after) == after


def test_a_new_key_does_not_come_between_a_comment_and_what_it_is_on() -> None:
    assert set_key(TEXTS["a table"]) == TEXTS["a table"].replace("# mine\n", '# mine\nkey = "f5"\n')


def test_a_comment_on_the_old_value_goes_with_it() -> None:
    assert set_key(TEXTS["the key"]) == "[pedal]\nline = 'cts'\nkey = \"f5\"\n\n[keys]\n"


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("", "# Learned today\nfactor = 1.5\n"),
        ("a = 1\n", "# Learned today\nfactor = 1.5\na = 1\n"),
        ("# Learned once\n# Learned twice\nfactor = 1\n", "# Learned today\nfactor = 1.5\n"),
        ("# Learned once\n\nfactor = 1\n", "# Learned once\n\n# Learned today\nfactor = 1.5\n"),
        ("# mine\r\nfactor = 1 # old\r\n", "# mine\r\n# Learned today\r\nfactor = 1.5\r\n"),
    ],
)
def test_a_note_stands_above_in_place_of_the_one_before(before: str, after: str) -> None:
    assert changed(parse_toml(before, "mine.toml"), ("factor",), 1.5, NOTED) == after


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("pedal = 5\n", "pedal is no table"),
        ("[[pedal]]\nkey = 'a'\n", "pedal is no table"),
        ("[pedal.key]\nx = 1\n", "pedal.key holds more than one value"),
        ("pedal.key = ['a']\n", "pedal.key holds more than one value"),
    ],
)
def test_what_is_more_than_a_value_is_not_written_over(text: str, told: str) -> None:
    with pytest.raises(TomlChangeError, match=f"^mine.toml: {told}$"):
        set_key(text)


@pytest.mark.parametrize("note", ["Learned\nb = 1", "Learned\r\nb = 1", "Learned \x07"])
def test_a_note_sets_nothing(note: str) -> None:
    try:
        text = changed(parse_toml("[pedal]\n", "mine.toml"), ("a",), 1, note)
    except TomlChangeError:
        return
    assert tomllib.loads(text) == {"a": 1, "pedal": {}}


def test_a_value_over_several_lines_goes_whole() -> None:
    text = '[pedal]\nkey = """\na\n[keys]\n"""\nline = "cts"\n'
    assert set_key(text) == '[pedal]\nkey = "f5"\nline = "cts"\n'


@pytest.mark.parametrize(
    ("text", "path"),
    [
        ("a = {}\n", ("a", "new")),
        ("a = {b = 1}\n", ("a", "new")),
        ("a.b = {}\n", ("a", "new")),
        ("a.b = {}\n", ("a", "b", "new")),
        ("a = {b = {}}\n", ("a", "b", "new")),
        ("a.b.c = 1\n", ("a", "b", "new")),
        ("[a]\nb.c = 1\n", ("a", "b", "new")),
        ("[a]\nc = 1\n", ("a", "b", "new")),
    ],
)
@pytest.mark.parametrize("note", ["", NOTED])
def test_tables_within_tables_are_added_to(text: str, path: tuple[str, ...], note: str) -> None:
    table = tomllib.loads(changed(parse_toml(text, "mine.toml"), path, 1, note))
    for part in path[:-1]:
        table = table[part]
    assert table["new"] == 1


@pytest.mark.parametrize("value", ['say "x"', "\\", "a\nb", "\x07", "é", True, -3, 0.1, 1e300])
def test_any_value_comes_back_as_it_was(value: str | bool | int | float) -> None:
    text = changed(parse_toml("b = 1\n", "mine.toml"), ("a",), value)
    assert tomllib.loads(text) == {"a": value, "b": 1}


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("a = 1\n[t]\nb = 1\n", "a = 1\nnew = 1\n[t]\nb = 1\n"),
        ("# a\na = 1 # mine\n\nb = 2\n", "# a\na = 1 # mine\nnew = 1\n\nb = 2\n"),
        ("b = 2\r\na = 1\r\n", "b = 2\r\na = 1\r\nnew = 1\r\n"),
        ("b = 2\n", "new = 1\nb = 2\n"),
        ("new = 2\na = 1\n", "new = 1\na = 1\n"),
    ],
)
def test_a_new_key_stands_below_another(before: str, after: str) -> None:
    assert changed(parse_toml(before, "mine.toml"), ("new",), 1, below="a") == after


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("a = 1\n", ""),
        ("b = 2\n", "b = 2\n"),
        ("# top\na = 1 # old\n# below\nb = 2\n", "# top\n# below\nb = 2\n"),
        ("b = 2\r\na = 1\r\n[t]\r\na = 3\r\n", "b = 2\r\n[t]\r\na = 3\r\n"),
        ('a = """\n1\n"""\nb = 2\n', "b = 2\n"),
    ],
)
def test_a_key_is_taken_out_and_nothing_else_changes(before: str, after: str) -> None:
    assert without(parse_toml(before, "mine.toml"), "a") == after


@pytest.mark.parametrize("text", ["[a]\nx = 1\n", "a = [1]\n", "a.b = 1\n"])
def test_a_table_is_not_taken_out(text: str) -> None:
    with pytest.raises(TomlChangeError, match=r"^mine\.toml: a holds more than one value$"):
        without(parse_toml(text, "mine.toml"), "a")
